/**
 * A readings file, the instrument and the gauge -> readings in mm at places on the board, or everything that is wrong.
 *
 * Units turn into mm; a depth turns into a height; a line's name turns into y. One fault and nothing is used.
 * Faults of one cause are told once: a line's unknown name, a grid's line that runs off the board.
 */
import type { Instrument } from "../board/instrument.ts";
import type { Gauge } from "../board/settings.ts";
import { lineNames, linePath } from "../board/stringPaths.ts";
import type { Fault } from "../fault.ts";
import { columnUnitMm, unitInWords } from "./columnUnit.ts";
import { type Condensed, condense, mostSingly } from "./condense.ts";
import { type FaultList, faultList } from "./faultList.ts";
import { type PlacedReadings, placedReadings } from "./placedReadings.ts";
import { inMm, isAcross, isAlong, lengthInWords } from "./placeOnBoard.ts";
import type { WrittenReading } from "./readingColumns.ts";
import type { Readings } from "./readings.ts";
import type { ReadingsFile } from "./readingsFile.ts";
import { shownSafely } from "./shownSafely.ts";
import { type Slip, typingSlips } from "./typingSlips.ts";

export type CheckedReadings =
  | { readonly outcome: "checked"; readonly readings: Readings }
  | { readonly outcome: "faulty"; readonly faults: readonly Fault[] };

/** No board and no gauge has such a height: the unit must be wrong. */
const greatestHeightMm = 200;

export function checkReadings(file: ReadingsFile, instrument: Instrument, gauge: Gauge): CheckedReadings {
  const faults = faultList("readings", file.faults);
  if (file.layout === "list" && file.columns.y === null) {
    tellNoAcross(file, faults);
    return { outcome: "faulty", faults: faults.finish() };
  }
  const units = settledUnits(file, gauge, faults);
  const lines = linesAcross(file, instrument, faults);
  const told = new Set<string>();
  const once = (what: string) => !told.has(what) && told.add(what) !== undefined;
  const placed = placedReadings(
    file,
    lines.map(({ name }) => name),
  );

  for (let i = 0; i < file.readings.count; i++) {
    const written = file.readings.at(i);
    const xMm = written.x * units.xMm;
    const line = written.nameIndex < 0 ? null : lines[written.nameIndex]!;
    const yMm = line === null ? written.y * units.yMm : (line.path?.yAtMm(xMm) ?? null);
    const gaugeMm = written.height * units.heightMm * (gauge.reads === "depth" ? -1 : 1) + 0;

    const heightIsRight = Math.abs(gaugeMm) <= greatestHeightMm;
    if (!heightIsRight) tellHeight(written, units.heightMm, faults);
    const alongIsRight = isAlong(instrument, xMm);
    if (!alongIsRight && once(`row ${written.row}`)) tellAlong(written, xMm, file, instrument, faults);
    if (yMm === null || !alongIsRight) continue;
    const acrossIsRight = isAcross(instrument, xMm, yMm);
    if (!acrossIsRight && (file.layout === "list" || once(`column ${written.column}`)))
      tellAcross(written, xMm, yMm, file, instrument, faults);
    placed.xMm[i] = xMm;
    placed.yMm[i] = yMm;
    placed.gaugeMm[i] = gaugeMm;
  }
  if (faults.total() > 0) return { outcome: "faulty", faults: faults.finish() };

  const isScan = placed.count > mostSingly;
  const { readings, slips } = isScan ? condense(placed, instrument) : eachReading(placed);
  tellSlips(slips, file, faults);
  if (faults.total() > 0) return { outcome: "faulty", faults: faults.finish() };
  const setups = file.setups.length > 0 ? file.setups : [""];
  return {
    outcome: "checked",
    readings: { stage: "checked", readings, setups, ...(isScan ? { condensedFrom: placed.count } : {}) },
  };
}

/** Every one as it is. */
function eachReading(placed: PlacedReadings): Condensed {
  const readings = Array.from({ length: placed.count }, (_, i) => placed.at(i));
  return { readings, slips: typingSlips(readings) };
}

function tellNoAcross(file: ReadingsFile, faults: FaultList): void {
  faults.add(
    { line: file.columns.x?.place.line ?? null, column: null },
    "column-missing",
    "a list with neither a column y nor a column line",
    "Add a column y (mm from the centreline, treble positive) or a column line (C, G, C/G, bass edge).",
  );
}

type Units = { readonly xMm: number; readonly yMm: number; readonly heightMm: number };

export function settledUnits(file: ReadingsFile, gauge: Gauge, faults: FaultList): Units {
  const { x, y, height } = file.columns;
  const units = {
    xMm: columnUnitMm(x, "place_unit", gauge.placeUnitMm, file.entries, faults),
    yMm: columnUnitMm(y, "place_unit", gauge.placeUnitMm, file.entries, faults),
    heightMm: columnUnitMm(height, "unit", gauge.unitMm, file.entries, faults),
  };
  if (file.headedDepth && gauge.reads === "height") {
    faults.add(
      height?.place ?? { line: null, column: null },
      "depth-column",
      `the heading ${shownSafely(height?.heading ?? "depth")} while the gauge reads height`,
      "Write `# reads: depth` above the header if the numbers grow as the board falls away; otherwise head the column `height`.",
    );
  }
  const unitOf = { x: units.xMm, y: units.yMm, height: units.heightMm };
  for (const { quantity, place, saw } of file.inMm) {
    if (unitOf[quantity] !== 1) {
      faults.add(
        place,
        "unit-in-cell",
        `${saw} where the unit is \`${unitInWords(unitOf[quantity])}\``,
        "Write numbers alone, all in one unit, and name that unit in the heading or in a line `# unit: mm`.",
      );
    }
  }
  return units;
}

type LineAcross = { readonly name: string; readonly path: ReturnType<typeof linePath> };

export function linesAcross(file: ReadingsFile, instrument: Instrument, faults: FaultList): readonly LineAcross[] {
  return file.names.map(({ name, place }) => {
    const path = linePath(instrument, name);
    if (path === null) {
      faults.add(
        place,
        "line-unknown",
        `the line ${shownSafely(name)}`,
        `Lines of this ${instrument.kind} are ${lineNames(instrument).join(", ")}, two strings joined by /, or y in mm. For other strings set \`strings\`.`,
      );
    }
    return { name: path?.name ?? name, path };
  });
}

function tellHeight(written: WrittenReading, unitMm: number, faults: FaultList): void {
  const saw = `the height ${written.height}${unitMm === 1 ? "" : ` ${unitInWords(unitMm)}`}, more than ${greatestHeightMm} mm`;
  faults.add(
    { line: written.row, column: written.column },
    "height-too-big",
    saw,
    "Is the unit right? Set `# unit: 0.01mm`, `in` or `thou` above the header, or correct the number.",
  );
}

export function tellAlong(
  written: Pick<WrittenReading, "row">,
  xMm: number,
  file: ReadingsFile,
  instrument: Instrument,
  faults: FaultList,
): void {
  const place = { line: written.row, column: file.columns.x?.place.column ?? null };
  faults.add(
    place,
    "off-the-board",
    `x ${inMm(xMm)}, but ${lengthInWords(instrument)}`,
    "Correct x (mm from where the board meets the nut), or the settings `place_unit`, `instrument` or `board_length`.",
  );
}

export function tellAcross(
  written: Pick<WrittenReading, "row" | "column">,
  xMm: number,
  yMm: number,
  file: ReadingsFile,
  instrument: Instrument,
  faults: FaultList,
): void {
  const column = file.layout === "grid" ? written.column : (file.columns.y?.place.column ?? null);
  faults.add(
    { line: written.row, column },
    "outside-the-outline",
    `y ${inMm(yMm)} at x ${inMm(xMm)}, outside the board of this ${instrument.kind} (${instrument.size})`,
    "Correct y (mm from the centreline, treble positive), or the settings `place_unit`, `instrument`, `width_nut` or `width_end`.",
  );
}

/** Slips by the index of the reading in the file. */
export function tellSlips(slips: readonly Slip[], file: ReadingsFile, faults: FaultList): void {
  for (const { at, neighbours } of slips) {
    const slip = file.readings.at(at);
    const beside = neighbours.map((i) => file.readings.at(i)).map(({ height, row }) => `${height} (line ${row})`);
    faults.add(
      { line: slip.row, column: slip.column },
      "typing-slip",
      `${slip.height} beside its neighbours along the line, ${beside.join(" and ")}`,
      "Is a decimal point missing? Correct the number, or leave it empty.",
    );
  }
}
