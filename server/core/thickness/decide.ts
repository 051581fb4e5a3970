/**
 * The decision, from everything known of the board. Read top down: the first rule that holds decides.
 *
 *   cause       board loose or humped lengthwise: find the cause before any wood goes
 *   restorer    work is needed but the board is veneered, dyed or valuable, or nobody has said that it is solid
 *   replace     already under the limit, or under it after the plan that leaves most; clear of the uncertainty
 *   leave       nothing is over its limit
 *   undecided   needed, but something has to be measured first
 *   borderline  too close to call: the need itself, or the thickness left
 *   dress       (shape, for a new board) needed, and enough is left beyond the uncertainty
 *
 * Pure logic on numbers: the same facts with another limit give the decision under that limit (see wouldChange.ts).
 */

import type { Job } from "../board/settings.ts";
import type { Decision } from "../examination.ts";
import type { Quantity } from "../units.ts";
import { type Certainty, certaintyOf } from "./conformity.ts";

export type Facts = {
  readonly job: Job;
  /** Under every string the straightedge rocks on a hump beyond the uncertainty. */
  readonly isHumpedLengthwise: boolean;
  readonly needs: readonly Certainty[];
  /** A rut of a measured width that the tip may not have bottomed. */
  readonly hasUnbottomedRut: boolean;
  /** A rut of unknown width that the tip may not have bottomed. */
  readonly mayGoDeeper: boolean;
  /** A string that no line of readings runs near: a rut could lie there unseen. */
  readonly hasStringUnread: boolean;
  /** Ruts are known to be too narrow for the tip to show them. */
  readonly isTipBlind: boolean;
  /** The readings scatter so much that wear which calls for a dressing can't be told from noise. */
  readonly isWearHiddenByNoise: boolean;
  /** The readings can't tell the arc across: set-ups that nothing ties together. */
  readonly isCamberUntold: boolean;
  readonly hasPlan: boolean;
  /** Thickness less its limit at the place with least to spare, before and after planing; null where not measured. */
  readonly marginBeforeMm: Quantity | null;
  readonly marginAfterMm: Quantity | null;
};

export function decide(facts: Facts): Decision {
  const { job } = facts;
  if (job.loose || facts.isHumpedLengthwise) return "cause";

  const need = strongest(facts.needs);
  const isNeeded = need === "certain" || need === "possible";
  const needsRestorer = job.build !== "solid" || job.valuable;
  const isKnownCase = job.valuable || job.build === "veneered" || job.build === "dyed";
  if (need === "certain" && needsRestorer) return "restorer";
  if (isNeeded && isKnownCase) return "restorer";

  const before = tooThin(facts.marginBeforeMm);
  if (before === "certain") return needsRestorer ? "restorer" : "replace";
  if (!isNeeded) return isOpen(facts) ? "undecided" : "leave";

  const after = tooThin(facts.marginAfterMm);
  if (after === "certain") return need === "certain" ? "replace" : "borderline";
  if (facts.hasUnbottomedRut || !facts.hasPlan || after === null) return "undecided";
  if (need === "possible" || after !== "none") return "borderline";
  return job.newBoard ? "shape" : "dress";
}

/** Wear could be there that these readings don't show, so that finding none proves nothing. */
export function isOpen(facts: Facts): boolean {
  return (
    facts.hasUnbottomedRut ||
    facts.mayGoDeeper ||
    facts.hasStringUnread ||
    facts.isTipBlind ||
    facts.isWearHiddenByNoise ||
    facts.isCamberUntold
  );
}

/** Whether the thickness limit is passed, under the same guard bands as a need; null where nothing was measured. */
export function tooThin(marginMm: Quantity | null): Certainty | null {
  return marginMm && certaintyOf(-marginMm.value, marginMm.u);
}

export function strongest(needs: readonly Certainty[]): Certainty {
  const order: readonly Certainty[] = ["certain", "possible", "near", "none"];
  return order.find((certainty) => needs.includes(certainty)) ?? "none";
}
