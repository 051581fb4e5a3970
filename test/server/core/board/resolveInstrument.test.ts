/** From what a workshop says to an instrument with every figure resolved. */
import { describe, expect, test } from "vitest";
import { readSettings } from "../../../../server/core/board/readSettings.ts";
import { resolveInstrument } from "../../../../server/core/board/resolveInstrument.ts";
import { faultsFrom, instrumentFrom, table } from "./boards.ts";

describe("an instrument by its name", () => {
  test.each([
    ["violin", "violin", "4/4", 4],
    ["Violin", "violin", "4/4", 4],
    ["violin 4/4", "violin", "4/4", 4],
    ["violin 3/4", "violin", "3/4", 4],
    ["3/4 violin", "violin", "3/4", 4],
    ["violin, 1 / 2", "violin", "1/2", 4],
    ["violin ½", "violin", "1/2", 4],
    ["half size violin", "violin", "1/2", 4],
    ["fiddle", "violin", "4/4", 4],
    ["viola", "viola", "405", 4],
    ["viola 390", "viola", "390", 4],
    ["viola 390mm", "viola", "390", 4],
    ["viola 410", "viola", "405", 4],
    ["large viola", "viola", "430", 4],
    ["cello", "cello", "4/4", 4],
    ["Violoncello 3/4", "cello", "3/4", 4],
    ["bass", "bass", "3/4", 4],
    ["double bass", "bass", "3/4", 4],
    ["double-bass 3/4", "bass", "3/4", 4],
    ["bass 5 strings", "bass", "3/4", 5],
    ["bass five strings", "bass", "3/4", 5],
    ["5-string bass", "bass", "3/4", 5],
    ["bass 3/4 4 strings", "bass", "3/4", 4],
    ["string bass", "bass", "3/4", 4],
  ])("`%s` is a %s %s with %i strings", (written, kind, size, strings) => {
    const instrument = instrumentFrom({ instrument: written });
    expect(instrument).toMatchObject({ kind, size });
    expect(instrument.strings).toHaveLength(strings);
  });

  test.each([
    ["guitar", "instrument-unknown", "violin 4/4, violin 3/4"],
    ["violins", "instrument-unknown", "bass 3/4 5 strings"],
    ["4/4", "instrument-unknown", "cello 4/4"],
    ["violin 1/8", "size-unknown", "violin 4/4, violin 3/4, violin 1/2"],
    ["bass 4/4", "size-unknown", "bass 3/4"],
    ["violin old", "size-unknown", "violin 4/4"],
    ["cello 5 strings", "string-count", "strings"],
  ])("`%s` is refused, and what there is is listed", (written, code, listed) => {
    const [fault, another] = faultsFrom({ instrument: written });
    expect(fault).toMatchObject({ code, where: "readings", line: 1 });
    expect(fault?.remedy).toContain(listed);
    expect(another).toBeUndefined();
  });

  test("no instrument at all is a fault that lists what there is", () => {
    expect(faultsFrom({})).toMatchObject([{ code: "instrument-missing", where: "settings" }]);
    expect(faultsFrom({})[0]?.remedy).toContain("violin 4/4");
  });
});

describe("strings and their pitches", () => {
  test.each([
    // Scientific pitch, semitones above C0: C2 = 24, C4 = 60 - 12 = 48, A4 = 57.
    ["violin", null, [43, 50, 57, 64]],
    ["viola", null, [36, 43, 50, 57]],
    ["cello", null, [24, 31, 38, 45]],
    ["bass", null, [16, 21, 26, 31]],
    ["bass 5 strings", null, [11, 16, 21, 26, 31]],
    ["bass", "F# B E A", [18, 23, 28, 33]], // solo tuning
    ["bass", "E A D G C", [16, 21, 26, 31, 36]], // high fifth string
    ["bass", "C G D A", [12, 19, 26, 33]], // fifths
    ["cello", "C G D G", [24, 31, 38, 43]], // the A string lowered
    ["violin", "A E A E", [45, 52, 57, 64]],
    ["violin", "C G D A E", [36, 43, 50, 57, 64]],
    ["bass", "E A D F#", [16, 21, 26, 30]],
    ["violin", "G G D E flat", [43, 55, 62, 63]], // the same name again: an octave up
    ["violin", "E2 A2 D3 G3", [28, 33, 38, 43]], // any tuning, with its octaves
  ])("%s tuned %s", (instrument, strings, pitches) => {
    const resolved = instrumentFrom(strings === null ? { instrument } : { instrument, strings });
    expect(resolved.openPitches).toEqual(pitches);
  });

  test("five names choose the five-string board of the table", () => {
    const five = instrumentFrom({ instrument: "bass", strings: "B E A D G" });
    expect(five.widthEndMm).toEqual(instrumentFrom({ instrument: "bass 5 strings" }).widthEndMm);
  });

  test("where the table has no such board the usual one stands in, to be measured", () => {
    expect(instrumentFrom({ instrument: "cello", strings: "C G D A E" }).widthEndMm.value).toBe(64);
  });

  test("names that the table can't place, or that fall, are faults where they stand", () => {
    expect(faultsFrom({ instrument: "violin", strings: "E A D G" })).toMatchObject([
      { code: "strings-unknown", where: "readings", line: 2 },
    ]);
    expect(faultsFrom({ instrument: "violin", strings: "G3 D3 A4 E5" })).toMatchObject([{ code: "strings-unknown" }]);
    expect(faultsFrom({ instrument: "bass 5 strings", strings: "E A D G" })).toMatchObject([{ code: "string-count" }]);
  });

  test("two strings on one pitch class never share a name", () => {
    expect(instrumentFrom({ instrument: "violin", strings: "A E A E" }).strings).toEqual(["A3", "E4", "A4", "E5"]);
  });
});

describe("figures", () => {
  test("what the workshop gives wins, and says where it stood", () => {
    const instrument = instrumentFrom({ instrument: "cello", unit: "in", edge_limit: "5,4" });
    expect(instrument.edgeLimitMm).toEqual({
      value: 5.4,
      source: "given",
      origin: "given by the workshop (file line 3)",
    });
    const read = readSettings([
      { key: "instrument", value: "cello", where: "settings", line: null },
      { key: "edge_limit", value: "5.4", where: "settings", line: null },
    ]);
    if (read.outcome === "faulty") throw new Error("settings");
    const resolved = resolveInstrument(table, read.settings);
    expect(resolved).toMatchObject({
      instrument: { edgeLimitMm: { origin: "given by the workshop (setting edge_limit)" } },
    });
  });

  test("bands left out are the tolerances; given, they are as given", () => {
    const instrument = instrumentFrom({ instrument: "violin", hollow_tolerance: "0.2" });
    expect(instrument.hollowBandMm).toMatchObject({ value: 0.2, source: "given" });
    expect(instrument.radiusBandMm.value).toBe(instrument.radiusToleranceMm.value);
    expect(instrumentFrom({ instrument: "violin", radius_band: "0" }).radiusBandMm.value).toBe(0);
  });

  test("the middle radius left out is the mean of the ends, once an end is given", () => {
    const both = instrumentFrom({ instrument: "bass", radius_nut: "100", radius_end: "70" });
    expect(both.radiusMiddleMm).toMatchObject({ value: 85, source: "derived" });
    expect(instrumentFrom({ instrument: "violin", radius_end: "40" }).radiusMiddleMm.value).toBe(41);
    expect(instrumentFrom({ instrument: "violin", radius_end: "40", radius_middle: "38" }).radiusMiddleMm.value).toBe(
      38,
    );
    expect(instrumentFrom({ instrument: "bass" }).radiusMiddleMm.source).toBe("memory");
  });

  test("a facet is there only where its ridge is given; its slope may be as it is", () => {
    expect(instrumentFrom({ instrument: "cello" }).facet).toBeNull();
    const facet = instrumentFrom({
      instrument: "cello",
      flat_ridge_nut: "-6",
      flat_ridge_end: "-13",
      flat_slope_end: "0.25",
    }).facet;
    expect(facet).toMatchObject({ ridgeNutMm: { value: -6 }, slopeNut: null, slopeEnd: { value: 0.25 } });
  });
});

describe("figures that contradict each other", () => {
  test.each([
    [{ board_length: "330" }, "string_length"],
    [{ string_length: "260" }, "board_length"],
    [{ width_nut: "42", width_end: "24" }, "swapped"],
    [{ spacing_nut: "24.5" }, "spacing_nut"],
    [{ spacing_bridge: "60" }, "spacing_bridge"],
    [{ edge_inset: "12" }, "edge_inset"],
    [{ radius_end: "20.5", radius_nut: "42" }, "radius_end"],
    [{ edge_limit: "45" }, "edge_limit"],
    [{ centre_limit: "40" }, "centre_limit"],
    [{ flat_ridge_nut: "-12.5", flat_ridge_end: "-10" }, "flat_ridge_nut"],
    [{ flat_ridge_nut: "-6", flat_ridge_end: "0" }, "flat_ridge_end"],
  ])("on a violin %o is a fault whose remedy speaks of `%s`", (figures, spoken) => {
    const faults = faultsFrom({ instrument: "violin", ...figures });
    expect(faults.length).toBeGreaterThan(0);
    expect(faults.some((fault) => fault.remedy.includes(spoken))).toBe(true);
    // The instrument stands on line 1, the figures below it.
    expect(faults.every((fault) => fault.where === "readings" && (fault.line ?? 0) >= 2)).toBe(true);
  });

  test("every contradiction is told at once", () => {
    expect(faultsFrom({ instrument: "violin", spacing_nut: "30", edge_limit: "50" })).toHaveLength(2);
  });

  test.each([
    { edge_limit: "6.5" }, // severe, not impossible
    { string_length: "310", board_length: "255" },
    { radius_nut: "30", radius_end: "60" },
    { spacing_nut: "15", spacing_bridge: "15" }, // parallel strings
    { width_nut: "34", width_end: "34" },
  ])("unusual is no fault: %o", (figures) => {
    expect(faultsFrom({ instrument: "violin", ...figures })).toEqual([]);
  });
});
