/** Cautions: each stands where it belongs, and nowhere else. */
import { describe, expect, test } from "vitest";
import type { Gauge } from "../../../server/core/board/settings.ts";
import { cautionsFor, ofCrosslines, ofRuts } from "../../../server/core/cautions.ts";
import type { Decision } from "../../../server/core/examination.ts";
import { instrumentFrom } from "./board/boards.ts";
import { pointGauge, violin, violinSettings } from "./plainBoards.ts";

const decisions: readonly Decision[] = [
  "leave",
  "dress",
  "shape",
  "borderline",
  "replace",
  "undecided",
  "restorer",
  "cause",
];
const textFor = (decision: Decision, gauge: Gauge = pointGauge, instrument = violin): string =>
  cautionsFor({ instrument, gauge, isTipGiven: true, drift: null }, decision).join("\n");

/** Decisions under which a caution with these words is told. */
const under = (words: string) => decisions.filter((decision) => textFor(decision).includes(words));

describe("a caution", () => {
  test("that this is no valuation stands under every verdict", () => {
    expect(under("no valuation and no certificate")).toEqual(decisions);
  });

  test.each(["dust", "soundpost", "sharp irons", "Lower the nut", "ivory"])(
    "about %s stands where wood goes, and only there",
    (words) => {
      expect(under(words)).toEqual(["dress", "shape", "borderline", "replace"]);
    },
  );

  test("of a pit between the crosslines stands where a board is left alone and they are further apart than a fingertip", () => {
    expect(decisions.filter((decision) => ofCrosslines(32.7, decision).length > 0)).toEqual(["leave"]);
    expect(ofCrosslines(32.7, "leave")[0]).toContain("a finger pit up to 32 mm long could lie there unseen");
    expect(ofCrosslines(15, "leave")).toEqual([]);
  });

  test("of ruts that may have been passed by stands under a plain answer, its width rounded up", () => {
    const ball = { ...pointGauge, tipRadiusMm: 1.5 };
    const unread = { string: "G", place: { xMm: 137, yMm: -12 }, widestRutMm: 2.34 };
    const narrow = { string: "E", widthMm: 1.31 };
    const told = (decision: Decision) => ofRuts({ unread, narrow }, ball, decision);
    expect(decisions.filter((decision) => told(decision).length > 0)).toEqual(["leave", "dress", "borderline"]);
    expect(told("leave")).toEqual([
      expect.stringContaining(
        "under the G string round 137 mm from the nut: between the lines a rut up to 2.3 mm wide",
      ),
      expect.stringContaining("Under the E string a ball of radius 1.5 mm can't get into a rut narrower than 1.4 mm"),
    ]);
    expect(ofRuts({ unread: null, narrow: null }, ball, "leave")).toEqual([]);
  });

  test("against taking wood stands where a restorer or the cause comes first", () => {
    expect(under("Take no wood off")).toEqual(["restorer", "cause"]);
  });

  test("that a new board brings a new nut stands with a new board only", () => {
    expect(under("new nut with it")).toEqual(["replace"]);
  });

  test("to confirm the limit stands where a new board rests on a default, not on the workshop's own", () => {
    expect(under("own default")).toEqual(["replace"]);
    const confirmed = instrumentFrom({ ...violinSettings, edge_limit: "4" });
    expect(textFor("replace", pointGauge, confirmed)).not.toContain("own default");
  });

  test("about the strings' pull tells slack strings and strings of which nobody spoke", () => {
    expect(textFor("leave", { ...pointGauge, tension: "on" })).not.toMatch(/strings (were|slack)/);
    // Violin: 2 · 0.2/√3 and 2 · 0.2/√6.
    expect(textFor("leave", { ...pointGauge, tension: "off" })).toMatch(/strings slack: .* ± 0\.23 mm/);
    expect(textFor("leave", { ...pointGauge, tension: "unknown" })).toMatch(/Nobody said .* ± 0\.16 mm/);
    const pull = { lowestMm: 0.1, highestMm: 0.1 };
    expect(textFor("leave", { ...pointGauge, tension: "off", pull })).toContain("brought to pitch");
  });

  test("about a drift of more than 0.02 mm says by how much, and whether it was taken out", () => {
    const told = (mm: number, corrected: boolean) =>
      cautionsFor(
        { instrument: violin, gauge: pointGauge, isTipGiven: true, drift: { checks: 3, mm, corrected } },
        "leave",
      ).join();
    expect(told(-0.034, true)).toContain("drifted by 0.03 mm while the board was read. It was taken out");
    expect(told(0.034, false)).toContain("nothing was taken out");
    expect(told(-0.02, true)).not.toContain("drifted");
  });

  test("that the tip was taken for a point stands where nobody said how big it is", () => {
    const given = { instrument: violin, gauge: pointGauge, drift: null };
    expect(cautionsFor({ ...given, isTipGiven: false }, "leave").join()).toContain("taken for a point");
    expect(cautionsFor({ ...given, isTipGiven: true }, "leave").join()).not.toContain("taken for a point");
  });
});
