/**
 * Stopped notes against published tables of stop positions (figures and sources: stopPositions.json).
 */
import { expect, test } from "vitest";
import { semitoneAt, stopMm } from "../../server/core/board/stops.ts";
import { near } from "../support/near.ts";
import published from "./stopPositions.json" with { type: "json" };

const { table, rule, fractions } = published;

// Printed to three decimals: half a unit there, and rounding of the comparison itself.
const printedMm = 0.0005 + 1e-9;

test("every one of 25 stops of a 635 mm string stands where the published table puts it", () => {
  expect(table.toBridgeMm).toHaveLength(25);
  for (const [semitone, toBridgeMm] of table.toBridgeMm.entries()) {
    near(table.stringLengthMm - stopMm(table.stringLengthMm, semitone), toBridgeMm, printedMm, `semitone ${semitone}`);
  }
});

test("the same table in inches agrees: stops scale with the string", () => {
  for (const [semitone, toBridgeIn] of table.toBridgeIn.entries()) {
    near(table.stringLengthIn - stopMm(table.stringLengthIn, semitone), toBridgeIn, printedMm, `semitone ${semitone}`);
  }
});

test("published fractions of the string length are met", () => {
  for (const [i, semitone] of fractions.semitones.entries()) {
    // Six decimals, one of them rounded the wrong way in print: one unit.
    near(stopMm(1, semitone), fractions.fromNut[i]!, 1e-6, `semitone ${semitone}`);
  }
});

test("the old rule of 17.817 leads to the first two stops", () => {
  // The divisor has five digits: 1.43 in in 100,000, and the print half a unit of its third decimal.
  near(stopMm(rule.stringLengthIn, 1), rule.stringLengthIn / rule.divisor, 2e-5, "first by the rule");
  near(stopMm(rule.stringLengthIn, 1), rule.firstFromNutIn, 0.0005, "first as printed");
  near(stopMm(rule.stringLengthIn, 2), rule.secondFromNutIn, 0.0005, "second as printed");
});

test("the published places name their own semitones back", () => {
  for (const [semitone, toBridgeMm] of table.toBridgeMm.entries()) {
    // A place off by 0.0005 mm is off by 0.0005 / (0.0578 x distance to the bridge) semitones: under 6e-5 at 158 mm.
    near(semitoneAt(table.stringLengthMm, table.stringLengthMm - toBridgeMm), semitone, 6e-5, `semitone ${semitone}`);
  }
});
