/** The decision: every rule, and both sides of every boundary. Margins in mm: thickness less its limit, ± its uncertainty. */
import { describe, expect, test } from "vitest";
import type { Job } from "../../../../server/core/board/settings.ts";
import type { Decision } from "../../../../server/core/examination.ts";
import type { Certainty } from "../../../../server/core/thickness/conformity.ts";
import { decide, type Facts } from "../../../../server/core/thickness/decide.ts";

const solid: Job = {
  aim: "workshop",
  spare: "wood",
  templateRadiiMm: [],
  build: "solid",
  valuable: false,
  loose: false,
  newBoard: false,
};

/** A solid board that needs a dressing for sure and has 0.5 ± 0.06 mm to spare after it. */
const clear: Facts = {
  job: solid,
  isHumpedLengthwise: false,
  needs: ["none", "certain", "near"],
  hasUnbottomedRut: false,
  mayGoDeeper: false,
  hasStringUnread: false,
  isTipBlind: false,
  isWearHiddenByNoise: false,
  isCamberUntold: false,
  hasPlan: true,
  marginBeforeMm: { value: 0.9, u: 0.06 },
  marginAfterMm: { value: 0.5, u: 0.06 },
};

const job = (changes: Partial<Job>): Partial<Facts> => ({ job: { ...solid, ...changes } });
const needs = (...of: Certainty[]): Partial<Facts> => ({ needs: of });
const before = (value: number): Partial<Facts> => ({ marginBeforeMm: { value, u: 0.06 } });
const after = (value: number): Partial<Facts> => ({ marginAfterMm: { value, u: 0.06 } });
const rut = { hasUnbottomedRut: true };
const deeper = { mayGoDeeper: true };
const unread = { hasStringUnread: true };
const blind = { isTipBlind: true };
const humped = { isHumpedLengthwise: true };
const noPlan = { hasPlan: false, marginAfterMm: null };
const unmeasured = { marginBeforeMm: null, marginAfterMm: null };

const cases: readonly (readonly [board: string, decision: Decision, ...changes: Partial<Facts>[]])[] = [
  // Needed, and enough is left.
  ["needed, with wood to spare", "dress"],
  ["needed in every respect", "dress", needs("certain", "certain", "certain")],
  ["new, to be brought to shape", "shape", job({ newBoard: true })],
  ["needed, left with exactly the limit and the uncertainty", "dress", after(0.06)],
  ["needed, left with a hair less than that", "borderline", after(0.059)],
  ["needed, left at the limit", "borderline", after(0)],
  ["needed, left under the limit by less than the uncertainty", "borderline", after(-0.059)],
  ["needed, left under the limit by exactly the uncertainty", "replace", after(-0.06)],
  ["needed, left far under the limit", "replace", after(-1)],
  ["new, and too thin", "replace", job({ newBoard: true }), after(-1)],
  ["new, and too close", "borderline", job({ newBoard: true }), after(0.01)],

  // Not needed.
  ["sound", "leave", needs("none", "none")],
  ["sound, with nothing found at all", "leave", needs()],
  ["near its limit but inside", "leave", needs("near", "none")],
  ["sound, thickness not measured", "leave", needs("none"), unmeasured],
  ["sound, without a plan", "leave", needs("none"), noPlan],
  ["sound, new", "leave", needs("none"), job({ newBoard: true })],
  ["sound, veneered", "leave", needs("none"), job({ build: "veneered" })],
  ["sound, of unknown build", "leave", needs("near"), job({ build: "unknown" })],
  ["sound, valuable", "leave", needs("none"), job({ valuable: true })],
  ["sound, though a dressing would leave too little", "leave", needs("none"), after(-1)],
  ["sound as far as the tip reaches", "undecided", needs("none"), rut],
  ["near its limit as far as the tip reaches", "undecided", needs("near"), rut],
  ["sound, with a rut of unknown width that may go deeper", "undecided", needs("none"), deeper],
  ["near its limit, with a rut of unknown width that may go deeper", "undecided", needs("near"), deeper],
  ["sound as far as the tip gets into its ruts", "undecided", needs("none"), blind],
  ["sound where read, with a string that no line runs near", "undecided", needs("none"), unread],
  [
    "sound where read, with a string that no line runs near, thickness not measured",
    "undecided",
    needs("none"),
    unread,
    unmeasured,
  ],
  ["needed, with a string besides that no line runs near", "dress", unread],
  ["needed, with a string that no line runs near, too close", "borderline", unread, after(0)],
  ["needed, with a rut of unknown width that may go deeper", "dress", deeper],
  ["needed, with a rut of unknown width that may go deeper, too close", "borderline", deeper, after(0)],
  ["needed, with ruts besides that the tip can't get into", "dress", blind],

  // The need itself is too close to call.
  ["perhaps worn, with wood to spare", "borderline", needs("possible")],
  ["perhaps worn, too close in thickness", "borderline", needs("possible"), after(0.01)],
  ["perhaps worn, left under the limit", "borderline", needs("possible"), after(-1)],
  ["perhaps in one respect, for sure in another", "dress", needs("possible", "certain")],
  ["perhaps worn, thickness not measured", "undecided", needs("possible"), unmeasured],

  // Something has to be measured first.
  ["needed, thickness not measured", "undecided", unmeasured],
  ["needed, no target possible", "undecided", noPlan],
  ["needed, its rut not bottomed", "undecided", rut],
  ["needed, its rut not bottomed, too close", "undecided", rut, after(0)],
  ["needed, its rut not bottomed, too thin whatever the rut", "replace", rut, after(-0.06)],
  ["perhaps worn, its rut not bottomed", "undecided", needs("possible"), rut],

  // Already under the limit.
  ["sound, under its limit by exactly the uncertainty", "replace", needs("none"), before(-0.06)],
  ["sound, under its limit by a hair less", "leave", needs("none"), before(-0.059)],
  ["needed, already under the limit", "replace", before(-0.1), after(-0.4)],
  ["perhaps worn, already under the limit", "replace", needs("possible"), before(-0.1), after(-0.4)],
  ["already under the limit, its rut not bottomed", "replace", before(-0.1), rut],
  ["already under the limit, without a plan", "replace", before(-0.1), noPlan],
  ["already under the limit, veneered", "restorer", needs("none"), before(-0.1), job({ build: "veneered" })],
  ["already under the limit, of unknown build", "restorer", needs("none"), before(-0.1), job({ build: "unknown" })],
  ["already under the limit, valuable", "restorer", needs("none"), before(-0.1), job({ valuable: true })],

  // Who may take wood off.
  ["needed, veneered", "restorer", job({ build: "veneered" })],
  ["needed, dyed", "restorer", job({ build: "dyed" })],
  ["needed, of unknown build", "restorer", job({ build: "unknown" })],
  ["needed, valuable", "restorer", job({ valuable: true })],
  ["needed, veneered, too thin", "restorer", job({ build: "veneered" }), after(-1)],
  ["needed, veneered, thickness not measured", "restorer", job({ build: "veneered" }), unmeasured],
  ["perhaps worn, veneered", "restorer", needs("possible"), job({ build: "veneered" })],
  ["perhaps worn, dyed", "restorer", needs("possible"), job({ build: "dyed" })],
  ["perhaps worn, valuable", "restorer", needs("possible"), job({ valuable: true })],
  ["perhaps worn, of unknown build", "borderline", needs("possible"), job({ build: "unknown" })],
  ["veneered, its rut not bottomed", "undecided", needs("none"), job({ build: "veneered" }), rut],

  // Find the cause first, whatever else.
  ["loose", "cause", job({ loose: true })],
  ["loose and sound", "cause", job({ loose: true }), needs("none")],
  ["loose and too thin", "cause", job({ loose: true }), after(-1)],
  ["humped lengthwise", "cause", humped],
  ["humped lengthwise and sound", "cause", humped, needs("none")],
  ["humped lengthwise, veneered, valuable", "cause", humped, job({ build: "veneered", valuable: true })],
  ["humped lengthwise, already under the limit", "cause", humped, before(-1)],
];

describe("a board that is", () => {
  test("told in this table stands there once, with every decision", () => {
    expect(cases.length).toBeGreaterThan(40);
    expect(new Set(cases.map(([board]) => board)).size).toBe(cases.length);
    expect([...new Set(cases.map(([, decision]) => decision))].sort()).toEqual([
      "borderline",
      "cause",
      "dress",
      "leave",
      "replace",
      "restorer",
      "shape",
      "undecided",
    ]);
  });

  test.each(cases)("%s: %s", (_board, decision, ...changes) => {
    expect(decide(Object.assign({}, clear, ...changes))).toBe(decision);
  });

  test("perhaps worn, valuable, of unknown build: restorer, as it would be were it solid", () => {
    const facts = { ...clear, ...needs("possible"), ...job({ valuable: true, build: "unknown" }) };
    expect(decide(facts)).toBe("restorer");
  });
});
