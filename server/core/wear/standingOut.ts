/**
 * Which places stand out of the noise: by themselves, or together with their neighbours.
 *
 * A place alone stands out when its wear is more than chance makes of one of so many unworn places once in twenty boards; read
 * several times, it needs less by the root of their number. Shallow wear on several places side by side stands out in their mean,
 * weighted by nearness, by the same rule. Either way the surface's own uncertainty there counts too. (Of unworn boards fewer than
 * one in fifty shows a place: most are taken to be without wear before it comes to this, see surface/showsWear.ts.)
 *
 * in: places read with their wear (mm, positive where wood is missing), the unworn surface -> out: for each, whether it stands out;
 * `sign` 1 looks for wear, −1 for humps.
 */
import type { Instrument } from "../board/instrument.ts";
import { nearby } from "../maths/nearby.ts";
import { normalQuantile } from "../maths/quantiles.ts";
import { patternSpacing } from "../surface/patternSpacing.ts";
import { comparedVariance } from "../surface/surfaceUncertainty.ts";
import type { UnwornSurface } from "../surface/unwornSurface.ts";
import type { PlaceRead } from "./wearAtReadings.ts";

/** Boards on which chance alone makes some place stand out, in either of the two ways. */
const byChance = 0.05;

export function standingOut(
  places: readonly PlaceRead[],
  sign: 1 | -1,
  surface: UnwornSurface,
  instrument: Instrument,
): readonly boolean[] {
  const bar = normalQuantile(1 - byChance / places.length);
  const { alongMm, acrossMm } = patternSpacing(instrument, places.length);
  const variances = places.map(({ repeats }) => surface.noiseMm ** 2 / repeats.length);
  const near = nearby(
    places.map(({ mean }) => mean.xMm / alongMm),
    places.map(({ mean }) => mean.yMm / acrossMm),
  );
  return places.map(({ mean }, i) => {
    const ofSurface = comparedVariance(surface, mean);
    if (sign * mean.wearMm >= bar * Math.sqrt(variances[i] + ofSurface)) return true;
    let weights = 0;
    let sum = 0;
    let variance = 0;
    for (const { index, weight } of near(i)) {
      weights += weight;
      sum += weight * sign * places[index].mean.wearMm;
      variance += weight ** 2 * variances[index];
    }
    return sum / weights >= bar * Math.sqrt(variance / weights ** 2 + ofSurface);
  });
}
