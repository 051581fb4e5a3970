/** Wear between two visits as it goes over the wire; kept in step with the core's type. */
import type { Between } from "../../core/history/wearBetween.ts";
import { grid, mm, placeName, quantity } from "./examination.ts";
import type { Plain, Same } from "./same.ts";
import { z } from "./schema.ts";

const wear = z.object({
  told: z.literal("wear between"),
  xMm: z.array(mm),
  yMm: z.array(mm),
  growthMm: grid,
  noiseMm: mm,
  most: z.object({ ...placeName, growthMm: quantity, xMm: mm, yMm: mm, isBeyondNoise: z.boolean() }),
  meanMm: quantity,
  volumeMm3: quantity,
  atLeast: z.boolean(),
  says: z.string(),
});
const not = z.object({ told: z.literal("not comparable"), why: z.string() });

const visits = { earlier: z.string().nullable(), later: z.string() };

export const betweenSchema = z
  .discriminatedUnion("told", [wear.extend(visits), not.extend(visits)])
  .openapi("Between", { description: "How much wear grew between two visits, all over the board." });

/** Does not compile when the description and the core's type differ. */
true satisfies Same<Plain<z.infer<typeof wear> | z.infer<typeof not>>, Plain<Between>>;
