/** The API's description against the running server: every address it names answers as it says, and no other is hidden. */
import { afterAll, beforeAll, expect, test } from "vitest";
import type { z } from "zod";
import { settingTable } from "../../../../server/core/board/settingTable.ts";
import { loadExamples } from "../../../../server/exampleBoards.ts";
import { problems } from "../../../../server/http/problems.ts";
import { examinationSchema } from "../../../../server/http/wire/examination.ts";
import { examplesSchema } from "../../../../server/http/wire/examples.ts";
import { healthSchema } from "../../../../server/http/wire/health.ts";
import { kindsSchema } from "../../../../server/http/wire/kinds.ts";
import { formOf, type ServerUnderTest, startServer } from "../serverUnderTest.ts";

type Operation = {
  readonly parameters?: readonly { readonly name: string }[];
  readonly responses: Readonly<
    Record<string, { readonly content: Readonly<Record<string, { readonly schema: object }>> }>
  >;
};
type Description = {
  readonly openapi: string;
  readonly paths: Readonly<Record<string, Readonly<Record<string, Operation>>>>;
  readonly components: { readonly schemas: Readonly<Record<string, object>> };
};

let server: ServerUnderTest;
let description: Description;

beforeAll(async () => {
  const folder = new URL("../../../../data/examples", import.meta.url).pathname;
  server = await startServer({ examples: loadExamples(folder) });
  description = await (await fetch(`${server.url}/api/openapi.json`)).json();
});
afterAll(() => server.stop());

test("it is OpenAPI 3.1, and what it says of the examination is what the core says", () => {
  expect(description.openapi).toBe("3.1.0");
  expect(Object.keys(description.components.schemas)).toEqual(
    expect.arrayContaining(["Examination", "Problem", "Fault", "Kinds", "Figure", "Quantity"]),
  );
});

test("every reference in it leads to something", () => {
  const references = [...JSON.stringify(description).matchAll(/"\$ref":"#\/components\/schemas\/(\w+)"/g)];
  expect(references.length).toBeGreaterThan(10);
  for (const [, name] of references) expect(description.components.schemas).toHaveProperty(name!);
});

/** The schema of each answer that is JSON; the others are CSV and this description. */
const schemas: Readonly<Record<string, z.ZodType>> = {
  "/api/examinations": examinationSchema,
  "/api/health": healthSchema,
  "/api/kinds": kindsSchema,
  "/api/examples": examplesSchema,
};

test("every address it names answers 200 with the content it names, as the schema says and with no field more", async () => {
  const { examples } = await (await fetch(`${server.url}/api/examples`)).json();
  const checked: string[] = [];
  // The records' addresses are gone through in records.test.ts and archive.test.ts, the session's in access/signIn.test.ts.
  const paths = Object.entries(description.paths).filter(
    ([path]) => !/^(\/invented)?\/api\/(instruments|due|archive|session)/.test(path),
  );
  for (const [path, operations] of paths) {
    for (const [method, operation] of Object.entries(operations)) {
      // Not every example has a rail's profile: one that has every file.
      const whole = examples.find((example: { rail: string | null }) => example.rail !== null);
      const response = await fetch(`${server.url}${path.replace("{id}", whole.id)}`, {
        method: method.toUpperCase(),
        ...(method === "post" ? { body: formOf({ readings: "x,y,height\n" }) } : {}),
      });
      expect(response.status, `${method} ${path}`).toBe(200);
      const type = response.headers.get("content-type")?.split(";")[0] ?? "";
      expect(Object.keys(operation.responses["200"]!.content)).toEqual([type]);
      const schema = schemas[path];
      if (schema !== undefined) {
        const body = await response.json();
        // A schema passes over fields that it does not know; compared with what came, they would show.
        expect(schema.parse(body)).toEqual(body);
      }
      checked.push(path);
    }
  }
  expect(checked.sort()).toEqual([
    "/api/examinations",
    "/api/examples",
    "/api/examples/{id}/rail.csv",
    "/api/examples/{id}/readings.csv",
    "/api/examples/{id}/thickness.csv",
    "/api/health",
    "/api/kinds",
    "/api/openapi.json",
  ]);
});

test("the refusals it names for an examination are all that the server has for one", () => {
  const documented = Object.keys(description.paths["/api/examinations"]!.post!.responses).map(Number);
  // 405 belongs to other methods, 404 to other addresses; 409, 412 and 428 to records; 431 comes before any address is known.
  const elsewhere = [404, 405, 409, 412, 428, 431];
  const all = Object.values(problems).map(({ status }) => status);
  expect(documented.sort()).toEqual([...new Set([200, ...all])].filter((status) => !elsewhere.includes(status)).sort());
});

test("the settings of the form are those of the core's table", () => {
  const text = JSON.stringify(description.paths["/api/examinations"]);
  for (const { key } of settingTable) expect(text).toContain(`"${key}":`);
});
