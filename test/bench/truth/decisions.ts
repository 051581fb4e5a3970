/**
 * The decision said against the right one, where the truth is clear. Lengths in mm.
 *
 * Clear is: the deepest reading is 0.06 mm or more away from the depth that calls for a dressing, no hollow within 0.03 mm of the
 * end of its tolerance, and thickness 0.2 mm or more away from its limit after the least cut of the truth. Said to be too close
 * to call, or not to be told yet, is never wrong, only not decided.
 */
import type { Decision } from "../../../server/core/examination.ts";
import { dressAtMm } from "../../support/syntheticBoards.ts";
import type { BoardRead } from "./boardRead.ts";
import { shareOf } from "./figures.ts";
import { goal, percent, tableText } from "./table.ts";

const nearWearMm = 0.06;
const nearHollowMm = 0.03;
export type Right = "leave" | "dress" | "replace";
export type Decided = { readonly right: Right; readonly said: Decision; readonly seed: number; readonly name: string };

/** Null where the truth is too near a limit to say. */
export function rightDecision({ board, made, wood }: BoardRead): Right | null {
  if (wood === null) return null;
  const { hollowsMm, hollowBandMm } = board.bounds;
  const [lowest, highest] = [made.truth.hollowsMm[0]!, made.truth.hollowsMm.at(-1)!];
  const hollowOff = Math.max(Math.abs(lowest - hollowsMm[0]), Math.abs(highest - hollowsMm[1]));
  if (hollowOff > hollowBandMm - nearHollowMm) return null;
  const { depthMm } = made.truth.deepestReading;
  if (depthMm < dressAtMm - nearWearMm) return "leave";
  if (depthMm < dressAtMm + nearWearMm || wood.clear === "near") return null;
  return wood.clear === "above" ? "dress" : "replace";
}

export function isWrong({ said, right }: Pick<Decided, "said" | "right">): boolean {
  return said !== right && said !== "undecided" && said !== "borderline";
}

const sayings: readonly Decision[] = [
  "leave",
  "dress",
  "replace",
  "borderline",
  "undecided",
  "shape",
  "cause",
  "restorer",
];

export function decisionTable(title: string, decided: readonly Decided[]): string {
  const rows = (["leave", "dress", "replace"] as const).map((right) => {
    const those = decided.filter((one) => one.right === right);
    const wrong = those.filter(isWrong);
    return [
      right,
      String(those.length),
      ...sayings.map((saying) => String(those.filter(({ said }) => said === saying).length)),
      percent(shareOf(those, ({ said }) => said === right)),
      `${goal(wrong.length === 0)}${
        wrong.length === 0
          ? ""
          : ` (seeds ${wrong
              .slice(0, 5)
              .map(({ seed, name }) => `${seed} ${name}`)
              .join("; ")})`
      }`,
    ];
  });
  return tableText(title, ["right", "boards", ...sayings, "right said", "none wrong"], rows);
}
