/** A file with more readings than a board can use. */
import { expect, test } from "vitest";
import { readingsFileReader } from "../../../../server/core/readings/readReadingsFile.ts";

test("a scan of over two million readings is told once to thin out, and what comes after is not kept", () => {
  const reader = readingsFileReader();
  const rows = new TextEncoder().encode("5,0,1\n".repeat(100_001));
  reader.push(new TextEncoder().encode("x,y,height\n"));
  for (let k = 0; k < 20; k++) reader.push(rows);
  const { faults, readings } = reader.finish();
  expect(readings.count).toBe(2_000_000);
  expect(faults.map(({ code, line }) => [code, line])).toEqual([["too-many-readings", 2_000_002]]);
}, 60_000);
