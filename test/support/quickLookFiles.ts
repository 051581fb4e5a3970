/**
 * Two small files for a quick look of one violin of the loan store, as a bench hands them in: gaps, and fifteen heights. Lengths in mm.
 *
 * Wanted: radius 42 all along, hollow 0.7 and 0.5, each within 1.5 and 0.1.
 */
import { makeBoard } from "../../data/make/board.ts";
import { syntheticBoard } from "./syntheticBoards.ts";

const settings = `# instrument: violin
# board_length: 270
# radius_nut: 42
# radius_end: 42
# hollow_lowest: 0.7
# hollow_highest: 0.5
# hollow_tolerance: 0.1
# radius_tolerance: 1.5
# build: solid
# tension: on
`;

/** Under the outer strings and under the template at both ends; \`eGapMm\`: the largest gap under the E string. */
export function gapsFile(eGapMm: number): string {
  const gaps = `line,x,y,gap,template
G,68,,0.55,
G,135,,0.7,
G,202,,0.55,
E,68,,${(0.75 * eGapMm).toFixed(2)},
E,135,,${eGapMm},
E,202,,${(0.75 * eGapMm).toFixed(2)},
,20,-10,0,42
,20,0,0,42
,20,10,0,42
,260,-19,0,42
,260,0,0,42
,260,19,0,42
`;
  return settings + gaps;
}

/** An unworn violin, right in every respect, read with a ball of 1.5 at three lines by five crosslines. */
export function fifteenHeights(): string {
  const usual = syntheticBoard("violin", "7 x 11", 107, false);
  const lines = ["G", "centre", "E"];
  return makeBoard({ ...usual, rounds: { ...usual.rounds, crosslinesMm: [8, 70, 135, 200, 262], lines } }).readingsCsv;
}
