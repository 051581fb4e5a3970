/** What a luthier reads in a terminal, of a board made up by hand. */
import { describe, expect, test } from "vitest";
import type { Decision, Examination, Reason } from "../../../server/core/examination.ts";
import { plainText } from "../../../server/reports/plainText.ts";
import { verdictLine } from "../../../server/reports/verdictLine.ts";
import { smallExamination } from "./smallExamination.ts";

const withDecision = (decision: Decision, more: Partial<Examination> = {}): Examination => ({
  ...smallExamination,
  verdict: { ...smallExamination.verdict, decision },
  ...more,
});

const firstSentence = (examination: Examination) => plainText(examination).split("\n\n")[0]!.replaceAll("\n", " ");

describe("the whole text", () => {
  const text = plainText(smallExamination);

  test("stands as it should, word for word", () => {
    expect(text).toBe(`Dress the board: 0.34 ± 0.03 mm off at the deepest cut, which leaves 4.62 ± 0.06
mm at the thinnest edge (limit 3.50 mm).

Cello 4/4; 77 readings on 7 lines, 11 crosslines.

Why
  - The pit under the A string is deeper than 0.15 mm, the depth that calls for
    a dressing. It is 0.21 ± 0.02 mm; the limit is common practice, no source.

Deepest place
  - 0.21 ± 0.02 mm on the A string at B, first position (finger pit), 62 mm from
    the nut, 10 mm to the treble side.

Other worn places
  - string rut, at least 0.09 ± 0.02 mm on the C string at D, first position, 30
    to 140 mm from the nut

Hollow under each string, as a straightedge shows it, mm
  string   hollow         as read   should be
  C        1.03 ± 0.03    1.10      0.90 to 1.30   right
  G        0.60 ± 0.02    —         0.70 to 1.10   too shallow
  D        1.30 ± 0.02    1.30      0.60 to 1.00   too deep
  A        −0.05 ± 0.02   −0.06     0.50 to 0.90   humped

Camber
  - radius 62.0 ± 0.5 mm at the nut, 62.0 ± 0.3 mm in the middle, 62.1 ± 0.4 mm
    at the end

Least wood
  - deepest cut 0.34 ± 0.03 mm, 0.12 mm on average
  - 0.05 mm off at the nut, 0.08 mm off at the end
  - target: radius 62.0 mm all along; hollow 1.10 mm under the lowest string,
    0.70 mm under the highest
  - leave the last 0.05 mm to scraper and paper
  - with the 62.0 mm template: 0.36 mm off, 1 dressing left after it

Thickness
  - now 5.10 ± 0.05 mm at the thinnest (treble edge, 290 mm from the nut)
  - after planing 4.62 ± 0.06 mm at the thinnest edge
  - after planing 5.90 ± 0.06 mm over the hollowed underside
  - limit 3.50 mm at the edge
  - 3 dressings left after this one

What would change this
  - If the edges had to keep at least 4.70 mm (now 3.50 mm): too close to call.

Mind
  - Ebony dust is a sensitiser: extraction first, then a mask, no dry sweeping.
`);
  });

  test("fits a terminal of 80 columns", () => {
    for (const line of text.split("\n")) expect(line.length).toBeLessThanOrEqual(80);
  });
});

const reason = smallExamination.verdict.reasons[0]!;

describe("how the board was read", () => {
  const toldOf = (readings: Partial<Examination["readings"]>) =>
    plainText({ ...smallExamination, readings: { ...smallExamination.readings, ...readings } }).replaceAll(/\s+/g, " ");

  test("tells set-ups of the rail where there were several", () => {
    expect(toldOf({ setups: 4 })).toContain("77 readings on 7 lines, 11 crosslines, in 4 set-ups.");
    expect(toldOf({ setups: 1 })).not.toContain("set-up");
  });

  test("tells to how many places a scan was brought together, in place of its lines", () => {
    expect(toldOf({ count: 150_000, condensedTo: 37_000 })).toContain(
      "150000 readings brought together at 37000 places.",
    );
  });

  test("tells a drift that was taken out, and that none was found", () => {
    expect(toldOf({ drift: { checks: 3, mm: -0.034, corrected: true } })).toContain(
      "The gauge drifted by 0.03 mm (3 readings taken again); that is taken out.",
    );
    expect(toldOf({ drift: { checks: 1, mm: 0.01, corrected: false } })).toContain(
      "1 reading taken again: no drift beyond the readings' scatter.",
    );
    expect(toldOf({ drift: null })).not.toContain("taken again");
  });
});

describe("the next reading", () => {
  const says =
    "Read 137 mm from the nut under the A string: it would narrow the hollow under A from ± 0.04 to ± 0.03 mm.";
  const verdict = { ...smallExamination.verdict, nextReading: { xMm: 137, yMm: 9, what: "height" as const, says } };

  test("stands after what would change the verdict, and nowhere where none is told", () => {
    const text = plainText({ ...smallExamination, verdict }).replaceAll(/\s+/g, " ");
    expect(text).toContain(`too close to call. Next reading - ${says} Mind`);
    expect(plainText(smallExamination)).not.toContain("Next reading");
  });
});

describe("the verdict", () => {
  test.each([
    ["leave", /^Leave the board as it is/],
    ["dress", /^Dress the board: 0\.34 ± 0\.03 mm off .* leaves 4\.62 ± 0\.06 mm .*limit 3\.50 mm/],
    ["shape", /^Shape the new board: 0\.34/],
    ["borderline", /^Too close to call: planing takes 0\.34 ± 0\.03 mm and leaves 4\.62/],
    ["replace", /^Replace the board: planing would leave 4\.62 ± 0\.06 mm/],
    ["undecided", /^Can't say yet/],
    ["restorer", /^Ask a qualified restorer before any wood/],
    ["cause", /^Find the cause first/],
  ] as const)("%s is said in the first sentence", (decision, sentence) => {
    expect(firstSentence(withDecision(decision))).toMatch(sentence);
  });

  test("claims no number that was not measured", () => {
    const bare = { planing: null, thickness: null };
    expect(firstSentence(withDecision("dress", bare))).toBe("Dress the board.");
    expect(firstSentence(withDecision("replace", bare))).toBe("Replace the board.");
    expect(firstSentence(withDecision("borderline", bare))).not.toMatch(/\d/);
  });

  test("tells what to measure where nothing can be said yet", () => {
    const thick = withDecision("undecided", { wornPlaces: [] });
    expect(firstSentence(thick)).toBe("Can't say yet: something still has to be measured.");
    expect(firstSentence(withDecision("undecided", { thickness: null }))).toBe(
      "Can't say yet: read the rut again with a finer tip, and measure the thickness at the edges.",
    );
    expect(firstSentence({ ...thick, planing: null })).toBe("Can't say yet: survey the whole board.");
  });

  test("too close in the need alone says so, and keeps quiet about a thickness that is clear", () => {
    const close: Reason = { ...reason, code: "hollow", valueMm: 0.81, u: 0.03, limitMm: 0.8, probability: 0.75 };
    const clear: Reason = { ...reason, code: "thickness", valueMm: 4.62, u: 0.06, limitMm: 3.5, probability: 0 };
    const saidOf = (reasons: readonly Reason[]) =>
      firstSentence({
        ...smallExamination,
        verdict: { ...smallExamination.verdict, decision: "borderline", reasons },
      });
    expect(saidOf([close, clear])).toBe(
      "Too close to call: whether the board needs a dressing at all lies within the uncertainty.",
    );
    expect(saidOf([close, { ...clear, limitMm: 4.6 }])).toMatch(/leaves 4\.62/);
  });

  test("tells to read under the strings, or with a steadier rail, where a reason says so", () => {
    const saidFor = (...codes: readonly string[]) =>
      firstSentence(
        withDecision("undecided", {
          thickness: null,
          wornPlaces: [],
          verdict: {
            ...smallExamination.verdict,
            decision: "undecided",
            reasons: codes.map((code) => ({ ...reason, code })),
          },
        }),
      );
    expect(saidFor("coarse", "sound-where-read")).toBe("Can't say yet: read a line under every string.");
    expect(saidFor("noise", "sound-where-read")).toBe("Can't say yet: read the board again with a steadier rail.");
    expect(saidFor("coarse")).toBe(
      "Can't say yet: read a line under every string, and measure the thickness at the edges.",
    );
  });

  test("says at least where the cut is a least one", () => {
    const planing = { ...smallExamination.planing!, atLeast: true };
    expect(firstSentence(withDecision("dress", { planing }))).toContain("at least 0.34");
  });
});

test("a board of which little was measured is told so, part by part", () => {
  const text = plainText(
    withDecision("undecided", { planing: null, thickness: null, deepest: null, wornPlaces: [], maps: null }),
  );
  expect(text).toContain("No planing map");
  expect(text).toContain("Not measured: nothing can be said about how much wood is left.");
  expect(text).toContain("None: nothing stands out from the readings' own scatter.");
  expect(text).not.toContain("Other worn places");
});

test("a limit that the reason does not name is told with where it comes from", () => {
  const reason = {
    code: "edge",
    says: "The treble edge is thin.",
    valueMm: 3.4,
    u: 0.05,
    limitMm: 3.5,
    origin: "from memory",
    probability: null,
  };
  const verdict = { ...smallExamination.verdict, reasons: [reason] };
  expect(plainText({ ...smallExamination, verdict })).toContain(
    "The treble edge is thin. It is 3.40 ± 0.05 mm; the limit is 3.50 mm, from\n    memory.",
  );
});

describe("the verdict on one line", () => {
  test("tells what to do, the deepest place, and the thickness against its limit", () => {
    expect(verdictLine(smallExamination)).toBe(
      "dress; deepest 0.21 ± 0.02 mm on the A string at B, first position; 4.62 ± 0.06 mm left at the edge, limit 3.50 mm",
    );
  });

  test("tells what is not there", () => {
    expect(verdictLine(withDecision("undecided", { deepest: null, thickness: null }))).toBe(
      "can't say yet; no worn place; thickness not measured",
    );
    expect(verdictLine(withDecision("leave", { planing: null }))).toContain("4.62 ± 0.06 mm at the edge now");
  });
});
