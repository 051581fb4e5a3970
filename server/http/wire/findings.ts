/** What an examination found, brought down to what history needs; lengths in mm, `u` expanded (k = 2). Kept in step with the core's type. */
import type { Findings } from "../../core/history/history.ts";
import { decision, mm, placeName, quantity, quickAnswer, side } from "./examination.ts";
import type { Plain, Same } from "./same.ts";
import { z } from "./schema.ts";

export const findingsSchema = z
  .object({
    readings: z.number().int(),
    decision,
    quickLook: quickAnswer.nullable(),
    deepest: z.object({ depthMm: quantity, atLeast: z.boolean(), xMm: mm, yMm: mm, ...placeName }).nullable(),
    unseenMm: mm.nullable(),
    dressAtMm: mm,
    planeOffMm: quantity.nullable(),
    hollows: z.object({ within: z.number().int(), of: z.number().int() }).nullable(),
    edge: z.object({ value: mm, u: mm, xMm: mm, side }).nullable(),
    edgeAfterMm: quantity.nullable(),
    edgeLimitMm: mm,
    dressingSpendMm: mm,
  })
  .openapi("Findings", { description: "The few figures of an examination that a board's history is made of." });

/** Does not compile when the description and the core's type differ. */
true satisfies Same<Plain<z.infer<typeof findingsSchema>>, Plain<Findings>>;
