/** What a verdict tells of chances, of paths that nobody read and of the thickness. Made boards; lengths in mm. */
import { describe, expect, test } from "vitest";
import { makeBoard } from "../../../../data/make/board.ts";
import type { Examination } from "../../../../server/core/examination.ts";
import { plainText } from "../../../../server/reports/plainText.ts";
import { examineFiles } from "../../../support/examineMade.ts";
import { syntheticBoard } from "../../../support/syntheticBoards.ts";
import { atItsLimit, benchWith, closeEdgeLimits } from "./benchAgain.ts";

const reasonOf = ({ verdict }: Examination, code: string) => verdict.reasons.find((reason) => reason.code === code);

describe("a need within its uncertainty", () => {
  const bench = benchWith("violin", "7 x 11", 7, true);
  const seen = bench.examined({});

  test.each([
    [0.5, "wear", /Over that, but by less than the uncertainty: about 8 in 10 that it truly is over\./],
    [-0.5, "wear", /Under that, but by less than the uncertainty: about 2 in 10 that it is over after all\./],
    [0.5, "hollow", /too little\. Outside, but .*: about 8 in 10 that it truly is outside\./],
    [-0.5, "hollow", /in its range\. Inside, but .*: about 2 in 10 that it is outside after all\./],
    [0.5, "camber", /too round\. Outside, but .*: about 8 in 10 that it truly is outside\./],
    [-0.5, "camber", /in its range\. Inside, but .*: about 2 in 10 that it is outside after all\./],
  ] as const)("is told with its chance: by %f of it, %s", (overInU, which, says) => {
    const reason = reasonOf(bench.examined(atItsLimit(seen, which, overInU)), which)!;
    expect(reason.says).toMatch(says);
    // One standard uncertainty from the limit: 84 or 16 in a hundred of a normal law.
    expect(Math.abs(reason.probability! - (overInU > 0 ? 0.8413 : 0.1587))).toBeLessThan(1e-3);
  });

  test("and the next reading stand in the text", () => {
    const examination = bench.examined(atItsLimit(seen, "hollow", 0.5));
    const text = plainText(examination).replaceAll(/\s+/g, " ");
    expect(text).toContain("about 8 in 10");
    expect(text).toContain(`Next reading - ${examination.verdict.nextReading!.says}`);
  });

  test("is sure beyond its uncertainty, and says nothing of chances", () => {
    const reason = reasonOf(bench.examined(atItsLimit(seen, "camber", 1.2)), "camber")!;
    expect(reason.says).not.toMatch(/ in \d+/);
    expect(reason.probability).toBeGreaterThan(0.99);
  });
});

describe("one reading that stands alone, as a slip would,", () => {
  test("has no probability, and is to be read again", () => {
    const bench = benchWith("violin", "7 x 11", 8, false);
    const places = bench.made.truth.readings;
    const slip = places[38]!;
    const text = bench.made.readingsCsv.replace(slip.readMm.toFixed(2), (slip.readMm + 0.6).toFixed(2));
    const { verdict } = examineFiles(text, bench.made.thicknessCsv);
    const hump = verdict.reasons.find(({ code }) => code === "hump")!;
    expect(hump.probability).toBeNull();
    expect(hump.says).toContain("a slip?");
    expect(hump.says).not.toContain("less than the uncertainty");
    expect(verdict.decision).toBe("borderline");
    expect(verdict.wouldChange[0]!.says).toContain("3 more times");
    expect(verdict.nextReading!.says).toContain("may be a slip");
  });
});

describe("the thickness with least to spare", () => {
  const bench = benchWith("violin", "7 x 11", 7, true, 1);
  const sure = { ...atItsLimit(bench.examined({}), "wear", 0), dress_at: "0.1" };
  const close = closeEdgeLimits(bench, sure);

  test("is told with the chance that it is under its limit, where that is open", () => {
    const { settings } = close.find(({ inU }) => inU < -0.1)!;
    const examination = bench.examined(settings);
    const reason = reasonOf(examination, "thickness")!;
    expect(reason.says).toMatch(/after the least cut: about \d in 10 that it is under its limit\./);
    expect(reason.probability).toBeGreaterThan(0.5);
  });

  test("has a micrometer told where that is enough to settle it, and leads where the sentence says", () => {
    const { settings } = close.find(({ inU }) => inU > 0.7)!;
    const { verdict } = bench.examined(settings);
    expect(verdict.decision).toBe("borderline");
    const change = verdict.wouldChange.find(({ what }) => what === "thickness")!;
    expect(change.says).toMatch(/measure the (bass|treble) edge \d+ mm from the nut again with a micrometer/);
    // The calliper of these boards reads in steps of 0.05: read as well with a micrometer, the same figure is sure.
    expect(bench.examined({ ...settings, calliper_error: "0.01" }).verdict.decision).toBe(change.decision);
  });

  test("has a light first cut told where it is the cut that is not known well enough", () => {
    const { settings } = close.find(({ inU }) => Math.abs(inU) < 0.2)!;
    const { verdict } = bench.examined(settings);
    expect(verdict.wouldChange.find(({ what }) => what === "thickness")!.says).toContain("take a light first cut");
  });

  test("is that of today where no wood has to go", () => {
    const sound = bench.examined({ ...sure, dress_at: "0.9" });
    expect(sound.verdict.decision).toBe("leave");
    expect(reasonOf(sound, "thickness-before")!.says).toContain("today");
    expect(reasonOf(sound, "thickness")).toBeUndefined();
  });
});

describe("a board read beside its strings", () => {
  const recipe = syntheticBoard("violin", "5 x 12", 8, false);
  /** Spread evenly from edge to edge, none of them under a string: the inner strings run midway between three, near one of seven. */
  const evenly = (count: number) => Array.from({ length: count }, (_, k) => ({ share: (2 * k) / (count - 1) - 1 }));
  const lines = evenly(3);
  const settings = recipe.writing.settings.map(([key, value]) => [key, key === "rut_width" ? "0.8" : value] as const);
  const coarse = { ...recipe, rounds: { ...recipe.rounds, lines }, writing: { ...recipe.writing, settings } };
  const ordinary = { ...coarse, rounds: { ...recipe.rounds, lines: evenly(7) } };
  const fine = { ...recipe, writing: { ...recipe.writing, settings } };

  test("that no line runs near is no plain leave: a rut could hide, which is told with its width and where to look", () => {
    const examination = examineFiles(makeBoard(coarse).readingsCsv, null);
    const { verdict, readings } = examination;
    expect(verdict.decision).toBe("undecided");
    expect(readings.hiddenRutMm).toBeGreaterThan(0.8);
    expect(reasonOf(examination, "coarse")!.says).toContain(
      `a rut up to ${readings.hiddenRutMm!.toFixed(1)} mm wide could hide`,
    );
    expect(reasonOf(examination, "sound-where-read")).toBeDefined();
    expect(verdict.wouldChange).toContainEqual(expect.objectContaining({ what: "readings", decision: "leave" }));
    expect(verdict.wouldChange.map(({ what }) => what)).not.toContain("thickness");
    expect(verdict.nextReading!.says).toContain("no reading lies on its path");
    expect(plainText(examination)).toMatch(/^Can't say yet: read a line under every string\.\n/);
  });

  test("on seven lines is left alone, and told what could hide between them", () => {
    const examination = examineFiles(makeBoard(ordinary).readingsCsv, null);
    const { verdict, readings, cautions } = examination;
    expect(verdict.decision).toBe("leave");
    expect(readings.hiddenRutMm).toBeGreaterThan(0.8);
    expect(cautions).toContainEqual(
      expect.stringContaining(`between the lines a rut up to ${readings.hiddenRutMm!.toFixed(1)} mm wide could hide`),
    );
    expect(reasonOf(examination, "coarse")).toBeUndefined();
    expect(reasonOf(examination, "sound")).toBeDefined();
  });

  test("is left alone once a line runs under every string", () => {
    const { verdict, readings, cautions } = examineFiles(makeBoard(fine).readingsCsv, null);
    expect(readings.hiddenRutMm).toBeNull();
    expect(cautions.join()).not.toContain("could hide");
    expect(verdict.decision).toBe("leave");
    expect(verdict.nextReading).toBeNull();
  });

  test("is dressed where it is worn for sure, but the cut is told as the least it can be", () => {
    const bench = syntheticBoard("violin", "5 x 12", 12, true);
    const worn = (count: number) => ({
      ...bench,
      rounds: { ...bench.rounds, lines: evenly(count) },
      writing: {
        ...bench.writing,
        settings: bench.writing.settings.map(
          ([key, value]) => [key, { rut_width: "0.8", dress_at: "0.03" }[key] ?? value] as const,
        ),
      },
    });
    const thick = "x,side,thickness\n10,bass,6\n10,treble,6\n250,bass,6\n250,treble,6\n";
    const onThree = examineFiles(makeBoard(worn(3)).readingsCsv, thick);
    expect(onThree.verdict.decision).toBe("dress");
    expect(onThree.planing!.atLeast).toBe(true);
    expect(reasonOf(onThree, "coarse")).toBeDefined();

    const onSeven = examineFiles(makeBoard(worn(7)).readingsCsv, thick);
    expect(onSeven.verdict.decision).toBe("dress");
    expect(onSeven.planing!.atLeast).toBe(false);
    expect(onSeven.cautions.join()).toContain("between the lines a rut");
  });

  test("but new has been played on by nobody: nothing hides", () => {
    const newBoard = {
      ...coarse,
      writing: { ...coarse.writing, settings: [...settings, ["new_board", "yes"] as const] },
    };
    const { verdict } = examineFiles(makeBoard(newBoard).readingsCsv, null);
    expect(verdict.decision).toBe("leave");
    expect(verdict.reasons.map(({ code }) => code)).not.toContain("coarse");
  });
});
