/**
 * A scan brought together: of more readings than are taken singly, those that lie in one small cell become one, their mean.
 *
 * No plane needs a board at a million places, and a fit learns no more from ten readings within a millimetre than from their mean.
 * Cells divide the board into some forty thousand, three times as long as wide (readings say more across, where the camber is):
 * 0.8 mm × 0.3 mm on a violin's board, 1.4 × 0.5 on a cello's, 2.2 × 0.7 on a bass's.
 *
 * What the mean of a cell is off the surface: it stands at the mean of its readings' places, so a slope adds nothing. An arc of
 * radius R over a width w adds (w²/12)/(2R): 0.0001 mm on a violin (R 42), 0.0003 on a bass (R 80). A pit or rut that is a parabola
 * of depth d and width b loses d(w/b)²/3 of its depth at its middle: with b = 3 mm and w = 0.5 that is one part in a hundred.
 *
 * A reading more than a millimetre off the median of its cell lies on no such surface: it stays by itself, and is told as a likely slip
 * further on. More than ten off is a slip of the pen for certain, as in typingSlips.ts. Marked readings stay by themselves; set-ups are
 * never mixed. The mean of n readings scatters √n less than one of them.
 *
 * in: placed readings, instrument, mm -> out: readings in the order in which each cell was first met, each with the row of the
 * first one in it; slips by their index in the file.
 */
import type { Instrument } from "../board/instrument.ts";
import type { PlacedReadings } from "./placedReadings.ts";
import type { Reading } from "./readings.ts";
import { certainlyWrongMm, type Slip } from "./typingSlips.ts";

/** So many readings are still taken singly. */
export const mostSingly = 100_000;

const cellsOnBoard = 40_000;
const fewestCells = 600;
const timesAsLong = 3;
const strayMm = 1;

export type Condensed = { readonly readings: readonly Reading[]; readonly slips: readonly Slip[] };

export function condense(placed: PlacedReadings, instrument: Instrument): Condensed {
  let cells = cellsOnBoard;
  let condensed = condensedInto(cells, placed, instrument);
  // Many set-ups over one another fill as many times the cells: then cells are made larger, down to a bench's pattern.
  while (condensed.readings.length > mostSingly && cells > fewestCells) {
    cells /= 4;
    condensed = condensedInto(cells, placed, instrument);
  }
  return condensed;
}

function condensedInto(cells: number, placed: PlacedReadings, instrument: Instrument): Condensed {
  const byItself: number[] = [];
  const { order, starts } = sortedIntoCells(cells, placed, instrument, byItself);
  const slips: Slip[] = [];
  const gathered: { first: number; reading: Reading }[] = [];
  for (let cell = 0; cell + 1 < starts.length; cell += 1) {
    const inCell = order.subarray(starts[cell], starts[cell + 1]);
    if (inCell.length === 0) continue;
    const middleMm = middleOf(Float64Array.from(inCell, (i) => placed.gaugeMm[i]));
    const offMm = (i: number): number => Math.abs(placed.gaugeMm[i] - middleMm);
    const together = inCell.filter((i) => offMm(i) <= strayMm);
    for (const i of inCell) {
      if (offMm(i) <= strayMm) continue;
      byItself.push(i);
      if (offMm(i) > certainlyWrongMm && together.length > 1) {
        slips.push({ at: i, neighbours: [together[0], together[1]] });
      }
    }
    gathered.push({ first: together[0], reading: meanReading(placed, together) });
  }
  for (const i of byItself) gathered.push({ first: i, reading: placed.at(i) });
  gathered.sort((a, b) => a.first - b.first);
  return { readings: gathered.map(({ reading }) => reading), slips: slips.sort((a, b) => a.at - b.at) };
}

/** Indices of the readings, cell after cell, in the order of the file within each; `starts[cell]` is where a cell begins. */
function sortedIntoCells(cellsWanted: number, placed: PlacedReadings, instrument: Instrument, marked: number[]) {
  const lengthMm = instrument.boardLengthMm.value;
  const widthMm = instrument.widthEndMm.value;
  const areaMm2 = (lengthMm * (instrument.widthNutMm.value + widthMm)) / 2;
  const acrossMm = Math.sqrt(areaMm2 / cellsWanted / timesAsLong);
  const alongMm = timesAsLong * acrossMm;
  // A place may lie a little beyond the edge.
  const beyond = 2;
  const columns = Math.ceil(lengthMm / alongMm) + 2 * beyond;
  const rows = Math.ceil(widthMm / acrossMm) + 2 * beyond;

  const cellOf = new Int32Array(placed.count);
  let cells = 0;
  for (let i = 0; i < placed.count; i += 1) {
    const { mark, setup } = placed.at(i);
    if (mark !== null) {
      marked.push(i);
      cellOf[i] = -1;
      continue;
    }
    const column = Math.floor(placed.xMm[i] / alongMm) + beyond;
    const row = Math.floor((placed.yMm[i] + widthMm / 2) / acrossMm) + beyond;
    cellOf[i] = (setup * rows + row) * columns + column;
    cells = Math.max(cells, cellOf[i] + 1);
  }
  const starts = new Uint32Array(cells + 1);
  for (const cell of cellOf) if (cell >= 0) starts[cell + 1] += 1;
  for (let cell = 0; cell < cells; cell += 1) starts[cell + 1] += starts[cell];
  const next = starts.slice();
  const order = new Uint32Array(placed.count - marked.length);
  cellOf.forEach((cell, i) => {
    if (cell < 0) return;
    order[next[cell]] = i;
    next[cell] += 1;
  });
  return { order, starts };
}

/** The median; of an even number the lower of the two in the middle, so that it is always one of them. */
function middleOf(numbers: Float64Array): number {
  return numbers.sort()[(numbers.length - 1) >> 1];
}

/** Of one reading, that reading; it keeps the name of its line where all of them are of one line. */
function meanReading(placed: PlacedReadings, together: Uint32Array): Reading {
  const first = placed.at(together[0]);
  if (together.length === 1) return first;
  const mean = (column: Float64Array): number => together.reduce((sum, i) => sum + column[i], 0) / together.length;
  const isOneLine = first.line !== null && together.every((i) => placed.at(i).line === first.line);
  return {
    ...first,
    xMm: mean(placed.xMm),
    yMm: mean(placed.yMm),
    gaugeMm: mean(placed.gaugeMm),
    line: isOneLine ? first.line : null,
  };
}
