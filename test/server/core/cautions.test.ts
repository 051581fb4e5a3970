/** Cautions: each stands where it belongs, and nowhere else. */
import { describe, expect, test } from "vitest";
import type { Gauge } from "../../../server/core/board/settings.ts";
import { cautionsFor } from "../../../server/core/cautions.ts";
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
  cautionsFor({ instrument, gauge, isTipGiven: true }, decision).join("\n");

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
    expect(textFor("leave", { ...pointGauge, tension: "off" })).toContain("strings slack");
    expect(textFor("leave", { ...pointGauge, tension: "unknown" })).toContain("Nobody said");
  });

  test("that the tip was taken for a point stands where nobody said how big it is", () => {
    const given = { instrument: violin, gauge: pointGauge };
    expect(cautionsFor({ ...given, isTipGiven: false }, "leave").join()).toContain("taken for a point");
    expect(cautionsFor({ ...given, isTipGiven: true }, "leave").join()).not.toContain("taken for a point");
  });
});
