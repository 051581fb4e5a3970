/**
 * The planing plan in numbers: plane-off depth with its uncertainty, volume, the target, what governs it.
 *
 * The exact optimum on the heights as read is biased: of many noisy readings the lowest pushes the target down and the
 * highest calls for the deepest cut. The best estimate of the true one is therefore the optimum less 1.3 × the noise
 * (found on synthetic boards of 77 readings), and its standard uncertainty combines the places that the optimum rests on,
 * each by its share, with the gauge's limit (a/√3, once). A plan may cut deeper than that optimum, to spare
 * the thinnest place or to stay below the board's ends; the value is that of the plan itself. Lengths in mm, volume in mm³.
 */
import type { Instrument } from "../board/instrument.ts";
import { halfWidthMm } from "../board/outline.ts";
import type { Gauge } from "../board/settings.ts";
import type { Planing } from "../examination.ts";
import { heightMm } from "../surface/idealSurface.ts";
import { type UnwornSurface, unwornHeightMm } from "../surface/unwornSurface.ts";
import { coverageFactor, type Place, type Quantity } from "../units.ts";
import { type WearMap, wearOfMapMm } from "../wear/wearMap.ts";
import { arcOf } from "./arc.ts";
import type { CutPlan } from "./planingPlan.ts";
import { pressingBounds } from "./pressingBounds.ts";
import { areaPlaces } from "./secondAim.ts";
import type { TargetChoice } from "./targetChoice.ts";

/** Bias of the optimum in units of the noise. */
const optimumBias = 1.3;
/** A place governs when at least this share of the optimum rests on it. */
const governingShare = 1e-6;

export function planeOffMm(
  plan: CutPlan,
  surface: UnwornSurface,
  gauge: Gauge,
): Quantity & { readonly ofReadings: number } {
  const variance = plan.places.reduce(
    (sum, place, i) => sum + (plan.depthShares[i] ** 2 + plan.contactShares[i] ** 2) * place.uncertaintyMm ** 2,
    gauge.errorLimitMm ** 2 / 3 + gauge.resolutionMm ** 2 / 12,
  );
  return {
    value: Math.max(0, plan.deepestMm - optimumBias * surface.noiseMm),
    u: coverageFactor * Math.sqrt(variance),
    ofReadings: plan.leastDeepestMm,
  };
}

/** Height of the unworn surface less the target's, mm: what the plane takes where there is no wear. */
export function unwornCutMm(plan: CutPlan, surface: UnwornSurface, place: Place): number {
  return unwornHeightMm(surface, place.xMm, place.yMm) - heightMm(surface.plan, plan.shape, place.xMm, place.yMm);
}

/** Cut of the present surface, wear and all, mm. */
export function presentCutMm(plan: CutPlan, surface: UnwornSurface, map: WearMap, place: Place): number {
  return unwornCutMm(plan, surface, place) - wearOfMapMm(map, place.xMm, place.yMm);
}

export function planingSummary(
  plan: CutPlan,
  surface: UnwornSurface,
  map: WearMap,
  instrument: Instrument,
  gauge: Gauge,
  choice: TargetChoice,
): Omit<Planing, "aim" | "atLeast" | "templates" | "widening"> {
  const lengthMm = instrument.boardLengthMm.value;
  const areaMm2 = (lengthMm * (instrument.widthNutMm.value + instrument.widthEndMm.value)) / 2;
  const meanCutMm = mean(areaPlaces(instrument).map((place) => presentCutMm(plan, surface, map, place)));
  const acrossAt = (xMm: number): number =>
    mean(
      [-1, -0.5, 0, 0.5, 1].map((side) =>
        unwornCutMm(plan, surface, { xMm, yMm: side * halfWidthMm(instrument, xMm) }),
      ),
    );
  const { placement, shape } = plan;
  return {
    planeOffMm: planeOffMm(plan, surface, gauge),
    meanCutMm,
    volumeMm3: meanCutMm * areaMm2,
    cutAtNutMm: acrossAt(0),
    cutAtEndMm: acrossAt(lengthMm),
    spares: plan.spares,
    target: {
      radiusMm: { nut: shape.radiusNutMm, middle: shape.radiusMiddleMm, end: shape.radiusEndMm },
      hollowMm: { lowest: placement.hollowLowestMm, highest: placement.hollowHighestMm },
      heightMm: placement.heightMm,
      pitch: placement.pitch,
      crownMm: { nut: placement.crownNutMm, end: placement.crownEndMm },
      arc: arcOf(placement),
      oneRadiusCostsMm: plan.oneRadiusCostsMm,
    },
    governedBy: [
      ...plan.thinPlaces.map(({ xMm, yMm }) => ({ xMm, yMm, governs: "thickness" as const })),
      ...plan.places.flatMap(({ xMm, yMm }, i) => [
        ...(plan.depthShares[i] > governingShare ? [{ xMm, yMm, governs: "depth" as const }] : []),
        ...(plan.contactShares[i] > governingShare ? [{ xMm, yMm, governs: "contact" as const }] : []),
      ]),
    ],
    boundBy: pressingBounds(plan, choice, instrument),
    finishAllowanceMm: instrument.finishAllowanceMm.value,
  };
}

function mean(numbers: readonly number[]): number {
  return numbers.reduce((sum, number) => sum + number, 0) / numbers.length;
}
