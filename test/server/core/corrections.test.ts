/**
 * Rail, drift and strings through the whole examination: a board read with any of them, and told about it, is the same board.
 *
 * A violin's board, 7 lines by 13 crosslines, unworn but for a pit, without noise; heights to 0.1 µm. Lengths in mm.
 */
import { describe, expect, test } from "vitest";
import { stringYMm } from "../../../server/core/board/stringPaths.ts";
import type { Examination } from "../../../server/core/examination.ts";
import { examine } from "../../../server/core/examine.ts";
import type { Fault } from "../../../server/core/fault.ts";
import { readRailFile } from "../../../server/core/readings/readRailFile.ts";
import { readReadingsFile } from "../../../server/core/readings/readReadingsFile.ts";
import { heightMm, surfacePlan } from "../../../server/core/surface/idealSurface.ts";
import { loadInstrumentTable } from "../../../server/instrumentTable.ts";
import { near } from "../../support/near.ts";
import { evenly, type PlaceOnLine, sevenLines, shapeWith, violin, violinSettings } from "./plainBoards.ts";

const lengthMm = violin.boardLengthMm.value;
const table = loadInstrumentTable();
const plan = surfacePlan(violin);

/** In the order they are read: line by line. */
const places = sevenLines(violin, evenly(5, lengthMm - 5, 13)).toSorted((a, b) => lineOf(a) - lineOf(b));

function lineOf({ xMm, yMm }: PlaceOnLine): number {
  const lowestMm = stringYMm(violin, 0, xMm);
  return Math.round((6 * (yMm - lowestMm)) / (stringYMm(violin, 3, xMm) - lowestMm));
}

const pitMm = ({ xMm, yMm }: PlaceOnLine) => 0.25 * Math.exp(-(((xMm - 60) / 18) ** 2) - ((yMm - 3) / 4) ** 2);
const boardMm = (place: PlaceOnLine) => heightMm(plan, shapeWith(), place.xMm, place.yMm) - pitMm(place);
const bow = (xMm: number) => (4 * xMm * (lengthMm - xMm)) / lengthMm ** 2;

type Row = PlaceOnLine & { readonly mm: number; readonly mark?: string };

function examined(rows: readonly Row[], settings: Readonly<Record<string, string>> = {}, rail: string | null = null) {
  const text = rows.map(({ xMm, yMm, mm, mark = "" }) => `${xMm},${yMm},${mm.toFixed(4)},${mark}`).join("\n");
  const all = { ...violinSettings, tip_radius: "0", resolution: "0.0001", tension: "on", build: "solid", ...settings };
  return examine({
    readings: readReadingsFile(`x,y,height,mark\n${text}\n`),
    thickness: null,
    rail: rail === null ? null : readRailFile(rail),
    settings: Object.entries(all).map(([key, value]) => ({ key, value, where: "settings" as const, line: null })),
    table,
    version: "test",
  });
}

function examination(...given: Parameters<typeof examined>): Examination {
  const answer = examined(...given);
  if (answer.outcome === "faulty") throw new Error(answer.faults.map(({ saw }) => saw).join("\n"));
  return answer.examination;
}

function faults(...given: Parameters<typeof examined>): readonly Fault[] {
  const answer = examined(...given);
  return answer.outcome === "faulty" ? answer.faults : [];
}

const asItIs = places.map((place): Row => ({ ...place, mm: boardMm(place) }));
const straight = examination(asItIs);

const hollows = ({ surface }: Examination) => surface.hollows.map(({ hollowMm }) => hollowMm.value);
const hollowUs = ({ surface }: Examination) => surface.hollows.map(({ hollowMm }) => hollowMm.u);

/** A fifth of what a bench gauge shows; without noise only the fit's own stopping and the profile's corners are in it. */
const sameMm = 0.002;

function expectSameBoard(other: Examination): void {
  hollows(other).forEach((hollowMm, i) => {
    near(hollowMm, hollows(straight)[i]!, sameMm, `hollow ${i}`);
  });
  near(other.deepest?.depthMm ?? 0, straight.deepest?.depthMm ?? 0, sameMm, "deepest");
}

describe("a board read over a bowed rail", () => {
  const railBowMm = 0.12;
  const overRail = asItIs.map((row): Row => ({ ...row, mm: row.mm + railBowMm * bow(row.xMm) }));
  const profile = (u = "") =>
    `x,error${u === "" ? "" : ",u"}\n${evenly(0, lengthMm, 25)
      .map((xMm) => `${xMm},${(railBowMm * bow(xMm)).toFixed(5)}${u === "" ? "" : `,${u}`}`)
      .join("\n")}\n`;

  test("is less hollow than it is, by the rail's bow, where nobody says so", () => {
    const [found, true_] = [hollows(examination(overRail)), hollows(straight)];
    found.forEach((hollowMm, i) => {
      near(hollowMm, true_[i]! - railBowMm, 0.01);
    });
  });

  test("is the same board with the rail's profile", () => {
    expectSameBoard(examination(overRail, {}, profile()));
  });

  test("is the same board read with a gauge that reads depth, over a profile in height", () => {
    const depths = overRail.map((row): Row => ({ ...row, mm: -row.mm }));
    expectSameBoard(examination(depths, { reads: "depth" }, profile()));
  });

  test("has hollows as much less certain as the profile is: √1.5 of it", () => {
    const [plain, unsure] = [examination(overRail, {}, profile()), examination(overRail, {}, profile("0.02"))];
    hollowUs(unsure).forEach((u, i) => {
      near(u ** 2, hollowUs(plain)[i]! ** 2 + 1.5 * 0.02 ** 2, 1e-9);
    });
  });

  test("has hollows as much less certain as the profile is: by the profile's own mean square", () => {
    const half = profile("0.02").replaceAll(/^(.*),0\.02$/gm, (row, rest: string, at: number) =>
      at % 2 === 0 ? row : `${rest},0`,
    );
    expect(hollowUs(examination(overRail, {}, half))[0]).toBeLessThan(
      hollowUs(examination(overRail, {}, profile("0.02")))[0]!,
    );
  });

  test("can't be examined where a profile is named and does not come along", () => {
    expect(faults(overRail, { rail_error: "rail.csv" })).toMatchObject([
      { where: "settings", code: "rail-not-sent", remedy: expect.stringContaining("Send the rail's profile along") },
    ]);
    expect(faults(overRail, { rail_error: "rail.csv" }, profile())).toEqual([]);
  });

  test("can't be examined under a profile that ends far from where the readings do", () => {
    const short = profile()
      .split("\n")
      .filter((row, i) => i === 0 || (row !== "" && Number(row.split(",")[0]) < 240))
      .join("\n");
    expect(faults(overRail, {}, short)).toMatchObject([{ where: "rail", code: "rail-too-short" }]);
  });
});

describe("a board read while the gauge drifts", () => {
  const again = [3, 40, 88].map((i): Row => ({ ...asItIs[i]!, mark: "check" }));
  const read = [...asItIs, ...again];
  const drifting = (driftMm: number) =>
    read.map((row, i): Row => ({ ...row, mm: row.mm + (driftMm * i) / (read.length - 1) }));

  test("is the same board once three places were read again", () => {
    const found = examination(drifting(0.08));
    expectSameBoard(found);
    expect(found.readings.drift).toMatchObject({ checks: 3, corrected: true });
    // The drift is found to the rounding of the readings, 0.1 µm.
    near(found.readings.drift?.mm ?? 0, 0.08, 2e-4);
  });

  test("has hollows less certain by what the drift leaves: u(b)/√6", () => {
    const unmarked = examination(read.map(({ mark: _, ...row }) => row));
    // Exact readings: two degrees of freedom of nothing beside four of the usual 0.01 mm.
    const scatterMm = Math.sqrt((4 * 0.01 ** 2) / 6);
    const last = read.length - 1;
    const timeSquares = [3, 40, 88].reduce((sum, i, k) => sum + ((asItIs.length + k - i) / last) ** 2 / 2, 0);
    hollowUs(examination(drifting(0.08))).forEach((u, i) => {
      // Readings to 0.1 µm, in a variance of some 10⁻⁴ mm².
      near(u ** 2, hollowUs(unmarked)[i]! ** 2 + (4 * scatterMm ** 2) / timeSquares / 6, 1e-7);
    });
  });

  test("has a drift of nothing where nothing drifted, and none where nothing was read again", () => {
    const { drift } = examination(drifting(0)).readings;
    expect(drift).toMatchObject({ checks: 3, corrected: false });
    near(drift?.mm ?? 1, 0, 2e-4);
    expect(straight.readings.drift).toBeNull();
  });

  test("is warned of in words where it drifted by more than 0.02 mm", () => {
    const cautions = (driftMm: number) => examination(drifting(driftMm)).cautions.join("\n");
    expect(cautions(0.08)).toContain("drifted by 0.08 mm");
    expect(cautions(0.01)).not.toContain("drifted");
  });
});

describe("a board read with slack strings", () => {
  const pull = { pull_lowest: "0.2", pull_highest: "0.1" };
  const slack = asItIs.map((row): Row => {
    const across =
      (row.yMm - stringYMm(violin, 0, row.xMm)) / (stringYMm(violin, 3, row.xMm) - stringYMm(violin, 0, row.xMm));
    return { ...row, mm: row.mm + (0.2 - 0.1 * across) * bow(row.xMm) };
  });

  test("is the same board at pitch where the pull was measured", () => {
    expectSameBoard(examination(slack, { ...pull, tension: "off" }));
  });

  test("keeps the hollows it has where the pull was not measured, and they are less certain", () => {
    const found = examination(slack, { tension: "off" });
    near(hollows(found)[0]!, hollows(straight)[0]! - 0.2, 0.01);
    near(hollowUs(found)[0]! ** 2, hollowUs(examination(slack))[0]! ** 2 + (4 * 0.2 ** 2) / 3, 1e-9);
  });

  test("is told so in words", () => {
    const cautions = (settings: Readonly<Record<string, string>>) => examination(slack, settings).cautions.join("\n");
    expect(cautions({ tension: "off" })).toContain("pull_lowest");
    expect(cautions({ tension: "unknown" })).toContain("Nobody said whether the strings were at pitch");
    expect(cautions({ ...pull, tension: "off" })).toContain("brought to pitch");
    expect(cautions({ tension: "on" })).not.toMatch(/pitch while|slack/);
  });
});

test("a place searched for by hand counts for depth, and leaves the unworn surface alone", () => {
  const low: Row = { xMm: 62, yMm: 3.3, mm: boardMm({ xMm: 62, yMm: 3.3 }) - 0.1, mark: "lowest near here" };
  const found = examination([...asItIs, low]);
  // The pit is found to a fiftieth of its depth: the surface over it is that of the readings round it.
  near(found.deepest?.depthMm ?? 0, 0.1 + pitMm(low), 0.01);
  // The same but for where the fit starts from; a reading that had a say would move them by more.
  hollows(found).forEach((hollowMm, i) => {
    near(hollowMm, hollows(straight)[i]!, 1e-11);
  });
});
