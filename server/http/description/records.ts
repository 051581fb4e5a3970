/**
 * The records' part of the API's description (OpenAPI 3.1): every address of the records, under each store that it is mounted on.
 */
import type { OpenAPIRegistry, RouteConfig } from "@asteasolutions/zod-to-openapi";
import { pageLimits } from "./paging.ts";
import type { ProblemKind } from "./problems.ts";
import { importedSchema } from "./wire/archive.ts";
import { betweenSchema } from "./wire/between.ts";
import {
  instrumentChangesSchema,
  instrumentSchema,
  instrumentsSchema,
  newInstrumentSchema,
} from "./wire/instruments.ts";
import { z } from "./wire/schema.ts";
import { dueSchema, storySchema } from "./wire/story.ts";
import {
  examinationKeptSchema,
  examinationsSchema,
  examinedAgainSchema,
  playerGivenSchema,
  playerSchema,
  visitChangesSchema,
  visitSchema,
  visitsSchema,
} from "./wire/visits.ts";

type Answers = RouteConfig["responses"];

/** How the description words answers and refusals (apiDescription.ts). */
export type Wording = {
  answer(description: string, schema: z.ZodType): Answers[number];
  refusals(kinds: readonly ProblemKind[]): Answers;
};

type Asked = {
  readonly method: RouteConfig["method"];
  readonly path: string;
  readonly id: string;
  readonly summary: string;
  readonly status?: 200 | 201;
  readonly schema: z.ZodType;
  readonly refused?: readonly ProblemKind[];
  readonly body?: { readonly type: "application/json" | "multipart/form-data"; readonly schema: z.ZodType };
  readonly query?: z.ZodObject;
};

const limit = z
  .string()
  .optional()
  .openapi({ description: `How many at once, 1 to ${pageLimits.most}; ${pageLimits.usual} without it.` });
const after = z
  .string()
  .optional()
  .openapi({ description: "Where this part begins: from the `next` of the part before." });
const page = z.object({ limit, after });
const changed = ["not-json", "broken-json", "faulty", "too-large", "foreign-origin"] as const;
const guarded = [...changed, "say-which-revision", "changed-meanwhile"] as const;
const uploaded = [
  ...(["broken-form", "missing-part", "unknown-part", "repeated-part", "broken-settings", "foreign-origin"] as const),
  ...(["too-slow", "too-large", "not-a-form", "faulty", "same-readings", "busy"] as const),
];

const text = (description: string) => z.string().optional().openapi({ description });
const visitForm = z.object({
  readings: z.string().openapi({ description: "CSV, as for an examination; kept byte for byte." }),
  thickness: text("CSV of thickness readings."),
  rail: text("CSV of the rail's error profile."),
  settings: text("A JSON object of settings; wins over the file, which wins over the instrument's record."),
  date: z.string().openapi({ description: "ISO 8601, a day or an instant." }),
  reason: text("Why it came."),
  gauge: text("Which gauge."),
  rail_used: text("Which rail."),
  humidity: text("Percent of saturation."),
  hours_played: text("Since the visit before."),
  decision_taken: text("What was decided."),
  work_done: text("What was done."),
  work_notes: text("Words about the work."),
  after_visit: text("Id of the visit that this one measures again after the work."),
  player_hand: text("Concerns a person: kept apart, erased alone."),
  player_notes: text("Concerns a person: kept apart, erased alone."),
  same: z
    .enum(["keep", "ask"])
    .optional()
    .openapi({ description: "Readings kept elsewhere already: keep, or ask first." }),
});

const instrumentPath = "/instruments/{number}";
const visitPath = `${instrumentPath}/visits/{id}`;
const json = (schema: z.ZodType) => ({ type: "application/json", schema }) as const;

const routes: readonly Asked[] = [
  {
    ...{ method: "get", path: "/instruments", id: "findInstruments", summary: "Instruments by number as one types." },
    ...{ schema: instrumentsSchema, query: page.extend({ find: text("The beginning or a part of a number.") }) },
    refused: ["unknown-page"],
  },
  {
    ...{ method: "post", path: "/instruments", id: "addInstrument", summary: "Add an instrument.", status: 201 },
    ...{ schema: instrumentSchema, body: json(newInstrumentSchema), refused: [...changed, "number-taken"] },
  },
  { method: "get", path: instrumentPath, id: "instrument", summary: "An instrument.", schema: instrumentSchema },
  {
    ...{ method: "patch", path: instrumentPath, id: "changeInstrument", summary: "Change an instrument." },
    ...{ schema: instrumentSchema, body: json(instrumentChangesSchema), refused: [...guarded, "number-taken"] },
  },
  {
    ...{ method: "get", path: `${instrumentPath}/story`, id: "story", schema: storySchema },
    summary: "An instrument with its visits, how fast it wears and when it is likely due.",
  },
  {
    ...{ method: "get", path: `${instrumentPath}/visits`, id: "visits", summary: "Its visits, newest first." },
    ...{ schema: visitsSchema, query: page, refused: ["unknown-page"] },
  },
  {
    ...{ method: "post", path: `${instrumentPath}/visits`, id: "keepVisit", status: 201, schema: visitSchema },
    summary: "Keep a visit. 201 once it is safe; 200 where exactly this visit is there already.",
    ...{ body: { type: "multipart/form-data", schema: visitForm }, refused: uploaded },
  },
  { method: "get", path: visitPath, id: "visit", summary: "A visit and its examination.", schema: visitSchema },
  {
    ...{ method: "patch", path: visitPath, id: "changeVisit", summary: "Change what is written down about a visit." },
    ...{ schema: visitSchema, body: json(visitChangesSchema), refused: [...guarded, "owner-only"] },
  },
  {
    ...{ method: "get", path: `${visitPath}/since`, id: "since", schema: betweenSchema },
    summary: "How much wear grew since an earlier visit.",
    query: z.object({ visit: text("Id of the earlier visit; without it the visit before.") }),
  },
  {
    ...{ method: "get", path: `${visitPath}/examinations`, id: "examinations", summary: "Its examinations." },
    ...{ schema: examinationsSchema, query: page, refused: ["unknown-page"] },
  },
  {
    ...{ method: "post", path: `${visitPath}/examinations`, id: "examineAgain", status: 201 },
    ...{ summary: "Examine its readings again by this version.", schema: examinedAgainSchema },
    refused: ["faulty", "foreign-origin"],
  },
  {
    ...{ method: "get", path: `${visitPath}/examinations/{ordinal}`, id: "examination" },
    ...{ summary: "One of its examinations.", schema: examinationKeptSchema },
  },
  {
    method: "get",
    path: `${visitPath}/player`,
    id: "player",
    summary: "The player's hand and notes.",
    schema: playerSchema,
  },
  {
    ...{ method: "put", path: `${visitPath}/player`, id: "setPlayer", summary: "Write the player's hand and notes." },
    ...{ schema: playerSchema, body: json(playerGivenSchema), refused: [...guarded] },
  },
  {
    ...{ method: "delete", path: `${visitPath}/player`, id: "erasePlayer", summary: "Erase them." },
    ...{ schema: z.object({ erased: z.number().int() }), refused: ["owner-only", "foreign-origin"] },
  },
  {
    ...{ method: "delete", path: `${instrumentPath}/players`, id: "erasePlayers" },
    summary: "Erase all that concerns a person at any visit of an instrument.",
    ...{ schema: z.object({ erased: z.number().int() }), refused: ["owner-only", "foreign-origin"] },
  },
  {
    ...{ method: "get", path: "/due", id: "due", summary: "What is due: reached first, then the soonest." },
    ...{ schema: dueSchema, query: page, refused: ["unknown-page"] },
  },
];

const zipFile = z.string().openapi({ format: "binary" });

export function describeRecords(registry: OpenAPIRegistry, { answer, refusals }: Wording): void {
  describeImport(registry, { answer, refusals });
  for (const { base, prefix } of [
    { base: "/api", prefix: "" },
    { base: "/invented/api", prefix: "invented" },
  ]) {
    for (const route of routes) registry.registerPath(routeAt(base, prefix, route, { answer, refusals }));
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
