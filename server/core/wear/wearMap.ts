/**
 * The wear map: wear between the readings, by natural neighbours on a regular grid over the board.
 *
 * The residual is interpolated, never the raw height, so that camber and hollow can't leak into it. Each place takes the
 * mean of the readings whose territory a new reading there would take over, in the share it takes: smooth, true to the
 * readings, never above the highest or below the lowest. Distances across count for more than along, as readings lie
 * closer across: in a pattern of eleven crosslines by seven lines, neighbours are then equally far both ways.
 *
 * Beyond the outermost readings nobody knows: there wear is taken to fade out to nothing at the edge, as the planing plan takes it.
 *
 * Done by painting: every cell of the grid knows its nearest reading and paints that reading's wear on all cells that are no
 * farther from it than that reading; a cell's value is the mean of its coats.
 * Source: S. W. Park et al., Discrete Sibson interpolation, IEEE Trans. Visualization and Computer Graphics 12 (2006) 243–253.
 *
 * Lengths in mm. `wearMm[row][column]` stands at (xMm[column], yMm[row]); the grid is the rectangle round the board.
 */
import { Delaunay } from "d3";
import type { Instrument } from "../board/instrument.ts";
import { halfWidthMm } from "../board/outline.ts";
import type { WearAtReadings } from "./wearAtReadings.ts";

export type WearMap = {
  readonly xMm: readonly number[];
  readonly yMm: readonly number[];
  readonly wearMm: readonly (readonly number[])[];
};

/** Steps along and across: about 1 mm × 0.5 mm on a violin, 3.5 mm × 1 mm on a bass. */
const stepsAlong = 240;
const stepsAcross = 84;

export function wearMap(wear: WearAtReadings, crosslinesMm: readonly number[], instrument: Instrument): WearMap {
  const lengthMm = instrument.boardLengthMm.value;
  const widthMm = instrument.widthEndMm.value;
  const grid = {
    columns: stepsAlong + 1,
    rows: stepsAcross + 1,
    stepXMm: lengthMm / stepsAlong,
    stepYMm: widthMm / stepsAcross,
    /** mm along that count as much as 1 mm across. */
    stretch: lengthMm / 11 / ((instrument.widthNutMm.value + widthMm) / 2 / 7),
  };
  const xMm = Array.from({ length: grid.columns }, (_, i) => i * grid.stepXMm);
  const yMm = Array.from({ length: grid.rows }, (_, i) => -widthMm / 2 + i * grid.stepYMm);
  const read = meansByCell(wear, grid, widthMm);
  const painted = paint([...read, ...unreadEdges(read, crosslinesMm, grid, instrument)], grid);
  return {
    xMm,
    yMm,
    wearMm: yMm.map((_, row) => Array.from(painted.subarray(row * grid.columns, (row + 1) * grid.columns))),
  };
}

/** Wear of the map at a place, bilinear between the four nodes around it; at the rim that of the nearest edge. */
export function wearOfMapMm(map: WearMap, xMm: number, yMm: number): number {
  const column = cellOf(map.xMm, xMm);
  const row = cellOf(map.yMm, yMm);
  const across = (from: number): number =>
    map.wearMm[row.index][from] * (1 - row.fraction) + map.wearMm[row.index + 1][from] * row.fraction;
  return across(column.index) * (1 - column.fraction) + across(column.index + 1) * column.fraction;
}

type Grid = { columns: number; rows: number; stepXMm: number; stepYMm: number; stretch: number };
type Site = { readonly column: number; readonly row: number; readonly wearMm: number };

/** Readings that share a cell are averaged, so that a dense scan costs no more than a cell each. */
function meansByCell(wear: WearAtReadings, grid: Grid, widthMm: number): readonly Site[] {
  const cells = new Map<number, { sum: number; count: number; column: number; row: number }>();
  for (const reading of wear.readings) {
    const column = reading.xMm / grid.stepXMm;
    const row = (reading.yMm + widthMm / 2) / grid.stepYMm;
    const key = Math.round(row) * grid.columns + Math.round(column);
    const cell = cells.get(key) ?? { sum: 0, count: 0, column: 0, row: 0 };
    cells.set(key, {
      sum: cell.sum + reading.wearMm,
      count: cell.count + 1,
      column: cell.column + column,
      row: cell.row + row,
    });
  }
  const sites = Array.from(cells.values(), ({ sum, count, column, row }) => ({
    column: column / count,
    row: row / count,
    wearMm: sum / count,
  }));
  // A cell as near to two readings goes to one of them: in an order of their own, whatever the file's.
  return sites.sort((a, b) => a.column - b.column || a.row - b.row);
}

/** Places on the outline beside the crosslines, unworn, where no reading stands nearer than half the usual line spacing. */
function unreadEdges(
  read: readonly Site[],
  crosslinesMm: readonly number[],
  grid: Grid,
  instrument: Instrument,
): readonly Site[] {
  const widthMm = instrument.widthEndMm.value;
  const nearest = nearestSite(read, grid);
  const apartMm = (instrument.widthNutMm.value + widthMm) / 2 / 7 / 2;
  return crosslinesMm.flatMap((xMm) =>
    [-1, 1].flatMap((side) => {
      const column = xMm / grid.stepXMm;
      const row = (side * halfWidthMm(instrument, xMm) + widthMm / 2) / grid.stepYMm;
      const site = read[nearest.find(column * alongUnit(grid), row * grid.stepYMm)];
      const awayMm = Math.hypot((site.column - column) * alongUnit(grid), (site.row - row) * grid.stepYMm);
      return awayMm > apartMm ? [{ column, row, wearMm: 0 }] : [];
    }),
  );
}

function nearestSite(sites: readonly Site[], grid: Grid) {
  return Delaunay.from(
    sites,
    (site) => site.column * alongUnit(grid),
    (site) => site.row * grid.stepYMm,
  );
}

/** A step along, as far as it counts for distance. */
function alongUnit(grid: Grid): number {
  return grid.stepXMm / grid.stretch;
}

/** Each coat is laid row by row: its value where it begins, taken off where it ends, and summed along the row at last. */
function paint(sites: readonly Site[], grid: Grid): Float64Array {
  const along = alongUnit(grid);
  const across = grid.stepYMm;
  const nearest = nearestSite(sites, grid);
  const stride = grid.columns + 1;
  const wear = new Float64Array(stride * grid.rows);
  const coats = new Float64Array(stride * grid.rows);
  let siteIndex = 0;
  for (let row = 0; row < grid.rows; row += 1) {
    for (let column = 0; column < grid.columns; column += 1) {
      siteIndex = nearest.find(column * along, row * across, siteIndex);
      const site = sites[siteIndex];
      const reach = (1 - 1e-9) * Math.hypot((site.column - column) * along, (site.row - row) * across);
      const rowReach = Math.floor(reach / across);
      for (let r = Math.max(0, row - rowReach); r <= Math.min(grid.rows - 1, row + rowReach); r += 1) {
        const half = Math.sqrt(Math.max(0, reach ** 2 - ((r - row) * across) ** 2)) / along;
        const from = r * stride + Math.max(0, Math.ceil(column - half));
        const after = r * stride + Math.min(grid.columns - 1, Math.floor(column + half)) + 1;
        wear[from] += site.wearMm;
        wear[after] -= site.wearMm;
        coats[from] += 1;
        coats[after] -= 1;
      }
    }
  }
  return meansAlongRows(wear, coats, grid);
}

function meansAlongRows(wear: Float64Array, coats: Float64Array, grid: Grid): Float64Array {
  const means = new Float64Array(grid.columns * grid.rows);
  for (let row = 0; row < grid.rows; row += 1) {
    let sum = 0;
    let count = 0;
    for (let column = 0; column < grid.columns; column += 1) {
      sum += wear[row * (grid.columns + 1) + column];
      count += coats[row * (grid.columns + 1) + column];
      means[row * grid.columns + column] = sum / count;
    }
  }
  return means;
}

function cellOf(ticks: readonly number[], at: number): { index: number; fraction: number } {
  const step = ticks[1] - ticks[0];
  const position = Math.min(Math.max((at - ticks[0]) / step, 0), ticks.length - 1);
  const index = Math.min(Math.floor(position), ticks.length - 2);
  return { index, fraction: position - index };
}
