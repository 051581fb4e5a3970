/** A rail's error profile as a file: what is read of it, and every way in which it can be wrong. Lengths in mm. */
import { describe, expect, test } from "vitest";
import { checkRail } from "../../../../server/core/readings/checkRail.ts";
import { railFileReader, readRailFile } from "../../../../server/core/readings/readRailFile.ts";
import { near } from "../../../support/near.ts";
import { readingsAt, violin } from "../plainBoards.ts";

const overWholeBoard = readingsAt(
  [
    { xMm: 5, yMm: 0 },
    { xMm: 265, yMm: 0 },
  ],
  () => 1,
);

const checked = (text: string, readings = overWholeBoard) => checkRail(readRailFile(text), readings, violin);

const profileOf = (text: string) => {
  const answer = checked(text);
  if (answer.outcome === "faulty") throw new Error(answer.faults.map(({ saw }) => saw).join("\n"));
  return answer.profile;
};

const plain = [
  { xMm: 0, errorMm: -0.04, uMm: 0 },
  { xMm: 270, errorMm: 0.02, uMm: 0 },
];

describe("a rail's profile", () => {
  test.each([
    ["is x and error", "x,error\n0,-0.04\n270,0.02\n"],
    ["may have remarks, a note and no end of line", "# over the glass\nx,error,note\n0,-0.04,nut\n270,0.02,"],
    ["may come in any order", "x,error\n270,0.02\n0,-0.04\n"],
    ["may have decimal commas", "x;error\n0;-0,04\n270;0,02\n"],
    ["may be in another unit", "x (mm);error [0.01mm]\n0;-4\n270;2\n"],
    ["may leave out places without an error", "x,error\n0,-0.04\n100,\n270,0.02\n"],
    ["may say mm behind a number", "x,error\n0,-0.04 mm\n270 mm,0.02\n"],
    ["may say no uncertainty in its column", "x,error,u\n0,-0.04,\n270,0.02,\n"],
  ])("%s", (_, text) => {
    const profile = profileOf(text);
    expect(profile.length).toBe(2);
    profile.forEach(({ xMm, errorMm, uMm }, i) => {
      // Products of a number and its unit: a rounding of double precision.
      near(xMm, plain[i]!.xMm, 1e-12);
      near(errorMm, plain[i]!.errorMm, 1e-15);
      expect(uMm).toBe(0);
    });
  });

  test("gives its uncertainty expanded, which is twice the standard one", () => {
    expect(profileOf("x,error,u_thou\n0,0,2\n270,0,4\n").map(({ uMm }) => uMm)).toEqual([0.0254, 0.0508]);
  });

  test("is the same in pieces of one byte", () => {
    const text = "x;error\r\n0;-0,04\r\n270;0,02";
    const reader = railFileReader();
    for (const byte of new TextEncoder().encode(text)) reader.push(Uint8Array.of(byte));
    expect(reader.finish()).toEqual(readRailFile(text));
  });

  test("may end a twentieth of the board's length before the readings do, and no sooner", () => {
    // A violin's board: 270 mm, so 13.5 mm; the readings go from 5 to 265.
    expect(checked("x,error\n18.5,0\n251.5,0\n").outcome).toBe("checked");
    expect(checked("x,error\n18.6,0\n265,0\n").outcome).toBe("faulty");
    expect(checked("x,error\n5,0\n251.4,0\n").outcome).toBe("faulty");
  });
});

describe("a rail's profile is refused", () => {
  test.each([
    ["when it is empty", "", [[null, null, "empty-file"]]],
    ["without rows", "x,error\n", [[null, null, "no-readings"]]],
    ["without errors", "x,note\n0,a\n", [[1, null, "column-missing"]]],
    ["with a column that is none of its own", "x,error,bow\n0,0,1\n", [[1, 3, "column-unknown"]]],
    ["with places across", "x,y,error\n0,0,0\n", [[1, 2, "column-unknown"]]],
    ["with a column twice", "x,error,error\n0,0,1\n", [[1, 3, "column-twice"]]],
    ["in a unit that isn't read here", "x,error_um\n0,1\n", [[1, 2, "unit-unknown"]]],
    ["when it is the survey itself", "x,height\n0,1\n", [[1, 2, "rail-survey"]]],
    ["with a letter in a number", "x,error\n0,O.1\n270,0\n", [[2, 2, "letter-in-number"]]],
    ["with an error that has no x", "x,error\n,0.1\n270,0\n", [[2, 1, "x-missing"]]],
    ["with mm in a column of thou", "x,error_thou\n0,1 mm\n270,0\n", [[2, 2, "unit-in-cell"]]],
    ["with a cell too many", "x,error\n0,0.1,7\n270,0\n", [[2, null, "cell-count"]]],
    ["with a setting in it", "# unit: thou\nx,error\n0,0\n270,1\n", [[1, null, "setting-in-rail"]]],
    ["with a second header", "x,error\n0,0\nx,error\n270,0\n", [[3, null, "second-header"]]],
    ["with a place twice", "x,error\n0,0\n270,0\n0,0.1\n", [[4, 1, "rail-x-twice"]]],
    ["with a single place", "x,error\n0,0\n", [[null, null, "rail-too-few"]]],
    ["with an error that must be in another unit", "x,error\n0,12\n270,0\n", [[2, 2, "rail-error-too-big"]]],
    ["with a negative uncertainty", "x,error,u\n0,0,-0.01\n270,0,0\n", [[2, 3, "rail-u-range"]]],
    ["when it is far shorter than what is read over it", "x,error\n0,0\n100,0\n", [[null, null, "rail-too-short"]]],
  ] as const)("%s", (_, text, expected) => {
    const answer = checked(text);
    const faults = answer.outcome === "faulty" ? answer.faults : [];
    expect(faults.map(({ line, column, code }) => [line, column, code])).toEqual(expected);
    expect(faults.every(({ where }) => where === "rail")).toBe(true);
  });

  test("when it is no text", () => {
    const file = readRailFile(Uint8Array.of(0x50, 0x4b, 0x03, 0x04, 0, 0));
    expect(file.faults).toMatchObject([{ where: "rail", code: "not-text" }]);
  });

  test("when it goes on for more than ten thousand places, once", () => {
    const rows = Array.from({ length: 10_010 }, (_, i) => `${i},0`).join("\n");
    expect(readRailFile(`x,error\n${rows}\n`).faults).toMatchObject([{ line: 10_002, code: "too-many-points" }]);
  });
});
