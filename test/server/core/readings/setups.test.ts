/** Set-ups of the rail: numbered in the order of the file, and never mixed up with each other. */
import { expect, test } from "vitest";
import type { Readings } from "../../../../server/core/readings/readings.ts";
import { repeatSdMm } from "../../../../server/core/readings/repeats.ts";
import { near } from "../../../support/near.ts";
import { readingsFromText } from "./readingsFromText.ts";

function readingsOf(text: string): Readings {
  const checked = readingsFromText(text);
  if (checked.outcome === "faulty") throw new Error(checked.faults.map(({ saw }) => saw).join("\n"));
  return checked.readings;
}

test("set-ups are numbered as they are met, and come back under their own number", () => {
  const readings = readingsOf("x,y,height,setup\n10,0,1,G\n20,0,1,across\n30,0,1,G\n");
  expect(readings.setups).toEqual(["G", "across"]);
  expect(readings.readings.map(({ setup }) => setup)).toEqual([0, 1, 0]);
});

test("where no set-up is named there is one", () => {
  for (const text of ["x,y,height\n10,0,1\n", "x,0\n10,1\n", "x,y,height,setup\n10,0,1,\n"]) {
    const readings = readingsOf(text);
    expect(readings.setups).toEqual([""]);
    expect(readings.readings.map(({ setup }) => setup)).toEqual([0]);
  }
});

test("heights of another set-up are no slips of the pen, however far off", () => {
  const apart = (setup: (i: number) => string) =>
    `x,y,height,setup\n${[1, 1, 1, 40, 1, 1].map((mm, i) => `${10 * (i + 1)},0,${mm},${setup(i)}`).join("\n")}`;
  expect(readingsFromText(apart(() => "a"))).toMatchObject({ faults: [{ line: 5, code: "typing-slip" }] });
  expect(readingsFromText(apart((i) => (i === 3 ? "b" : "a"))).outcome).toBe("checked");
});

test("a place read in two set-ups, or searched for by hand, is no repeat", () => {
  const repeat = (mark: string, setup: string) =>
    repeatSdMm(readingsOf(`x,y,height,setup,mark\n10,0,1,a,\n10,0,1.2,${setup},${mark}\n`));
  // Two readings 0.2 mm apart: √(0.2²/2); exact but for rounding.
  near(repeat("check", "a") ?? 0, 0.2 / Math.SQRT2, 1e-12);
  expect(repeat("check", "b")).toBeNull();
  expect(repeat("lowest", "a")).toBeNull();
});
