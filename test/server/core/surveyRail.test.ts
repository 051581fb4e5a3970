/** The survey of a rail: its own error out of passes over a straightedge, and the straightedge's out of a reversal. Lengths in mm. */
import { describe, expect, test } from "vitest";
import type { RailSurvey } from "../../../server/core/compensation/railSurvey.ts";
import { seededRandom } from "../../../server/core/maths/seededRandom.ts";
import { readReadingsFile } from "../../../server/core/readings/readReadingsFile.ts";
import { surveyRail } from "../../../server/core/surveyRail.ts";
import { allNear, near } from "../../support/near.ts";
import { evenly } from "./plainBoards.ts";

const xs = evenly(0, 600, 13);
const along = (xMm: number) => xMm / 600;

/** A rail that sags, with a ripple; a bar that is bowed, more on one half than on the other. */
const railMm = (xMm: number) => -0.08 * 4 * along(xMm) * (1 - along(xMm)) + 0.01 * Math.sin(11 * along(xMm));
const bowMm = (xMm: number) => 0.05 * 4 * along(xMm) * (1 - along(xMm));
const leanMm = (xMm: number) => 0.012 * Math.sin(2 * Math.PI * along(xMm));

function surveyed(text: string, settings: Readonly<Record<string, string>> = {}) {
  const entries = Object.entries(settings).map(([key, value]) => ({
    key,
    value,
    where: "settings" as const,
    line: null,
  }));
  return surveyRail(readReadingsFile(text), entries);
}

function surveyOf(...given: Parameters<typeof surveyed>): RailSurvey {
  const answer = surveyed(...given);
  if (answer.outcome === "faulty") throw new Error(answer.faults.map(({ saw }) => saw).join("\n"));
  return answer.survey;
}

const errorsOf = ({ profile }: RailSurvey) => profile.map(({ errorMm }) => errorMm);

/** A pass: the gauge over the bar, which lies at some height and slope. */
const pass = (setup: string, shownMm: (xMm: number) => number, heightMm = 4, slope = 0.001) =>
  xs.map((xMm) => `${xMm},${(shownMm(xMm) + heightMm + slope * xMm).toFixed(7)},${setup}\n`).join("");

/** What is left of a curve when its least-squares line is gone, by the textbook's sums. */
function lessLine(curveMm: (xMm: number) => number): number[] {
  const n = xs.length;
  const [sx, sz] = [xs.reduce((sum, x) => sum + x, 0), xs.reduce((sum, x) => sum + curveMm(x), 0)];
  const [sxx, sxz] = [xs.reduce((sum, x) => sum + x * x, 0), xs.reduce((sum, x) => sum + x * curveMm(x), 0)];
  const slope = (n * sxz - sx * sz) / (n * sxx - sx * sx);
  return xs.map((x) => curveMm(x) - (sz - slope * sx) / n - slope * x);
}

// Heights are written to 0.1 nm; sums of a dozen of them.
const writtenMm = 1e-6;
const header = "x,height,setup\n";

describe("the survey of a rail", () => {
  test("over something straight is the rail's error without height and slope", () => {
    const survey = surveyOf(header + pass("", railMm));
    expect(survey.profile.map(({ xMm }) => xMm)).toEqual([...xs]);
    allNear(errorsOf(survey), lessLine(railMm), writtenMm);
    expect(survey).toMatchObject({ readings: 13, setups: 1, barErrorMm: null });
  });

  test("takes the mean of several passes at each place", () => {
    const twice = surveyOf(header + pass("", (x) => railMm(x) + 0.003) + pass("", (x) => railMm(x) - 0.003));
    allNear(errorsOf(twice), lessLine(railMm), writtenMm);
  });

  test("may run back and forth", () => {
    const back = pass("", railMm).trimEnd().split("\n").toReversed().join("\n");
    expect(surveyOf(`${header}${back}\n`).profile).toEqual(surveyOf(header + pass("", railMm)).profile);
  });

  test("of a bar with parallel edges that was turned over is free of the bar's own error, and tells it", () => {
    const bar = (x: number) => bowMm(x) + leanMm(x);
    const once = surveyOf(header + pass("a", (x) => railMm(x) + bar(x)));
    expect(Math.max(...errorsOf(once).map((e, i) => Math.abs(e - lessLine(railMm)[i]!)))).toBeGreaterThan(0.02);

    const survey = surveyOf(
      header + pass("a", (x) => railMm(x) + bar(x)) + pass("turned", (x) => railMm(x) - bar(x), 3, -0.002),
    );
    allNear(errorsOf(survey), lessLine(railMm), writtenMm);
    near(survey.barErrorMm ?? 0, Math.max(...lessLine(bar).map(Math.abs)), writtenMm);
  });

  test("of a bar turned end for end is free of what is unlike in its halves, but keeps its bow", () => {
    const bar = (x: number) => bowMm(x) + leanMm(x);
    const survey = surveyOf(
      header + pass("a", (x) => railMm(x) + bar(x)) + pass("b", (x) => railMm(x) + bar(600 - x), 3, -0.002),
    );
    allNear(
      errorsOf(survey),
      lessLine((x) => railMm(x) + bowMm(x)),
      writtenMm,
    );
  });

  test("counts each set-up alike, however many passes it has", () => {
    const text =
      header + pass("a", railMm) + pass("b", (x) => railMm(x) + bowMm(x)) + pass("b", (x) => railMm(x) + bowMm(x));
    allNear(
      errorsOf(surveyOf(text)),
      lessLine((x) => railMm(x) + bowMm(x) / 2),
      writtenMm,
    );
  });

  test("may come as a grid, one pass a column, in any unit and with a dial that reads depth", () => {
    const rows = xs.map(
      (x) => `${x};${String(-100 * railMm(x)).replace(".", ",")};${String(-100 * railMm(x)).replace(".", ",")}`,
    );
    const survey = surveyOf(`# unit: 0.01mm\n# reads: depth\nx;1;2\n${rows.join("\n")}\n`);
    expect(survey.readings).toBe(26);
    allNear(errorsOf(survey), lessLine(railMm), writtenMm);
  });
});

describe("the uncertainty of a profile", () => {
  const uOf = (text: string, settings?: Readonly<Record<string, string>>) =>
    surveyOf(text, settings).profile.map(({ uMm }) => uMm);

  test("is the usual scatter of one reading where nothing was read twice", () => {
    allNear(uOf(header + pass("", railMm)), Array(13).fill(0.01), 1e-12);
  });

  test("is coarser under a gauge of coarser steps", () => {
    allNear(uOf(header + pass("", railMm), { resolution: "0.1" }), Array(13).fill(0.1 / Math.sqrt(12)), 1e-12);
  });

  test("is that of a mean of repeats, their scatter taken together with the usual", () => {
    // Each place ±0.003: squares 13 · 2 · 9e-6, 13 degrees of freedom; with the usual: √((2.34e-4 + 4e-4)/17)/√2.
    const text = header + pass("", (x) => railMm(x) + 0.003) + pass("", (x) => railMm(x) - 0.003);
    allNear(uOf(text), Array(13).fill(Math.sqrt(6.34e-4 / 17 / 2)), writtenMm);
  });

  test("of two set-ups of one pass each is √2 less than of one", () => {
    allNear(uOf(header + pass("a", railMm) + pass("b", railMm)), Array(13).fill(0.01 / Math.SQRT2), 1e-12);
  });

  test("holds the truth as often as it says: nineteen times in twenty", () => {
    const random = seededRandom(41);
    const truth = lessLine(railMm);
    let held = 0;
    const surveys = 200;
    for (let k = 0; k < surveys; k++) {
      const noisy = (x: number) => railMm(x) + 0.01 * random.normal();
      const { profile } = surveyOf(header + pass("a", noisy) + pass("a", noisy));
      held += profile.filter(({ errorMm, uMm }, i) => Math.abs(errorMm - truth[i]!) <= 2 * uMm).length;
    }
    // 2600 errors; the line taken off makes them a little less uncertain than said: 95.4 to 98.5 %.
    expect(held / (surveys * 13)).toBeGreaterThan(0.954);
    expect(held / (surveys * 13)).toBeLessThan(0.985);
  });
});

describe("the survey of a rail is refused", () => {
  const rows = xs.map((x) => `${x},0.1`).join("\n");
  test.each([
    ["with fewer than five places", "x,height\n0,1\n100,1\n200,1\n300,1\n", [[null, null, "rail-too-few"]]],
    [
      "with a place that one set-up has not read",
      `${header}${pass("a", railMm)}${pass("b", railMm).replace(/^300,.*\n/m, "")}`,
      [[null, null, "rail-places-differ"]],
    ],
    ["with a height that must be in another unit", `x,height\n${rows}\n650,1000\n`, [[15, 2, "rail-length-too-big"]]],
    ["with an x that must be in another unit", `x,height\n${rows}\n6500,0.1\n`, [[15, null, "rail-length-too-big"]]],
    ["with a decimal point lost", `x,height\n${rows.replace("300,0.1", "300,100")}\n`, [[8, 2, "typing-slip"]]],
    ["when it holds gaps", "line,x,gap\nC,10,0.1\n", [[1, null, "rail-of-gaps"]]],
    ["when it is a profile already", `x,error\n${rows}\n`, [[1, null, "rail-profile"]]],
    ["with a number that is none", `x,height\n${rows}\n650,x\n`, [[15, 2, "not-a-number"]]],
    ["with a setting that is none", `# rails: 3\nx,height\n${rows}\n`, [[1, null, "unknown-key"]]],
  ] as const)("%s", (_, text, expected) => {
    const answer = surveyed(text);
    const faults = answer.outcome === "faulty" ? answer.faults : [];
    expect(faults.map(({ line, column, code }) => [line, column, code])).toEqual(expected);
  });
});
