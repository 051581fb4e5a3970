/** What a workshop says about an instrument: what gets into the records, and what is refused, all of it together. */
import { describe, expect, test } from "vitest";
import { loadInstrumentTable } from "../../../server/instrumentTable.ts";
import {
  dimensionKeys,
  type InstrumentSaid,
  instrumentChanged,
  instrumentGiven,
} from "../../../server/keeping/instrumentGiven.ts";

const table = loadInstrumentTable();
const plain: InstrumentSaid = { number: "C-07", kind: "cello" };

function checked(said: InstrumentSaid) {
  const read = instrumentGiven(said, table);
  if (read.outcome === "faulty") throw new Error(JSON.stringify(read.faults));
  return read.given;
}

function faultsOf(said: InstrumentSaid) {
  const read = instrumentGiven(said, table);
  return read.outcome === "faulty" ? read.faults : [];
}

describe("an instrument of the workshop", () => {
  test("needs no more than a number and a kind", () => {
    expect(checked(plain)).toEqual({
      number: "C-07",
      instrument: "cello",
      label: "",
      strings: null,
      build: "unknown",
      valuable: false,
      dimensions: {},
    });
  });

  test.each([
    [{ kind: "cello", size: "4/4" }, "cello"],
    [{ kind: "cello", size: "three quarter" }, "cello 3/4"],
    [{ kind: "Violin half" }, "violin 1/2"],
    [{ kind: "viola", size: "small" }, "viola 390"],
    [{ kind: "double bass", size: "" }, "bass"],
    [{ kind: "bass 5 strings" }, "bass 5 strings"],
    [{ kind: "bass", strings: "B E A D G" }, "bass"],
  ])("%j is in the table's words a %s", (said, instrument) => {
    expect(checked({ number: "7", ...said }).instrument).toBe(instrument);
  });

  test("says what differs from the table: strings, build, value, dimensions as numbers or as texts", () => {
    const said = {
      ...plain,
      label: "  lent to the second desk ",
      strings: "C G D A",
      build: "Solid",
      valuable: true,
      dimensions: { board_length: 590, "Edge limit": "5,4", hollow_lowest: "1.5 mm", dress_at: "" },
    };
    expect(checked(said)).toMatchObject({
      label: "lent to the second desk",
      strings: "C G D A",
      build: "solid",
      valuable: true,
      dimensions: { board_length: "590", edge_limit: "5,4", hollow_lowest: "1.5 mm" },
    });
  });

  test("has its number in one spelling: composed letters, single blanks", () => {
    expect(checked({ ...plain, number: " Ce\u0301  7 " }).number).toBe("Cé 7");
  });

  test("may have dimensions of the instrument only: none of gauge, file or job", () => {
    expect(dimensionKeys).toEqual(expect.arrayContaining(["board_length", "edge_limit", "dress_at", "flat_ridge_nut"]));
    const others = ["instrument", "unit", "tip_radius", "resolution", "tension", "pull_lowest", "rail_error", "loose"];
    expect(dimensionKeys.filter((key) => others.includes(key))).toEqual([]);
  });
});

describe("an instrument is refused", () => {
  test.each([
    ["without a number", { number: " " }, "number-missing", "C-07"],
    ["with a number of dots, which is a way up a folder", { number: ".." }, "number-dots", "letter or a digit"],
    ["with a number too long to be one", { number: "C".repeat(41) }, "too-long", "at most 40"],
    ["with a number that holds a line break", { number: "C-07\nC-08" }, "unprintable", "in one line"],
    ["with a label that turns writing round", { label: "cello \u202eolec" }, "unprintable", "in one line"],
    ["without a kind", { kind: "" }, "kind-missing", "violin, viola, cello, bass"],
    ["with a kind that the table lacks", { kind: "chello" }, "instrument-unknown", "Did you mean cello"],
    ["with a size that the table lacks", { size: "1/2" }, "size-unknown", "Did you mean cello 3/4"],
    ["with strings that are none", { strings: "C G D H" }, "not-a-string-name", "A to G"],
    ["with a build that is none", { build: "soild" }, "not-a-choice", "Did you mean solid"],
    ["with a dimension that is none", { dimensions: { board_lenght: 690 } }, "unknown-dimension", "board_length"],
    ["with a dimension of the gauge", { dimensions: { tip_radius: 1 } }, "unknown-dimension", "at each visit"],
    ["with a dimension out of its range", { dimensions: { board_length: 69 } }, "out-of-range", "from 100 to 1500"],
    ["with a dimension that is no number", { dimensions: { board_length: "long" } }, "not-a-number", "length in mm"],
    ["with dimensions that contradict each other", { dimensions: { width_end: 20 } }, "figures-disagree", "width_nut"],
    ["with half a facet", { dimensions: { flat_ridge_nut: -9 } }, "facet-incomplete", "both ends"],
  ])("%s, and told what to do", (_, said, code, remedy) => {
    const faults = faultsOf({ ...plain, ...said });
    const fault = faults.find((one) => one.code === code);
    expect(fault).toMatchObject({ where: "instrument", line: null });
    expect(fault?.remedy).toContain(remedy);
  });

  test("with every fault told at once", () => {
    const faults = faultsOf({ number: "", kind: "chello", build: "oak", dimensions: { tip_radius: 1 } });
    expect(faults.map(({ code }) => code).sort()).toEqual([
      "instrument-unknown",
      "not-a-choice",
      "number-missing",
      "unknown-dimension",
    ]);
  });
});

describe("a record that is changed", () => {
  const record = checked({ number: "V-3", kind: "violin", size: "3/4", dimensions: { board_length: 240 } });

  test("keeps what is not said anew", () => {
    const changed = instrumentChanged(record, { label: "back from loan" }, table);
    expect(changed).toEqual({ outcome: "checked", given: { ...record, label: "back from loan" } });
  });

  test("may get another size and stay of its kind, or another kind of the usual size", () => {
    const smaller = instrumentChanged(record, { size: "1/2" }, table);
    expect(smaller).toMatchObject({ given: { instrument: "violin 1/2" } });
    const other = instrumentChanged(record, { kind: "viola", dimensions: {} }, table);
    expect(other).toMatchObject({ given: { instrument: "viola" } });
  });

  test("is held together: a dimension that fitted the old kind may contradict the new one", () => {
    const changed = instrumentChanged(record, { kind: "cello", dimensions: { board_length: 700 } }, table);
    expect(changed).toMatchObject({ outcome: "faulty", faults: [{ code: "figures-disagree", where: "instrument" }] });
  });
});
