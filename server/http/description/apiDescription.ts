/**
 * The API's description (OpenAPI 3.1), made from the same schemas that check requests and, in the tests, answers.
 */
import { OpenAPIRegistry, OpenApiGeneratorV31, type RouteConfig } from "@asteasolutions/zod-to-openapi";
import { settingTable } from "../../core/board/settingTable.ts";
import { type ProblemKind, problems } from "../problems.ts";
import { examinationSchema } from "../wire/examination.ts";
import { examplesSchema } from "../wire/examples.ts";
import { healthSchema } from "../wire/health.ts";
import { kindsSchema } from "../wire/kinds.ts";
import { examinationQuerySchema } from "../wire/points.ts";
import { problemSchema } from "../wire/problem.ts";
import { z } from "../wire/schema.ts";
import { settingTextSchema } from "../wire/settings.ts";
import { describeRecords } from "./records.ts";
import { describeSession } from "./session.ts";

/** `through-proxy` where no passwords are asked for, `too-often` where they are. */
const always = ["through-proxy", "foreign-host", "too-often", "failed"] as const satisfies readonly ProblemKind[];

export function apiDescription(version: string, uploadLimitBytes: number): object {
  const registry = new OpenAPIRegistry();
  registry.registerPath({
    method: "post",
    path: "/api/examinations",
    operationId: "examine",
    summary: "Examine a board from its readings.",
    request: {
      query: examinationQuerySchema,
      body: { required: true, content: { "multipart/form-data": { schema: examinationFormSchema() } } },
    },
    responses: {
      200: answer("The examination. Lengths in mm.", examinationSchema),
      ...refusals([
        "sign-in-needed",
        "broken-request",
        "broken-form",
        "missing-part",
        "unknown-part",
        "repeated-part",
        "broken-settings",
        "unknown-points",
        "foreign-origin",
        "too-slow",
        "too-large",
        "not-a-form",
        "faulty",
        "busy",
      ]),
    },
  });
  registry.registerPath(
    plainGet(
      "/api/health",
      "health",
      "Is the server up, which version is it, and can its records be reached?",
      healthSchema,
      ["store-unavailable"],
    ),
  );
  registry.registerPath(
    plainGet(
      "/api/kinds",
      "kinds",
      "Every instrument with its figures and their origins; every setting.",
      kindsSchema,
      ["sign-in-needed"],
    ),
  );
  registry.registerPath(
    plainGet("/api/examples", "examples", "The example boards.", examplesSchema, ["sign-in-needed"]),
  );
  for (const file of ["readings", "thickness", "rail"] as const) {
    registry.registerPath({
      method: "get",
      path: `/api/examples/{id}/${file}.csv`,
      operationId: `example${file.charAt(0).toUpperCase()}${file.slice(1)}`,
      summary: file === "rail" ? "The error profile of an example's rail." : `The ${file} of an example board.`,
      request: { params: z.object({ id: z.string() }) },
      responses: {
        200: { description: "The file.", content: { "text/csv": { schema: z.string() } } },
        ...refusals(["sign-in-needed", "not-found"]),
      },
    });
  }
  registry.registerPath(
    plainGet("/api/openapi.json", "description", "This description.", z.looseObject({}), ["sign-in-needed"]),
  );

  describeSession(registry, { answer, refusals });
  describeRecords(registry, { answer, refusals });

  return new OpenApiGeneratorV31(registry.definitions).generateDocument({
    openapi: "3.1.0",
    info: {
      title: "Boardtrue",
      version,
      description:
        "Wear, least cut and verdict for the fingerboard of a bowed string instrument, from height readings. " +
        "Lengths in mm; x from the nut, y positive towards the treble side, z away from the neck. " +
        `One request may have ${uploadLimitBytes} bytes. Every refusal is application/problem+json (RFC 9457).`,
      license: { name: "MIT", identifier: "MIT" },
    },
    servers: [{ url: "/" }],
  });
}

/** What POST /api/examinations takes; the settings are those of the core's own table. */
function examinationFormSchema() {
  const keys = settingTable.map(({ key, meaning }) => [
    key,
    settingTextSchema.optional().openapi({ description: meaning }),
  ]);
  return z.object({
    readings: z.string().openapi({ description: "CSV of height readings." }),
    thickness: z.string().optional().openapi({ description: "CSV of thickness readings: x, side, thickness." }),
    rail: z
      .string()
      .optional()
      .openapi({ description: "CSV of the rail's error profile: x, error, and if wanted u (expanded, k = 2)." }),
    settings: z
      .strictObject(Object.fromEntries(keys) as Record<string, z.ZodType>)
      .optional()
      .openapi({ description: "A JSON object. It wins over settings in the file. Lengths in mm." }),
  });
}

function plainGet(
  path: string,
  operationId: string,
  summary: string,
  schema: z.ZodType,
  kinds: readonly ProblemKind[],
): RouteConfig {
  return {
    method: "get",
    path,
    operationId,
    summary,
    responses: { 200: answer("The answer.", schema), ...refusals(kinds) },
  };
}

function answer(description: string, schema: z.ZodType) {
  return { description, content: { "application/json": { schema } } };
}

/** Several kinds may share a status: one entry each status, its description naming them all. */
function refusals(kinds: readonly ProblemKind[]) {
  const byStatus = new Map<number, string[]>();
  for (const kind of [...kinds, ...always]) {
    const { status, title } = problems[kind];
    byStatus.set(status, [...(byStatus.get(status) ?? []), title]);
  }
  return Object.fromEntries(
    [...byStatus].map(([status, titles]) => [
      status,
      { description: `${titles.join("; ")}.`, content: { "application/problem+json": { schema: problemSchema } } },
    ]),
  );
}
