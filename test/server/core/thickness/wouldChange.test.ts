/**
 * What would change the verdict: each setting that is told really leads there when the whole examination is run with it.
 * Boards are made by the independent generator. Lengths in mm.
 */
import { describe, expect, test } from "vitest";
import { makeBoard, withWood } from "../../../../data/make/board.ts";
import type { Change, Examination } from "../../../../server/core/examination.ts";
import { examine } from "../../../../server/core/examine.ts";
import { faultInWords } from "../../../../server/core/fault.ts";
import { readReadingsFile } from "../../../../server/core/readings/readReadingsFile.ts";
import { readThicknessFile } from "../../../../server/core/readings/readThicknessFile.ts";
import { loadInstrumentTable } from "../../../../server/instrumentTable.ts";
import { aims, evenEdges, type Kind, syntheticBoard } from "../../../support/syntheticBoards.ts";

const table = loadInstrumentTable();
type Settings = Readonly<Record<string, string>>;

function examined(readings: string, thickness: string | null, settings: Settings): Examination {
  const answer = examine({
    readings: readReadingsFile(readings),
    thickness: thickness === null ? null : readThicknessFile(thickness),
    rail: null,
    settings: Object.entries(settings).map(([key, value]) => ({ key, value, where: "settings" as const, line: null })),
    table,
    version: "test",
  });
  if (answer.outcome === "faulty") throw new Error(answer.faults.map(faultInWords).join("\n"));
  return answer.examination;
}

/** The setting that a change tells in words, as it would be typed; null for a measurement. */
function asTyped({ what, says }: Change): Settings | null {
  const number = (pattern: RegExp): string => pattern.exec(says)?.[1] ?? `no number in: ${says}`;
  if (what === "dress_at") return { dress_at: number(/from (\d+\.\d+) mm/) };
  if (what === "hollow_tolerance" || what === "radius_tolerance") return { [what]: number(/± (\d+\.\d+) mm still/) };
  if (what === "edge_limit") return { edge_limit: number(/(?:at least|only) (\d+\.\d+) mm/) };
  if (what === "build") return { build: "solid" };
  if (what === "valuable") return { valuable: "no", build: "solid" };
  return null;
}

type Tried = { readonly what: string; readonly told: string; readonly came: string; readonly where: string };

function tried(kinds: readonly Kind[], seeds: readonly number[]): readonly Tried[] {
  const settings: readonly Settings[] = [
    {},
    { build: "unknown" },
    { valuable: "yes" },
    { radius_tolerance: "0.1" },
    { hollow_tolerance: "0.01" },
    { dress_at: "0.35" },
  ];
  return kinds.flatMap((kind) =>
    seeds.flatMap((seed) => {
      const recipe = syntheticBoard(kind, "7 x 11", seed, seed % 4 !== 0);
      const bare = makeBoard(recipe);
      return [0.1, 0.35, 0.8].flatMap((overMm) => {
        const made = withWood(bare, recipe, evenEdges(recipe.plan, aims[kind].edgeLimitMm + overMm));
        return settings.flatMap((base) => {
          const { verdict } = examined(made.readingsCsv, made.thicknessCsv, base);
          return verdict.wouldChange.flatMap((change): readonly Tried[] => {
            const typed = asTyped(change);
            if (typed === null) return [];
            const again = examined(made.readingsCsv, made.thicknessCsv, { ...base, ...typed });
            const where = `${kind} ${seed}, ${overMm} over, ${JSON.stringify({ ...base, ...typed })}`;
            return [{ what: change.what, told: change.decision, came: again.verdict.decision, where }];
          });
        });
      });
    }),
  );
}

describe("a change that is told", () => {
  const all = tried(["violin", "bass"], [7, 12, 14]);
  const of = (...names: readonly string[]) => all.filter(({ what }) => names.includes(what));
  const broken = (some: readonly Tried[]) =>
    some.flatMap(({ told, came, where }) => (told === came ? [] : [`${where}: told ${told}, came ${came}`]));

  test("is there to be tried, of every kind", () => {
    const counts = new Map<string, number>();
    for (const { what } of all) counts.set(what, (counts.get(what) ?? 0) + 1);
    expect([...counts.keys()].sort()).toEqual(expect.arrayContaining(["build", "dress_at", "edge_limit", "valuable"]));
  });

  test("about the build of the board or its value leads where it says", () => {
    expect(of("build", "valuable").length).toBeGreaterThan(4);
    expect(broken(of("build", "valuable"))).toEqual([]);
  });

  test("about the wear that calls for a dressing leads where it says", () => {
    expect(broken(of("dress_at"))).toEqual([]);
  });

  test("about a tolerance leads where it says", () => {
    expect(broken(of("hollow_tolerance", "radius_tolerance"))).toEqual([]);
  });

  test("about the least thickness of the edges leads where it says", () => {
    expect(broken(of("edge_limit"))).toEqual([]);
  });
});

describe("where the wood over the underside hollow is thinnest", () => {
  test("another limit of the edges leads where it says", () => {
    const recipe = syntheticBoard("violin", "7 x 11", 101, true);
    const made = withWood(makeBoard(recipe), recipe, evenEdges(recipe.plan, 5));
    const thickness = `${made.thicknessCsv}240,centre,4.1\n`;
    const base = { centre_limit: "4" };
    const changes = examined(made.readingsCsv, thickness, base).verdict.wouldChange;
    const [change] = changes.filter(({ what }) => what === "edge_limit");
    // None told would be right as well: the edges do not govern.
    if (change === undefined) return;
    const again = examined(made.readingsCsv, thickness, { ...base, ...asTyped(change) });
    expect(again.verdict.decision).toBe(change.decision);
  });
});

describe("where nobody said whether the strings were at pitch", () => {
  const recipe = syntheticBoard("violin", "7 x 11", 7, false);
  const settings = recipe.writing.settings.filter(([key]) => key !== "tension");
  const made = makeBoard({ ...recipe, writing: { ...recipe.writing, settings } });
  const thickness = "x,side,thickness\n10,bass,6\n10,treble,6\n250,bass,6\n250,treble,6\n";
  const tensionOf = ({ verdict }: Examination) => verdict.wouldChange.find(({ what }) => what === "tension");
  /** The hollow under the lowest string is so much deeper than it should be, mm over its tolerance. */
  const overBy = (overMm: number, more: Settings = {}) => {
    const hollowMm = examined(made.readingsCsv, thickness, {}).surface.hollows[0]!.hollowMm.value;
    const shouldBe = String(hollowMm - 0.1 - overMm);
    return examined(made.readingsCsv, thickness, { hollow_lowest: shouldBe, hollow_tolerance: "0.1", ...more });
  };

  test("and a hollow is too close to call for that alone, it is asked for, and leads where it says", () => {
    // The pull of a violin's strings: 0.2/√6 twice, 0.16; the readings themselves leave some 0.02.
    const examination = overBy(0.08);
    expect(examination.verdict.decision).toBe("borderline");
    const change = tensionOf(examination)!;
    expect(change.says).toBe("Say whether the strings were at pitch (tension). If they were");
    expect(change.decision).toBe("dress");
    expect(overBy(0.08, { tension: "on" }).verdict.decision).toBe(change.decision);
    expect(examination.verdict.wouldChange[0]).toEqual(change);
  });

  test("but it is too close to call all the same, or sure all the same, it is not", () => {
    const close = overBy(0.005);
    expect(close.verdict.decision).toBe("borderline");
    expect(tensionOf(close)).toBeUndefined();
    const sure = overBy(0.3);
    expect(sure.verdict.decision).toBe("dress");
    expect(tensionOf(sure)).toBeUndefined();
  });

  test("and it was said, it is not asked again", () => {
    expect(tensionOf(overBy(0.005, { tension: "on" }))).toBeUndefined();
    expect(tensionOf(overBy(0.08, { tension: "off" }))).toBeUndefined();
  });
});

describe("where two things are missing at once", () => {
  test("a rut that was not bottomed and no thickness are both told as what to measure", () => {
    const recipe = syntheticBoard("violin", "7 x 11", 7, true);
    const made = makeBoard(recipe);
    const { verdict } = examined(made.readingsCsv, null, { rut_width: "1.6", tip_radius: "1.5", dress_at: "0.05" });
    expect(verdict.decision).toBe("undecided");
    expect(verdict.reasons.map(({ code }) => code)).toContain("tip");
    expect(verdict.wouldChange.map(({ what }) => what)).toEqual(expect.arrayContaining(["tip_radius", "thickness"]));
  });
});
