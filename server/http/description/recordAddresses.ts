/**
 * The addresses of the records, one entry each: what is asked, what is answered, how it can be refused. Read by records.ts.
 *
 * Paths from where the records are mounted. What every address has in common (signing in, a store out of reach, a record that is not
 * there) is not repeated here.
 */
import type { RouteConfig } from "@asteasolutions/zod-to-openapi";
import { pageLimits } from "../paging.ts";
import type { ProblemKind } from "../problems.ts";
import { betweenSchema } from "../wire/between.ts";
import {
  instrumentChangesSchema,
  instrumentSchema,
  instrumentsSchema,
  newInstrumentSchema,
} from "../wire/instruments.ts";
import { z } from "../wire/schema.ts";
import { dueSchema, storySchema } from "../wire/story.ts";
import {
  examinationKeptSchema,
  examinationsSchema,
  examinedAgainSchema,
  playerGivenSchema,
  playerSchema,
  visitChangesSchema,
  visitSchema,
  visitsSchema,
} from "../wire/visits.ts";

export type Asked = {
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

export const instrumentPath = "/instruments/{number}";
export const visitPath = `${instrumentPath}/visits/{id}`;
const json = (schema: z.ZodType) => ({ type: "application/json", schema }) as const;

export const recordAddresses: readonly Asked[] = [
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
