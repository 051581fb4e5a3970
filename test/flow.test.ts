/**
 * Known wear in, same wear out: seeded boards of every kind go through the whole tool, and what comes out is laid beside
 * what is really there. Heights carry 0.01 mm of noise and are rounded to 0.01 mm; see support/syntheticBoards.ts.
 */
import { beforeAll, describe, expect, test } from "vitest";
import type { Kind, Layout } from "./support/syntheticBoards.ts";
import { type BoardThroughTheTool, throughTheTool } from "./support/throughTheTool.ts";

const kinds: readonly Kind[] = ["violin", "viola", "cello", "bass"];
/** Worn boards of each kind and layout, and unworn ones. */
const rounds: readonly { readonly layout: Layout; readonly worn: number; readonly unworn: number }[] = [
  { layout: "5 x 12", worn: 3, unworn: 1 },
  { layout: "7 x 11", worn: 3, unworn: 1 },
  { layout: "7 x 13", worn: 3, unworn: 1 },
  { layout: "20 x 20", worn: 1, unworn: 0 },
];

const boards: BoardThroughTheTool[] = [];

beforeAll(() => {
  let seed = 100;
  for (const kind of kinds) {
    for (const { layout, worn, unworn } of rounds) {
      for (let k = 0; k < worn + unworn; k++) boards.push(throughTheTool(kind, layout, seed++, k < worn));
    }
  }
}, 120_000);

/** Every board that breaks a rule, told by name; none is what each test asks for. */
function breaking(rule: (board: BoardThroughTheTool) => string | null): string[] {
  return boards.flatMap((board) => {
    const broken = rule(board);
    return broken === null ? [] : [`${board.name}: ${broken}`];
  });
}

const um = (mm: number): string => `${(mm * 1000).toFixed(1)} um`;

/** "15 of 16 (94 %)" within the stated uncertainty, and the worst in units of it. */
function coverage(of: readonly { readonly offMm: number; readonly u: number }[]): { share: number; text: string } {
  const within = of.filter(({ offMm, u }) => Math.abs(offMm) <= u).length;
  const worst = Math.max(...of.map(({ offMm, u }) => Math.abs(offMm) / u));
  const share = within / of.length;
  return { share, text: `${within} of ${of.length} (${Math.round(100 * share)} %), worst ${worst.toFixed(2)} U` };
}

describe("a board with known wear", () => {
  // 0.02 mm: twice the noise of one reading, and what a careful rail is good for.
  test("has its unworn surface found within 0.02 mm rms", () => {
    expect(boards.length).toBeGreaterThan(40);
    expect(breaking(({ seen }) => (seen.unwornRmsMm < 0.02 ? null : um(seen.unwornRmsMm)))).toEqual([]);
  });

  // Noise 0.010 and rounding 0.003 of the reading itself, and 0.02 of the surface: 0.023 together.
  test("has its wear found at every reading, within 0.023 mm rms", () => {
    expect(breaking(({ seen }) => (seen.wearRmsMm < 0.023 ? null : um(seen.wearRmsMm)))).toEqual([]);
  });

  test("has as plane-off depth of its readings the optimum that another solver finds, within 0.005 mm", () => {
    const compared = boards.filter((board) => board.ofReadings !== null);
    expect(compared.length).toBeGreaterThan(boards.length / 2);
    expect(
      breaking(({ ofReadings }) =>
        ofReadings === null || Math.abs(ofReadings.saidMm - ofReadings.referenceMm) <= 0.005
          ? null
          : `${um(ofReadings.saidMm)} against ${um(ofReadings.referenceMm)}`,
      ),
    ).toEqual([]);
  });

  // The published surface and target are rebuilt from the published figures alone. The rebuilding lays its straightedge at 41
  // places, 1/40 of the length apart: the deepest of a hollow of 3.5 mm may fall 3.5 · (1/40)² = 0.002 mm between them.
  test("has cuts that its published target explains", () => {
    expect(
      breaking(({ rebuiltOffMm }) => (rebuiltOffMm === null || rebuiltOffMm < 0.002 ? null : um(rebuiltOffMm))),
    ).toEqual([]);
  });

  test("is never asked for wood that is not there: the target lies under the true surface but for the uncertainty", () => {
    expect(breaking(({ leastCutOfPointsMm }) => (leastCutOfPointsMm > -1e-6 ? null : um(leastCutOfPointsMm)))).toEqual(
      [],
    );
    expect(
      breaking(({ proud }) =>
        proud === null || proud.byMm <= proud.allowedMm
          ? null
          : `proud by ${um(proud.byMm)}, allowed ${um(proud.allowedMm)}, ${proud.where}`,
      ),
    ).toEqual([]);
  });

  test("never gets a wrong verdict when its thickness is 0.2 mm clear of the limit", () => {
    expect(
      breaking(({ expected, decision }) =>
        expected === null || expected.includes(decision) ? null : `${decision}, not ${expected}`,
      ),
    ).toEqual([]);
  });

  test("has intervals that hold the truth", () => {
    const all = {
      "deepest wear": boards.flatMap(({ seen, worn }) => (worn && seen.deepest ? [seen.deepest] : [])),
      hollow: boards.flatMap(({ seen }) => seen.hollows),
      radius: boards.flatMap(({ seen }) => seen.radii),
      twist: boards.map(({ seen }) => seen.twist),
      "least cut": boards.flatMap(({ leastCut }) => (leastCut ? [leastCut] : [])),
      "thickness after": boards.flatMap(({ after }) => (after ? [after] : [])),
    };
    const found = Object.entries(all).map(([what, of]) => ({ what, ...coverage(of) }));
    for (const { what, text } of found) console.log(`${what}: ${text}`);
    // k = 2 promises about 95 %. Of some fifty boards 85 % is what chance allows (binomial, 1 in 200); the radii and hollows of
    // one board hang together, so they too count as fifty.
    expect(found.filter(({ share }) => share < 0.85).map(({ what, text }) => `${what}: ${text}`)).toEqual([]);
  });

  test("is decided more often than not", () => {
    const counts = new Map<string, number>();
    for (const { decision } of boards) counts.set(decision, (counts.get(decision) ?? 0) + 1);
    for (const [decision, count] of counts) console.log(`${decision}: ${count} of ${boards.length}`);
    const open = (counts.get("undecided") ?? 0) + (counts.get("borderline") ?? 0);
    expect(open).toBeLessThan(boards.length / 2);
  });
});

describe("an unworn board", () => {
  test("is left alone", () => {
    const unworn = boards.filter((board) => !board.worn);
    expect(unworn.length).toBeGreaterThan(10);
    expect(
      unworn.filter(({ decision }) => decision !== "leave").map(({ name, decision }) => `${name}: ${decision}`),
    ).toEqual([]);
  });

  // Worn nowhere: what it shows is noise, of which the deepest of 91 readings reaches 2.5 to 3.5 times 0.0105 mm.
  test("shows no wear worth naming", () => {
    expect(breaking(({ worn, deepestSaidMm }) => (worn || deepestSaidMm < 0.045 ? null : um(deepestSaidMm)))).toEqual(
      [],
    );
  });
});
