/** An instrument's history: wear and thickness over the years, how fast it wears, when it is likely due. Kept in step with the core's type. */
import type { History } from "../../core/history/history.ts";
import { mm, quantity, range } from "./examination.ts";
import type { Plain, Same } from "./same.ts";
import { z } from "./schema.ts";

export const daySchema = z
  .string()
  .regex(/^\d{4}-\d{2}-\d{2}$/)
  .openapi({ format: "date" });

const atVisit = { visitId: z.string(), date: daySchema, years: z.number() };
const notYet = z.object({ told: z.literal("not yet"), why: z.string() });

const rate = z.discriminatedUnion("told", [
  z.object({
    told: z.literal("rate"),
    mm,
    interval: range.openapi({ description: "Holds the true rate about 95 of 100 times." }),
    atLeast: z.boolean(),
    visits: z.number().int(),
    assumed: z.array(z.string()),
  }),
  notYet,
]);

const when = z.discriminatedUnion("told", [
  z.object({ told: z.literal("range"), from: daySchema, to: daySchema.nullable(), says: z.string() }),
  z.object({ told: z.literal("reached"), since: daySchema, says: z.string() }),
  notYet,
]);

export const outlookSchema = z
  .object({ dressing: when, end: when })
  .openapi("Outlook", { description: "When the board is likely to need a dressing, and to be at its end." });

export const historySchema = z
  .object({
    wear: z.array(z.object({ ...atVisit, depthMm: quantity, atLeast: z.boolean(), run: z.number().int() })),
    thickness: z.array(z.object({ ...atVisit, edgeMm: quantity, limitMm: mm })),
    works: z.array(
      z.object({
        ...atVisit,
        work: z.enum(["dressed", "shaped", "new board"]),
        plannedMm: quantity.nullable(),
        takenMm: quantity.nullable(),
        leftMm: quantity.nullable(),
      }),
    ),
    perYear: rate,
    perHundredHours: rate,
    outlook: outlookSchema,
  })
  .openapi("History", { description: "Lengths in mm. What can't be told yet is said with why." });

/** Does not compile when the description and the core's type differ. */
true satisfies Same<Plain<z.infer<typeof historySchema>>, Plain<History>>;
