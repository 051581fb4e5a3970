/**
 * The planing plan in numbers: plane-off depth with its uncertainty, volume, the target, what governs it.
 *
 * The optimum on the heights as read is biased (cutSpread.ts): the best estimate is that optimum less its bias, and its standard
 * uncertainty combines its scatter with the gauge's limit (a/√3, once). A plan that spares the thinnest place cuts deeper, and the
 * depth is then that of the plan. Lengths in mm, volume in mm³.
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
import type { CutSpread } from "./cutSpread.ts";
import type { CutPlan } from "./planingPlan.ts";
import { pressingBounds } from "./pressingBounds.ts";
import { areaPlaces } from "./secondAim.ts";
import type { TargetChoice } from "./targetChoice.ts";

/** A place governs when at least this share of the optimum rests on it. */
const governingShare = 1e-6;

function planeOffMm(plan: CutPlan, spread: CutSpread, gauge: Gauge): Quantity & { readonly ofReadings: number } {
  return {
    value: Math.max(0, (plan.spares === "deepest cut" ? plan.leastDeepestMm : plan.deepestMm) - spread.biasMm),
    u: cutUMm(spread, gauge),
    ofReadings: plan.leastDeepestMm,
  };
}

/**
 * Expanded uncertainty of a cut, mm. The correction for bias is itself known only roughly, since it is found on the board as read and
 * not on the true one: a rectangle as wide either way as the correction (JCGM 100:2008, 4.3.7).
 */
export function cutUMm({ biasMm, standardMm }: CutSpread, gauge: Gauge): number {
  return coverageFactor * Math.sqrt(standardMm ** 2 + biasMm ** 2 / 3 + gauge.errorLimitMm ** 2 / 3);
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
  spread: CutSpread,
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
    planeOffMm: planeOffMm(plan, spread, gauge),
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
    ].sort((a, b) => a.xMm - b.xMm || a.yMm - b.yMm),
    boundBy: pressingBounds(plan, choice, instrument),
    finishAllowanceMm: instrument.finishAllowanceMm.value,
  };
}

function mean(numbers: readonly number[]): number {
  return numbers.reduce((sum, number) => sum + number, 0) / numbers.length;
}
