/** An instrument's story, and the due list, as they go over the wire. */
import type { Pair } from "../../core/history/pairOf.ts";
import { quantity } from "./examination.ts";
import { daySchema, historySchema, outlookSchema } from "./history.ts";
import { instrumentSchema } from "./instruments.ts";
import type { Plain, Same } from "./same.ts";
import { z } from "./schema.ts";
import { visitSummarySchema } from "./visits.ts";

const hollows = z.object({ within: z.number().int(), of: z.number().int() }).nullable();
const measured = quantity.nullable();

const pairSchema = z
  .object({
    ...{ plannedCutMm: measured, plannedLossMm: measured, takenMm: measured, beyondPlanMm: measured },
    ...{ wearBeforeMm: measured, wearAfterMm: measured, hollowsBefore: hollows, hollowsAfter: hollows },
    says: z.array(z.string()),
  })
  .openapi("Achieved", { description: "What a work achieved: before it against measured again after it." });

/** Does not compile when the description and the core's type differ. */
true satisfies Same<Plain<z.infer<typeof pairSchema>>, Plain<Pair>>;

export const storySchema = z
  .object({
    instrument: instrumentSchema,
    visits: z.array(visitSummarySchema).openapi({ description: "Newest first, the latest 200." }),
    history: historySchema,
    pairs: z
      .array(z.object({ before: z.string(), after: z.string(), achieved: pairSchema }))
      .openapi({ description: "Visits before some work and after it, by id." }),
  })
  .openapi("Story");

export const dueSchema = z.object({
  due: z.array(
    z.object({
      number: z.string(),
      kind: z.string(),
      size: z.string(),
      label: z.string(),
      lastVisit: daySchema.nullable(),
      outlook: outlookSchema,
    }),
  ),
  next: z.string().nullable(),
});
