/**
 * The records' part of the API's description (OpenAPI 3.1): every address of the records, under each store that it is mounted on.
 */
import type { OpenAPIRegistry, RouteConfig } from "@asteasolutions/zod-to-openapi";
import type { ProblemKind } from "../problems.ts";
import { importedSchema } from "../wire/archive.ts";
import { z } from "../wire/schema.ts";
import { type Asked, instrumentPath, recordAddresses, visitPath } from "./recordAddresses.ts";

type Answers = RouteConfig["responses"];

/** How the description words answers and refusals (apiDescription.ts). */
export type Wording = {
  answer(description: string, schema: z.ZodType): Answers[number];
  refusals(kinds: readonly ProblemKind[]): Answers;
};

const zipFile = z.string().openapi({ format: "binary" });

export function describeRecords(registry: OpenAPIRegistry, { answer, refusals }: Wording): void {
  describeImport(registry, { answer, refusals });
  for (const { base, prefix } of [
    { base: "/api", prefix: "" },
    { base: "/invented/api", prefix: "invented" },
  ]) {
    for (const route of recordAddresses) registry.registerPath(routeAt(base, prefix, route, { answer, refusals }));
    registry.registerPath({
      ...{ method: "get", path: `${base}${instrumentPath}/history.csv`, operationId: named(prefix, "historyCsv") },
      summary: "Its history as CSV: a row a visit, oldest first.",
      request: { params: paramsOf(instrumentPath) },
      responses: {
        200: { description: "The table.", content: { "text/csv": { schema: z.string() } } },
        ...refusals(["sign-in-needed", "not-found", "store-unavailable"]),
      },
    });
    registry.registerPath({
      ...{ method: "get", path: `${base}/archive`, operationId: named(prefix, "exportArchive") },
      summary: "Every record as one archive of plain CSV and JSON; its README.txt says what lies where. The owner's.",
      responses: {
        200: { description: "The archive.", content: { "application/zip": { schema: zipFile } } },
        ...refusals(["sign-in-needed", "owner-only", "store-unavailable"]),
      },
    });
    for (const part of ["readings", "thickness", "rail"]) {
      registry.registerPath({
        ...{ method: "get", path: `${base}${visitPath}/${part}.csv`, operationId: named(prefix, `given-${part}`) },
        summary: `The ${part} of a visit, byte for byte as they were given.`,
        request: { params: paramsOf(visitPath) },
        responses: {
          200: { description: "The file.", content: { "text/csv": { schema: z.string() } } },
          ...refusals(["sign-in-needed", "not-found", "store-unavailable"]),
        },
      });
    }
  }
}

/** Only the workshop's own store takes an archive in. */
function describeImport(registry: OpenAPIRegistry, { answer, refusals }: Wording): void {
  registry.registerPath({
    ...{ method: "post", path: "/api/archive", operationId: "importArchive" },
    summary: "Take an archive in: each visit whole, nothing that is here is written over. The owner's.",
    request: { body: { required: true, content: { "application/zip": { schema: zipFile } } } },
    responses: {
      200: answer("What came of it.", importedSchema),
      ...refusals([
        ...(["sign-in-needed", "broken-request", "owner-only", "foreign-origin", "too-slow", "too-large"] as const),
        ...(["not-a-zip", "not-an-archive", "store-unavailable"] as const),
      ]),
    },
  });
}

function routeAt(base: string, prefix: string, route: Asked, { answer, refusals }: Wording): RouteConfig {
  const { method, path, id, summary, status = 200, schema, refused = [], body, query } = route;
  const params = path.includes("{") ? paramsOf(path) : null;
  const found = params === null ? [] : (["not-found"] as const);
  return {
    ...{ method, path: `${base}${path}`, operationId: named(prefix, id), summary },
    request: {
      ...(params === null ? {} : { params }),
      ...(query === undefined ? {} : { query }),
      ...(body === undefined ? {} : { body: { required: true, content: { [body.type]: { schema: body.schema } } } }),
    },
    responses: {
      [status]: answer("The answer.", schema),
      ...(id === "keepVisit" ? { 200: answer("Exactly this visit is there already.", schema) } : {}),
      ...refusals(["sign-in-needed", "broken-request", ...found, ...refused, "store-unavailable"]),
    },
  };
}

function paramsOf(path: string): z.ZodObject {
  const names = [...path.matchAll(/\{(\w+)\}/g)].map(([, name = ""]) => name);
  return z.object(Object.fromEntries(names.map((name) => [name, z.string()])));
}

function named(prefix: string, id: string): string {
  return prefix === "" ? id : `${prefix}-${id}`;
}
