/**
 * The tool on one made board: its examination, and the unworn surface behind it as a height anywhere on the board.
 *
 * The examination publishes its surface only at readings and lines; so the same steps are gone once more here, up to the fit.
 *
 * In: the two files as text, settings besides. Out: examination and surface; or why the tool refused.
 */
import type { MadeBoard } from "../../../data/make/board.ts";
import type { HeightAt } from "../../../data/make/shape.ts";
import type { Examination } from "../../../server/core/examination.ts";
import { examine } from "../../../server/core/examine.ts";
import { checkGiven, type Given } from "../../../server/core/given.ts";
import { readReadingsFile } from "../../../server/core/readings/readReadingsFile.ts";
import { readThicknessFile } from "../../../server/core/readings/readThicknessFile.ts";
import { fitUnwornSurface, unwornHeightMm } from "../../../server/core/surface/unwornSurface.ts";
import { loadInstrumentTable } from "../../../server/instrumentTable.ts";

const table = loadInstrumentTable();

export type Examined =
  | { readonly outcome: "examined"; readonly examination: Examination }
  | { readonly outcome: "refused"; readonly code: string };

export function examineBoard(made: MadeBoard, settings: Readonly<Record<string, string>> = {}): Examined {
  const examined = examine(givenOf(made, settings));
  if (examined.outcome === "faulty") return { outcome: "refused", code: examined.faults[0]!.code };
  return examined;
}

/** Null where the tool refuses to fit. */
export function toolSurface(made: MadeBoard): HeightAt | null {
  const checked = checkGiven(givenOf(made, {}));
  if (checked.outcome === "faulty") throw new Error(checked.faults.map(({ saw }) => saw).join("\n"));
  const fitted = fitUnwornSurface(checked.readings, checked.instrument, checked.gauge);
  if (fitted.outcome === "not-fitted") return null;
  return (xMm, yMm) => unwornHeightMm(fitted.surface, xMm, yMm);
}

function givenOf(made: MadeBoard, settings: Readonly<Record<string, string>>): Given {
  return {
    readings: readReadingsFile(made.readingsCsv),
    thickness: made.thicknessCsv === null ? null : readThicknessFile(made.thicknessCsv),
    rail: null,
    settings: Object.entries(settings).map(([key, value]) => ({ key, value, where: "settings", line: null })),
    table,
    version: "bench",
  };
}
