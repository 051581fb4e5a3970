/**
 * What a work achieved: the findings before it against those measured again after it.
 *
 * Two `Findings` -> `Pair`. Wood taken is the loss at the thinnest edge, as planned and as measured; lengths in mm, `u` expanded
 * (coverage factor 2). What was not measured on both sides is null.
 */
import type { Quantity } from "../units.ts";
import type { Findings } from "./history.ts";
import { deepestWear } from "./wearPoints.ts";
import { lengthInWords, quantityInWords } from "./words.ts";

export type Pair = {
  /** The deepest cut that the plan named. */
  readonly plannedCutMm: Quantity | null;
  /** Loss of thickness at the thinnest edge: as the plan foresaw it, and as it was measured. */
  readonly plannedLossMm: Quantity | null;
  readonly takenMm: Quantity | null;
  /** Taken less planned; positive: more wood went than planned. */
  readonly beyondPlanMm: Quantity | null;
  readonly wearBeforeMm: Quantity | null;
  readonly wearAfterMm: Quantity | null;
  readonly hollowsBefore: Findings["hollows"];
  readonly hollowsAfter: Findings["hollows"];
  /** In a luthier's words, one sentence each. */
  readonly says: readonly string[];
};

export function pairOf(before: Findings, after: Findings): Pair {
  const plannedLossMm = differenceOf(before.edge, before.edgeAfterMm);
  const takenMm = differenceOf(before.edge, after.edge);
  // The edge before is the same in both losses, so only what is left differs.
  const beyondPlanMm = takenMm && plannedLossMm && differenceOf(before.edgeAfterMm, after.edge);
  const wearBeforeMm = deepestWear(before)?.depthMm ?? null;
  const wearAfterMm = deepestWear(after)?.depthMm ?? null;
  return {
    plannedCutMm: before.planeOffMm,
    plannedLossMm,
    takenMm,
    beyondPlanMm,
    wearBeforeMm,
    wearAfterMm,
    hollowsBefore: before.hollows,
    hollowsAfter: after.hollows,
    says: [
      ...(wearAfterMm ? [wearInWords(after, wearAfterMm)] : []),
      ...(takenMm ? [`${quantityInWords(takenMm)} went at the thinnest edge${comparedInWords(beyondPlanMm)}.`] : []),
      ...(after.hollows ? [`${after.hollows.within} of ${after.hollows.of} hollows are right now.`] : []),
    ],
  };
}

function differenceOf(from: Quantity | null, to: Quantity | null): Quantity | null {
  return from && to && { value: from.value - to.value, u: Math.hypot(from.u, to.u) };
}

function wearInWords({ deepest, dressAtMm }: Findings, wearAfterMm: Quantity): string {
  if (deepest === null) return "No wear shows any more.";
  const isEnough = wearAfterMm.value < dressAtMm;
  return `Wear of ${quantityInWords(wearAfterMm)} is left${isEnough ? "" : `, still over ${lengthInWords(dressAtMm)}`}.`;
}

function comparedInWords(beyondPlanMm: Quantity | null): string {
  if (beyondPlanMm === null) return "";
  const { value, u } = beyondPlanMm;
  if (Math.abs(value) <= u) return ", as planned";
  return `, ${lengthInWords(Math.abs(value))} ${value > 0 ? "more" : "less"} than planned`;
}
