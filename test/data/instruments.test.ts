/**
 * The table of instruments: every board in it can be built, and the figures are those that their sources print.
 */
import { describe, expect, test } from "vitest";
import { instrumentNames } from "../../server/core/board/findInstrument.ts";
import { figureNames } from "../../server/core/board/instrument.ts";
import { halfWidthMm } from "../../server/core/board/outline.ts";
import { stopMm } from "../../server/core/board/stops.ts";
import { linePath, stringYMm } from "../../server/core/board/stringPaths.ts";
import { instrumentFrom, table } from "../server/core/board/boards.ts";
import { near } from "../support/near.ts";

const names = instrumentNames(table);
const entries = table.kinds.flatMap((kind) => kind.instruments.map((instrument) => ({ kind, instrument })));

test("the table has the sizes that workshops meet", () => {
  expect(names).toEqual([
    "violin 4/4",
    "violin 3/4",
    "violin 1/2",
    "viola 390",
    "viola 405",
    "viola 430",
    "cello 4/4",
    "cello 3/4",
    "bass 3/4",
    "bass 3/4 5 strings",
  ]);
});

describe.each(names)("%s", (name) => {
  const instrument = instrumentFrom({ instrument: name });

  test("has every figure, each with its origin", () => {
    for (const figure of figureNames) {
      expect(Number.isFinite(instrument[figure].value), figure).toBe(true);
      expect(instrument[figure].origin.length, figure).toBeGreaterThan(5);
    }
  });

  test("widens towards the bridge, and its strings run over wood all along", () => {
    const lengthMm = instrument.boardLengthMm.value;
    expect(instrument.widthEndMm.value).toBeGreaterThan(instrument.widthNutMm.value);
    expect(instrument.spacingBridgeMm.value).toBeGreaterThan(instrument.spacingNutMm.value);
    for (const xMm of [0, lengthMm / 2, lengthMm]) {
      const outermost = stringYMm(instrument, instrument.strings.length - 1, xMm);
      const edgeLine = linePath(instrument, "treble edge")?.yAtMm(xMm) ?? 0;
      expect(outermost).toBeLessThan(halfWidthMm(instrument, xMm) - 1);
      expect(edgeLine).toBeGreaterThan(0);
      expect(edgeLine).toBeLessThan(halfWidthMm(instrument, xMm));
    }
  });

  test("ends short of the bridge and reaches past the octave", () => {
    expect(instrument.boardLengthMm.value).toBeLessThan(instrument.stringLengthMm.value);
    expect(instrument.boardLengthMm.value).toBeGreaterThan(stopMm(instrument.stringLengthMm.value, 12));
  });

  test("has its board close to five sixths of the string length", () => {
    // A trade glossary's rule; makers' boards keep within 4 % of it.
    near(instrument.boardLengthMm.value / instrument.stringLengthMm.value, 5 / 6, 0.06);
  });

  test("is hollower under the lowest string, and wider in its arc than half its width", () => {
    expect(instrument.hollowLowestMm.value).toBeGreaterThan(instrument.hollowHighestMm.value);
    expect(instrument.radiusEndMm.value).toBeGreaterThan(instrument.widthEndMm.value / 2);
    expect(instrument.radiusNutMm.value).toBeGreaterThanOrEqual(instrument.radiusEndMm.value);
  });

  test("tells shallow hollows from deep ones: the tolerance is smaller than the hollow", () => {
    expect(instrument.hollowToleranceMm.value).toBeLessThan(instrument.hollowHighestMm.value / 2);
    expect(instrument.radiusToleranceMm.value).toBeLessThan(instrument.radiusEndMm.value / 10);
  });

  test("has positions that begin at the first semitone and follow each other", () => {
    const starts = instrument.positions.map((position) => position.fromSemitone);
    expect(starts[0]).toBe(1);
    expect(starts.every((start, i) => i === 0 || start > (starts[i - 1] ?? 0))).toBe(true);
  });
});

test.each(entries)(
  "a new $kind.kind $instrument.size board is thicker than its limits by a dressing at least",
  (entry) => {
    const { figures, asNew } = entry.instrument;
    expect(asNew.edgeThicknessMm.value - figures.edgeLimitMm.value).toBeGreaterThanOrEqual(
      figures.dressingSpendMm.value,
    );
    expect(asNew.centreThicknessMm.value).toBeGreaterThan(figures.centreLimitMm.value);
  },
);

test("bigger instruments have deeper hollows", () => {
  const lowest = ["violin", "viola", "cello", "bass"].map(
    (kind) => instrumentFrom({ instrument: kind }).hollowLowestMm,
  );
  const values = lowest.map((hollow) => hollow.value);
  expect(values).toEqual(values.toSorted((a, b) => a - b));
});

describe("common practice, no source", () => {
  test.each([
    ["violin", "hollowLowestMm", 0.7],
    ["violin", "hollowHighestMm", 0.5],
    ["cello", "hollowLowestMm", 1.5],
    ["bass", "hollowLowestMm", 2.5],
  ] as const)("a %s's %s is %f mm", (kind, figure, value) => {
    expect(instrumentFrom({ instrument: kind })[figure]).toEqual({
      value,
      source: "practice",
      origin: "common practice, no source",
    });
  });
});

describe("figures as their sources print them", () => {
  test.each([
    // A maker's diary and a guide to shaping the blank (codes first-violin-diary, shaping-blank).
    ["violin 4/4", "boardLengthMm", 270, "first-violin-diary"],
    ["violin 4/4", "widthNutMm", 24, "shaping-blank"],
    ["violin 4/4", "widthEndMm", 42, "shaping-blank"],
    ["violin 4/4", "radiusNutMm", 42, "makers-survey"],
    ["violin 4/4", "spacingNutMm", 16.5, "finishing-neck"],
    // A table of viola measures.
    ["viola 390", "boardLengthMm", 290, "viola-table"],
    ["viola 405", "boardLengthMm", 295, "viola-table"],
    ["viola 430", "boardLengthMm", 300, "viola-table"],
    ["viola 390", "widthEndMm", 44, "viola-table"],
    ["viola 405", "widthEndMm", 46, "viola-table"],
    ["viola 430", "widthEndMm", 48, "viola-table"],
    ["viola 405", "radiusEndMm", 37, "viola-table"],
    // A viola society's journal.
    ["viola 405", "widthNutMm", 25, "viola-journal"],
    ["viola 390", "spacingBridgeMm", 35, "viola-journal"],
    ["viola 405", "stringLengthMm", 375, "viola-journal"],
    // A popular page on cello boards.
    ["cello 4/4", "boardLengthMm", 580, "cello-board-page"],
    ["cello 4/4", "widthNutMm", 30, "cello-board-page"],
    ["cello 4/4", "widthEndMm", 64, "cello-board-page"],
    // 10 mm from string to string on four strings.
    ["bass 3/4", "spacingNutMm", 30, "bass-playing-page"],
  ] as const)("%s: %s is %f (%s)", (name, figure, value, code) => {
    const entry = entries[names.indexOf(name)]?.instrument.figures[figure];
    expect(entry).toMatchObject({ value, source: "published" });
    expect(entry?.cites).toContain(code);
  });

  test("where authorities disagree both stand: the survey's medians beside practice on a violin", () => {
    const { figures } = entries[0]!.instrument;
    const survey = (figure: typeof figures.hollowLowestMm) =>
      figure.alternatives.find((alternative) => alternative.cites.includes("makers-survey"))?.value;
    expect([survey(figures.hollowLowestMm), survey(figures.hollowHighestMm)]).toEqual([0.75, 0.25]);
    expect(survey(figures.radiusMiddleMm)).toBe(38);
    const viola = entries[4]!.instrument.figures.radiusEndMm;
    expect(viola.alternatives.map((alternative) => alternative.value)).toEqual([42]);
  });
});

describe("derived figures follow from what they are derived from", () => {
  const value = (name: string, figure: "boardLengthMm" | "stringLengthMm" | "widthNutMm" | "widthEndMm") =>
    instrumentFrom({ instrument: name })[figure].value;

  test("smaller violins and the 3/4 cello take the 4/4's spacing and arc in proportion to width", () => {
    for (const [small, full] of [
      ["violin 3/4", "violin 4/4"],
      ["violin 1/2", "violin 4/4"],
      ["cello 3/4", "cello 4/4"],
    ] as const) {
      const atNut = value(small, "widthNutMm") / value(full, "widthNutMm");
      const atEnd = value(small, "widthEndMm") / value(full, "widthEndMm");
      const [smaller, whole] = [small, full].map((instrument) => instrumentFrom({ instrument }));
      // Written to 0.1 mm, radii to 1 mm: half a unit there.
      near(smaller!.spacingNutMm.value, whole!.spacingNutMm.value * atNut, 0.051, `${small} at the nut`);
      near(smaller!.spacingBridgeMm.value, whole!.spacingBridgeMm.value * atEnd, 0.051, `${small} at the bridge`);
      near(smaller!.radiusEndMm.value, whole!.radiusEndMm.value * atEnd, 0.51, `${small} radius`);
    }
  });

  test("the other opinion on the deepest place of the hollow is half the string length", () => {
    for (const { kind, instrument } of entries) {
      const { hollowDeepest, stringLengthMm, boardLengthMm } = instrument.figures;
      const other = hollowDeepest.alternatives[0]?.value ?? 0;
      // Written to two decimals: half a unit there.
      near(other, stringLengthMm.value / 2 / boardLengthMm.value, 0.0051, `${kind.kind} ${instrument.size}`);
    }
  });
});

test("every source that is cited is listed, every one listed is cited, and published figures cite one", () => {
  const figures = entries.flatMap(({ instrument }) =>
    [...Object.values(instrument.figures), ...Object.values(instrument.asNew)].flatMap((figure) => [
      figure,
      ...figure.alternatives,
    ]),
  );
  const cited = new Set(figures.flatMap((figure) => figure.cites));
  expect([...cited].toSorted()).toEqual(table.sources.map((source) => source.code).toSorted());
  for (const figure of figures) {
    if (figure.source === "published") expect(figure.cites.length, figure.origin).toBeGreaterThan(0);
    if (figure.source === "memory") expect(figure.origin).toContain("from memory");
    if (figure.source === "derived") expect(figure.origin).toContain("derived");
  }
});

test("the facts of common practice are marked as such", () => {
  expect(table.commonPractice.length).toBeGreaterThanOrEqual(6);
  expect(table.commonPractice.every((fact) => fact.origin === "common practice, no source")).toBe(true);
});
