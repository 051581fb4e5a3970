/**
 * What its neighbours say of a reading: the share of them that lies on the unworn surface, weighted by nearness.
 *
 * Distance counts in the pattern of the readings: an eighteenth of the board's length along is as far as a twelfth of its mean
 * width across, and at that distance a neighbour counts exp(−1/2); found best on seeded boards of 77 to 400 readings. Readings are sorted into cells of half that distance and
 * the cells blurred along and across, so that a dense scan costs no more than its cells.
 */
type Places = { readonly xMm: Float64Array; readonly yMm: Float64Array };

export type Neighbourhood = {
  readonly columns: number;
  readonly rows: number;
  readonly cellOfReading: Int32Array;
  /** Nearness of every cell to the readings, themselves included. */
  readonly nearness: Float64Array;
};

const cellsPerDistance = 2;
/** Cells farther apart than this count for nothing: exp(−8) is 0.0003. */
const farthestCells = 4 * cellsPerDistance;
const kernel = Float64Array.from({ length: farthestCells + 1 }, (_, k) => Math.exp(-((k / cellsPerDistance) ** 2) / 2));
/** No neighbourhood makes a reading certain: what it says stays between these. */
const shareRange = [0.02, 0.99] as const;
/** What is thought of a reading without neighbours. */
const shareAlone = 0.5;

export function neighbourhood({ xMm, yMm }: Places, lengthMm: number, meanWidthMm: number): Neighbourhood {
  const cellAlongMm = lengthMm / 18 / cellsPerDistance;
  const cellAcrossMm = meanWidthMm / 12 / cellsPerDistance;
  const columnOf = xMm.map((x) => Math.round(x / cellAlongMm));
  const rowOf = yMm.map((y) => Math.round(y / cellAcrossMm));
  const firstColumn = least(columnOf);
  const firstRow = least(rowOf);
  const columns = -least(columnOf.map((column) => -column)) - firstColumn + 1;
  const rows = -least(rowOf.map((row) => -row)) - firstRow + 1;
  const cellOfReading = Int32Array.from(
    columnOf,
    (_, i) => (rowOf[i] - firstRow) * columns + columnOf[i] - firstColumn,
  );
  const readings = new Float64Array(columns * rows);
  for (const cell of cellOfReading) readings[cell] += 1;
  return { columns, rows, cellOfReading, nearness: blurred(readings, columns, rows) };
}

/** For each reading, the share of unworn ones among its neighbours, itself left out. `unworn`: probability for each. */
export function shareOfNeighbours(unworn: Float64Array, around: Neighbourhood): Float64Array {
  const { columns, rows, cellOfReading, nearness } = around;
  const inCells = new Float64Array(columns * rows);
  cellOfReading.forEach((cell, i) => {
    inCells[cell] += unworn[i];
  });
  const near = blurred(inCells, columns, rows);
  return unworn.map((own, i) => {
    const cell = cellOfReading[i];
    const others = nearness[cell] - 1;
    const share = others > 1e-6 ? (near[cell] - own) / others : shareAlone;
    return Math.min(Math.max(share, shareRange[0]), shareRange[1]);
  });
}

/** A Gaussian blur along, then across; a cell alone gives 1 to itself. */
function blurred(field: Float64Array, columns: number, rows: number): Float64Array {
  return blurredOneWay(blurredOneWay(field, columns, rows, 1, columns), rows, columns, columns, 1);
}

/** `step` from cell to cell along the way of the blur, `stride` from one way to the next. */
function blurredOneWay(field: Float64Array, cells: number, ways: number, step: number, stride: number): Float64Array {
  const result = new Float64Array(field.length);
  for (let way = 0; way < ways; way += 1) {
    for (let from = 0; from < cells; from += 1) {
      const here = field[way * stride + from * step];
      if (here === 0) continue;
      const last = Math.min(cells - 1, from + farthestCells);
      for (let to = Math.max(0, from - farthestCells); to <= last; to += 1) {
        result[way * stride + to * step] += here * kernel[Math.abs(to - from)];
      }
    }
  }
  return result;
}

function least(numbers: Float64Array): number {
  return numbers.reduce((a, b) => Math.min(a, b), Number.POSITIVE_INFINITY);
}
