/**
 * A made board handed in as the bench would: its files as text, nothing else.
 */
import type { Examination } from "../../server/core/examination.ts";
import { examine } from "../../server/core/examine.ts";
import { faultInWords } from "../../server/core/fault.ts";
import { readRailFile } from "../../server/core/readings/readRailFile.ts";
import { readReadingsFile } from "../../server/core/readings/readReadingsFile.ts";
import { readThicknessFile } from "../../server/core/readings/readThicknessFile.ts";
import { loadInstrumentTable } from "../../server/instrumentTable.ts";

const table = loadInstrumentTable();

/** Throws with every fault: a made board has none. */
export function examineFiles(
  readingsCsv: string,
  thicknessCsv: string | null,
  railCsv: string | null = null,
): Examination {
  const examined = examine({
    readings: readReadingsFile(readingsCsv),
    thickness: thicknessCsv === null ? null : readThicknessFile(thicknessCsv),
    rail: railCsv === null ? null : readRailFile(railCsv),
    settings: [],
    table,
    version: "test",
  });
  if (examined.outcome === "faulty") throw new Error(examined.faults.map(faultInWords).join("\n"));
  return examined.examination;
}
