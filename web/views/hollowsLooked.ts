/**
 * What a quick look found, on the plan: the hollow under each string that was looked at, written where it is deepest.
 *
 * Examination in mm -> marks in px; they take their room before the readings do. A hollow that is not as it should be is in the accent. A full survey has its map and profiles instead.
 */
import type { Examination } from "../../server/core/examination.ts";
import { stringYMm } from "../chart/board.ts";
import { type Clearing, textBox } from "../chart/clearing.ts";
import { measuredText } from "../chart/format.ts";
import type { PlanScales } from "../chart/scales.ts";
import type { Group } from "./boardPlan.ts";

const sizePx = 15;

export function drawHollowsLooked(target: Group, examination: Examination, scales: PlanScales, room: Clearing): void {
  const { instrument, surface, verdict } = examination;
  if (verdict.quickLook === null) return;
  const [fromMm, toMm] = scales.x.domain() as [number, number];
  for (const { string, hollowMm, state, deepestAtMm } of surface.hollows) {
    const index = instrument.strings.indexOf(string);
    if (index < 0 || deepestAtMm < fromMm || deepestAtMm > toMm) continue;
    const x = scales.x(deepestAtMm);
    const y = scales.y(stringYMm(instrument, index, deepestAtMm));
    const words = measuredText(hollowMm.value, hollowMm.u);
    room.claim(textBox(x, y, words, sizePx));
    target
      .append("text")
      .attr("class", state === "within" ? "looked" : "looked amiss")
      .attr("data-string", string)
      .attr("x", x)
      .attr("y", y)
      .attr("dy", "0.35em")
      .attr("text-anchor", "middle")
      .text(words);
  }
}
