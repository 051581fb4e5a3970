/**
 * A file of gaps and the instrument -> gaps in mm at places on the board, or everything that is wrong with them.
 *
 * Units turn into mm; a line's name turns into y. One fault and nothing is used. `stepMm`: from one leaf of the feeler gauge to
 * the next.
 */
import type { Instrument } from "../board/instrument.ts";
import type { Gauge } from "../board/settings.ts";
import type { Fault } from "../fault.ts";
import { linesAcross, settledUnits, tellAcross, tellAlong } from "./checkReadings.ts";
import { columnUnitMm } from "./columnUnit.ts";
import { type FaultList, faultList } from "./faultList.ts";
import type { WrittenGap } from "./gapRows.ts";
import type { Gaps, StraightedgeGap, TemplateGap } from "./gaps.ts";
import { inMm, isAcross, isAlong } from "./placeOnBoard.ts";
import type { ReadingsFile } from "./readingsFile.ts";

export type CheckedGaps =
  | { readonly outcome: "checked"; readonly gaps: Gaps }
  | { readonly outcome: "faulty"; readonly faults: readonly Fault[] };

/** The deepest hollow of a bass is about 3 mm (common practice, no source); a template much too flat shows little more. */
const greatestGapMm = 10;
/** Radii that a template for a fingerboard can have, mm: as for the settings. */
const templateRadiiMm = [15, 2000] as const;

export function checkGaps(file: ReadingsFile, instrument: Instrument, gauge: Gauge, stepMm: number): CheckedGaps {
  const faults = faultList("readings", file.faults);
  const units = settledUnits(file, gauge, faults);
  const templateMm = columnUnitMm(file.templateColumn, "place_unit", gauge.placeUnitMm, file.entries, faults);
  const lines = linesAcross(file, instrument, faults);
  const straightedge: StraightedgeGap[] = [];
  const template: TemplateGap[] = [];

  for (const written of file.gaps ?? []) {
    const { row } = written;
    const xMm = written.x * units.xMm;
    const line = written.nameIndex < 0 ? null : lines[written.nameIndex]!;
    const yMm = line === null ? written.y * units.yMm : (line.path?.yAtMm(xMm) ?? null);
    const gapMm = written.gap * units.heightMm;
    const radiusMm = written.template === null ? null : written.template * templateMm;
    const gapIsRight = tellGap(written, gapMm, faults);
    const radiusIsRight = radiusMm === null || tellRadius(written, radiusMm, file, faults);
    const alongIsRight = isAlong(instrument, xMm);
    if (!alongIsRight) tellAlong(written, xMm, file, instrument, faults);
    if (yMm === null || !alongIsRight) continue;
    const acrossIsRight = isAcross(instrument, xMm, yMm);
    if (!acrossIsRight) tellAcross(written, xMm, yMm, file, instrument, faults);
    if (!gapIsRight || !radiusIsRight || !acrossIsRight) continue;
    if (radiusMm === null) straightedge.push({ row, xMm, yMm, line: line?.name ?? yMm, gapMm });
    else template.push({ row, xMm, yMm, gapMm, templateRadiusMm: radiusMm });
  }

  if (faults.total() > 0) return { outcome: "faulty", faults: faults.finish() };
  return { outcome: "checked", gaps: { stage: "checked", straightedge, template, stepMm } };
}

/** False after telling what is wrong with the gap. */
function tellGap({ row, column }: WrittenGap, gapMm: number, faults: FaultList): boolean {
  if (gapMm < 0) {
    faults.add(
      { line: row, column },
      "gap-negative",
      `a gap of ${inMm(gapMm)}`,
      "A gap is what a feeler gauge measures: write 0 where straightedge or template touches. For heights head the column `height`.",
    );
  } else if (gapMm > greatestGapMm) {
    faults.add(
      { line: row, column },
      "gap-too-big",
      `a gap of ${inMm(gapMm)}, more than ${greatestGapMm} mm`,
      "Is the unit right? Set `# unit: 0.01mm`, `in` or `thou` above the header, or correct the number.",
    );
  }
  return gapMm >= 0 && gapMm <= greatestGapMm;
}

/** False after telling what is wrong with the template's radius. */
function tellRadius({ row }: WrittenGap, radiusMm: number, file: ReadingsFile, faults: FaultList): boolean {
  const [least, greatest] = templateRadiiMm;
  if (radiusMm >= least && radiusMm <= greatest) return true;
  faults.add(
    { line: row, column: file.templateColumn?.place.column ?? null },
    "template-radius",
    `a template of radius ${inMm(radiusMm)}`,
    `Write the radius of the template in mm, between ${least} and ${greatest}; leave the cell empty for a straightedge.`,
  );
  return false;
}
