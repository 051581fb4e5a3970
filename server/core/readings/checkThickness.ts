/**
 * A thickness file and the instrument -> thicknesses in mm at places on the board, or everything that is wrong.
 *
 * Edge readings stand at the outline, whatever y they give (it must only be on their side); centre readings at their y,
 * or on the centreline.
 */
import type { Instrument } from "../board/instrument.ts";
import { halfWidthMm } from "../board/outline.ts";
import type { Fault } from "../fault.ts";
import { type FaultList, faultList } from "./faultList.ts";
import { inMm, isAcross, isAlong, lengthInWords } from "./placeOnBoard.ts";
import type { ThicknessReading } from "./readings.ts";
import type { ThicknessFile } from "./readThicknessFile.ts";
import type { ThicknessColumns } from "./thicknessHeader.ts";
import type { WrittenThickness } from "./thicknessRow.ts";

export type CheckedThickness =
  | { readonly outcome: "checked"; readonly thickness: readonly ThicknessReading[] }
  | { readonly outcome: "faulty"; readonly faults: readonly Fault[] };

/** No fingerboard is as thick, not even a bass's. */
const greatestThicknessMm = 40;

export function checkThickness(file: ThicknessFile, instrument: Instrument): CheckedThickness {
  const faults = faultList("thickness", file.faults);
  const { columns } = file;
  const thickness = columns === null ? [] : file.rows.map((written) => placed(written, columns, instrument, faults));
  if (faults.total() > 0) return { outcome: "faulty", faults: faults.finish() };
  return { outcome: "checked", thickness };
}

function placed(
  written: WrittenThickness,
  columns: ThicknessColumns,
  instrument: Instrument,
  faults: FaultList,
): ThicknessReading {
  const { row, xMm, side, thicknessMm } = written;
  if (!(thicknessMm > 0 && thicknessMm < greatestThicknessMm)) {
    faults.add(
      { line: row, column: columns.thickness },
      "thickness-range",
      `the thickness ${inMm(thicknessMm)}`,
      `Write the thickness in mm, more than 0 and less than ${greatestThicknessMm}: is a decimal point missing?`,
    );
  }
  if (!isAlong(instrument, xMm)) {
    faults.add(
      { line: row, column: columns.x },
      "off-the-board",
      `x ${inMm(xMm)}, but ${lengthInWords(instrument)}`,
      "Correct x (mm from where the board meets the nut), or the settings `instrument` or `board_length`.",
    );
    return { row, xMm, side, yMm: 0, thicknessMm };
  }
  const yMm = across(written, instrument);
  if (yMm === "other side") {
    faults.add(
      { line: row, column: columns.y },
      "side-contradicts-y",
      `the side ${side} at y ${inMm(written.yMm ?? 0)}`,
      "Correct the side or y: y is negative towards the bass edge, positive towards the treble edge.",
    );
  } else if (!isAcross(instrument, xMm, yMm)) {
    faults.add(
      { line: row, column: columns.y },
      "outside-the-outline",
      `y ${inMm(yMm)} at x ${inMm(xMm)}, outside the board`,
      "Correct y (mm from the centreline, treble positive), or leave it empty for the centreline.",
    );
  }
  return { row, xMm, side, yMm: yMm === "other side" ? 0 : yMm, thicknessMm };
}

function across({ side, xMm, yMm }: WrittenThickness, instrument: Instrument): number | "other side" {
  if (side === "centre") return yMm ?? 0;
  const edgeMm = (side === "bass" ? -1 : 1) * halfWidthMm(instrument, xMm);
  return yMm !== null && yMm * edgeMm < 0 ? "other side" : edgeMm;
}
