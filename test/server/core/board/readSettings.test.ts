/** Settings as a workshop writes them: a table of small cases, then how they come together. */
import { describe, expect, test } from "vitest";
import { readSettings } from "../../../../server/core/board/readSettings.ts";
import type { Settings } from "../../../../server/core/board/settings.ts";
import { settingTable } from "../../../../server/core/board/settingTable.ts";
import { fileEntries } from "./boards.ts";

function read(settings: Readonly<Record<string, string>>): Settings {
  const answer = readSettings(fileEntries(settings));
  if (answer.outcome === "faulty") throw new Error(answer.faults.map((fault) => fault.saw).join("; "));
  return answer.settings;
}

function codes(settings: Readonly<Record<string, string>>): readonly string[] {
  const answer = readSettings(fileEntries(settings));
  return answer.outcome === "faulty" ? answer.faults.map((fault) => fault.code) : [];
}

describe("a number is read", () => {
  test.each([
    // written, mm; the rule that lets it pass
    ["1.5", 1.5],
    ["1,5", 1.5], // decimal comma
    ["1.5mm", 1.5],
    ["1.5 mm", 1.5],
    ["1,5 MM", 1.5],
    ["  1.5  ", 1.5],
    ["+1.5", 1.5],
    [".5", 0.5], // no digit before the point
    [",5", 0.5],
    ["2.", 2], // none after it
    ["0", 0], // a point
    ["-0", 0], // still a point
    ["15e-1", 1.5],
  ])("`%s` as a tip radius is %f mm", (written, mm) => {
    expect(read({ tip_radius: written }).gauge.tipRadiusMm).toBe(mm);
  });

  test.each([
    ["mm", "not-a-number"],
    ["about 1.5", "not-a-number"],
    ["1.5 in", "not-a-number"], // lengths are mm whatever `unit` says
    ["1.5.2", "not-a-number"],
    ["1,500.0", "not-a-number"],
    ["1 5", "not-a-number"],
    ["NaN", "not-a-number"],
    ["Infinity", "not-a-number"],
    ["0x10", "not-a-number"],
    ["--1", "not-a-number"],
    ["1.5 ± 0.1", "not-a-number"],
    ["-1.5", "out-of-range"],
    ["−1.5", "out-of-range"], // the typographer's minus is a minus
    ["1e308", "out-of-range"],
    ["1e999", "out-of-range"],
    ["150", "out-of-range"],
  ])("`%s` as a tip radius is refused: %s", (written, code) => {
    expect(codes({ tip_radius: written })).toEqual([code]);
  });
});

describe("a key left blank", () => {
  const blank = (where: "readings" | "settings") =>
    readSettings([{ key: "tip_radius", value: "  ", where, line: where === "readings" ? 3 : null }]);

  test("in the file says nothing: an empty grid asks for it, and the default holds", () => {
    const answer = blank("readings");
    if (answer.outcome === "faulty") throw new Error("refused");
    expect(answer.settings.gauge.tipRadiusMm).toBe(0);
    expect(answer.settings.given.has("tip_radius")).toBe(false);
  });

  test("on the command line or in the form is a slip", () => {
    const answer = blank("settings");
    expect(answer.outcome === "faulty" && answer.faults.map(({ code }) => code)).toEqual(["empty-value"]);
  });
});

describe("each key has its own range", () => {
  test.each([
    ["radius_nut", "4.2"], // cm for mm
    ["radius_end", "0"],
    ["board_length", "27"],
    ["board_length", "27000"],
    ["hollow_lowest", "-0.5"], // a hump is no target
    ["hollow_deepest", "135"], // mm where a part of the length is asked
    ["hollow_deepest", "0.9"],
    ["flat_ridge_nut", "6"], // the facet is on the bass side
    ["edge_limit", "-4"],
    ["dress_at", "0"],
    ["rut_width", "0"],
    ["resolution", "10"],
    ["templates", "42 4.1"],
  ])("%s: %s is out of range", (key, written) => {
    expect(codes({ [key]: written })).toContain("out-of-range");
  });

  test.each([
    ["gauge_error", "0"],
    ["radius_band", "0"],
    ["allowance", "0"],
    ["hollow_deepest", "0,45"],
    ["flat_slope_nut", "-0.05"],
  ])("%s: %s is within it", (key, written) => {
    expect(codes({ [key]: written, flat_ridge_nut: "-6", flat_ridge_end: "-12" })).toEqual([]);
  });

  test("no mm after a number that is no length", () => {
    expect(codes({ hollow_deepest: "0.5 mm" })).toEqual(["not-a-number"]);
  });
});

describe("units are about the readings", () => {
  test.each([
    ["mm", 1],
    ["0.01mm", 0.01],
    ["0.01 mm", 0.01],
    ["0,01mm", 0.01],
    ["1/100 mm", 0.01],
    ["in", 25.4],
    ["IN", 25.4],
    ["inch", 25.4],
    ["thou", 0.0254],
  ])("one `%s` is %f mm", (written, mm) => {
    const { gauge } = read({ unit: written });
    expect(gauge.unitMm).toBe(mm);
    expect(gauge.placeUnitMm).toBe(1);
    expect(read({ place_unit: written }).gauge.placeUnitMm).toBe(mm);
  });

  test.each(["cm", "m", "0.1mm", "micron", "25.4"])("`%s` is not one of them", (written) => {
    expect(codes({ unit: written })).toEqual(["not-a-choice"]);
  });

  test("lengths in the settings stay mm", () => {
    expect(read({ unit: "in", tip_radius: "1.5", board_length: "270" }).gauge.tipRadiusMm).toBe(1.5);
    expect(read({ unit: "in", board_length: "270" }).figures.get("boardLengthMm")?.value).toBe(270);
  });
});

describe("choices", () => {
  test("what the gauge reads, tension, aim and build", () => {
    const settings = read({ reads: "Depth", tension: "ON", aim: "own", build: "veneered" });
    expect(settings.gauge).toMatchObject({ reads: "depth", tension: "on" });
    expect(settings.job).toMatchObject({ aim: "own", build: "veneered" });
  });

  test.each([
    ["yes", true],
    ["Yes", true],
    ["true", true],
    ["no", false],
    ["FALSE", false],
  ])("new_board: %s", (written, answer) => {
    expect(read({ new_board: written }).job.newBoard).toBe(answer);
  });

  test.each([
    ["reads", "heights", "not-a-choice"],
    ["tension", "slack", "not-a-choice"],
    ["aim", "perfect", "not-a-choice"],
    ["build", "plastic", "not-a-choice"],
    ["valuable", "very", "not-yes-or-no"],
    ["loose", "1", "not-yes-or-no"],
  ])("%s: %s is none", (key, written, code) => {
    expect(codes({ [key]: written })).toEqual([code]);
  });
});

describe("templates", () => {
  test.each([
    ["62", [62]],
    ["62 65", [62, 65]],
    ["62, 65, 68", [62, 65, 68]],
    ["62,65,68", [62, 65, 68]],
    ["41,5", [41.5]], // one digit behind a comma: a decimal comma
    ["41,5; 42", [41.5, 42]],
    ["41.5,42", [41.5, 42]],
    ["62 mm, 65 mm", [62, 65]],
    ["62/65", [62, 65]],
    ["62 62", [62]], // one template, named twice
  ])("`%s`", (written, radii) => {
    expect(read({ templates: written }).job.templateRadiiMm).toEqual(radii);
  });

  test.each(["flat", "62 and 65", "-62", ",", "mm"])("`%s` is no list of radii", (written) => {
    expect(codes({ templates: written })).toHaveLength(1);
  });
});

describe("strings", () => {
  test.each([
    ["C G D A", ["C", "G", "D", "A"]],
    ["c, g, d, a", ["C", "G", "D", "A"]],
    ["C/G/D/A", ["C", "G", "D", "A"]],
    ["C-G-D-A", ["C", "G", "D", "A"]],
    ["CGDA", ["C", "G", "D", "A"]],
    ["B E A D G", ["B", "E", "A", "D", "G"]],
    ["E1 A1 D2 G2", ["E1", "A1", "D2", "G2"]],
    ["F# B E A", ["F sharp", "B", "E", "A"]],
    ["B flat F C G", ["B flat", "F", "C", "G"]],
    ["Bb F C G", ["B flat", "F", "C", "G"]],
  ])("`%s`", (written, names) => {
    expect(read({ strings: written }).strings).toEqual(names);
  });

  test.each([
    ["H E A D", "not-a-string-name"],
    ["G D A E string", "not-a-string-name"],
    ["G10 D A E", "not-a-string-name"],
    ["G", "string-count"],
    ["G D", "string-count"],
    ["C D E F G A B C D", "string-count"],
  ])("`%s` is refused: %s", (written, code) => {
    expect(codes({ strings: written })).toEqual([code]);
  });
});

describe("keys", () => {
  test.each(["tip_radius", "Tip_Radius", "tip radius", "tip-radius", "  TIP  radius "])("`%s` is a key", (key) => {
    expect(read({ [key]: "1.5" }).gauge.tipRadiusMm).toBe(1.5);
  });

  test.each([
    ["tip_raduis", "tip_radius"],
    ["tipradius", "tip_radius"],
    ["templates_", "templates"],
    ["hollow_low", "hollow_lowest"],
    ["instrment", "instrument"],
    ["edge_limt", "edge_limit"],
    ["new", "new_board"], // a part of a key
    ["hollow", "hollow_lowest"],
    ["bound", "projection_bound"],
    ["xy", "aim"], // no part of any
  ])("`%s` is unknown; the remedy names `%s`", (key, nearest) => {
    const answer = readSettings(fileEntries({ [key]: "1" }));
    expect(answer).toMatchObject({ outcome: "faulty", faults: [{ code: "unknown-key", line: 1 }] });
    if (answer.outcome === "faulty") expect(answer.faults[0]?.remedy).toContain(`\`${nearest}\``);
  });

  test.each(["__proto__", "constructor", "toString"])("`%s` is no key of the table either", (key) => {
    const entry = { key, value: "1", where: "settings", line: null } as const;
    expect(readSettings([entry])).toMatchObject({ faults: [{ code: "unknown-key" }] });
  });

  test("the strings' pull under one outer string alone is half of it, and that is said", () => {
    for (const key of ["pull_lowest", "pull_highest"]) {
      const answer = readSettings(fileEntries({ [key]: "0.2" }));
      expect(answer).toMatchObject({ outcome: "faulty", faults: [{ code: "pull-incomplete", line: 1 }] });
    }
    expect(codes({ pull_lowest: "0.2", pull_highest: "a bit" })).toEqual(["not-a-number"]);
  });

  test("the strings' pull may be less than nothing", () => {
    const answer = readSettings(fileEntries({ pull_lowest: "-0.05", pull_highest: "0,1" }));
    expect(answer).toMatchObject({ settings: { gauge: { pull: { lowestMm: -0.05, highestMm: 0.1 } } } });
  });

  test("every key's own example is accepted, and every key has words", () => {
    const pairs = { flat_ridge_nut: "-6", flat_ridge_end: "-12", pull_lowest: "0.1", pull_highest: "0.1" };
    for (const { key, example, meaning } of settingTable) {
      expect(meaning.length, key).toBeGreaterThan(10);
      expect(codes({ ...pairs, [key]: example }), key).toEqual([]);
    }
  });

  test("the keys are those of the contract", () => {
    const keys =
      `instrument strings unit place_unit reads tip_radius resolution gauge_error calliper_error rail_error edge_inset
      rut_width tension pull_lowest pull_highest board_length width_nut width_end string_length spacing_nut
      spacing_bridge radius_nut radius_middle radius_end templates hollow_lowest hollow_highest hollow_deepest aim spare
      radius_tolerance hollow_tolerance radius_band hollow_band flat_ridge_nut flat_ridge_end flat_slope_nut
      flat_slope_end edge_limit centre_limit dress_at dressing_spend allowance finish_allowance projection_bound
      crown_bound build valuable loose new_board`.split(/\s+/);
    expect(settingTable.map((setting) => setting.key).toSorted()).toEqual(keys.toSorted());
  });
});

describe("together", () => {
  test("a later entry of a key wins", () => {
    const answer = readSettings([
      { key: "tip_radius", value: "1.5", where: "readings", line: 2 },
      { key: "tip_radius", value: "0.5", where: "settings", line: null },
    ]);
    expect(answer).toMatchObject({ outcome: "read", settings: { gauge: { tipRadiusMm: 0.5 } } });
  });

  test("every fault is told at once, each with its line, even one that a later entry would have won over", () => {
    const answer = readSettings([
      { key: "tip_radius", value: "big", where: "readings", line: 2 },
      { key: "unit", value: "furlong", where: "readings", line: 3 },
      { key: "colour", value: "black", where: "readings", line: 4 },
      { key: "tip_radius", value: "1.5", where: "settings", line: null },
    ]);
    expect(answer.outcome).toBe("faulty");
    if (answer.outcome === "faulty") expect(answer.faults.map((fault) => fault.line)).toEqual([2, 3, 4]);
  });

  test("a fault says what was seen, what is allowed, and gives an example", () => {
    const answer = readSettings(fileEntries({ hollow_deepest: "135" }));
    expect(answer).toMatchObject({
      faults: [
        {
          saw: "`hollow_deepest` is `135`: that can't be",
          remedy: "Write a number from 0.3 to 0.7 (of the board's length). For example `hollow_deepest: 0.5`.",
        },
      ],
    });
  });

  test("nothing said: nothing is claimed of board or strings, and the dial is a common one", () => {
    const settings = read({});
    expect(settings.instrument).toBeNull();
    expect(settings.gauge).toEqual({
      unitMm: 1,
      placeUnitMm: 1,
      reads: "height",
      tipRadiusMm: 0,
      resolutionMm: 0.01,
      errorLimitMm: 0.01,
      calliperErrorMm: 0.05,
      tension: "unknown",
      pull: null,
    });
    expect(settings.job.build).toBe("unknown");
    expect(settings.figures.size).toBe(0);
    expect(settings.given.size).toBe(0);
  });

  test("what was said is told from what was left out, a tip of 0 for one", () => {
    expect(read({ tip_radius: "0" }).given.has("tip_radius")).toBe(true);
    expect(read({ resolution: "0" }).given.has("tip_radius")).toBe(false);
  });

  test("half a facet is a fault", () => {
    expect(codes({ flat_ridge_nut: "-6" })).toEqual(["facet-incomplete"]);
    expect(codes({ flat_slope_end: "0.2" })).toEqual(["facet-incomplete"]);
    expect(codes({ flat_ridge_nut: "6", flat_ridge_end: "-12" })).toEqual(["out-of-range"]); // given, if wrongly
    expect(codes({ flat_ridge_nut: "-6", flat_ridge_end: "-12" })).toEqual([]);
  });

  test("a key or a value made to upset a page or a terminal is told in characters that can be seen, and short", () => {
    const answer = readSettings(
      fileEntries({ "tip\u202E": "1", radius_end: `\u0007${"5".repeat(600)}`, build: "\u001B[31m" }),
    );
    const told = answer.outcome === "faulty" ? answer.faults.map((fault) => fault.saw) : [];
    expect(told).toEqual([
      "`tip<U+202E>` is not a setting",
      `\`radius_end\` is \`<U+0007>${"5".repeat(39)}…\`: that is too long`,
      "`build` is `<U+001B>[31m`: that is not one of the choices",
    ]);
  });

  test("of ten thousand faulty settings fifty are told and the others counted, in a moment", () => {
    const entries = Array.from({ length: 10_000 }, (_, k) => ({
      key: `q${k}`,
      value: "1",
      where: "settings" as const,
      line: null,
    }));
    const begun = performance.now();
    const answer = readSettings(entries);
    // It took 1.6 s while each was told with its nearest known key, and takes 0.03 s.
    expect(performance.now() - begun).toBeLessThan(500);
    if (answer.outcome !== "faulty") throw new Error("read");
    expect(answer.faults.length).toBe(51);
    expect(answer.faults.at(-1)).toMatchObject({
      code: "more-faults",
      where: "settings",
      saw: "9950 more faults, not listed",
    });
  });

  test("what was handed in is left as it was", () => {
    const entries = Object.freeze(
      fileEntries({ strings: "CGDA", templates: "62, 65" }).map((one) => Object.freeze(one)),
    );
    expect(readSettings(entries).outcome).toBe("read");
  });
});
