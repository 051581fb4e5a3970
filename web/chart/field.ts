/**
 * A map of the examination as a field to draw: one grid, a cell wider on every side than the board.
 *
 * The map is null outside the outline. Shading and contours must run smoothly out to the edge and be cut there by the outline,
 * so each column is carried outwards at its outermost known depth, and the whole is padded by a cell (a contour is cut at the
 * outer corners of its grid). A null with board on both sides stays NaN: a hole, drawn as unread. Depths and places in mm.
 */
import type { Maps } from "../../server/core/examination.ts";

export type Field = {
  /** Place of the first cell, and the step between cells. */
  readonly x0Mm: number;
  readonly y0Mm: number;
  readonly stepXMm: number;
  readonly stepYMm: number;
  readonly columns: number;
  readonly rows: number;
  /** Row after row, y rising; NaN where nothing is known. */
  readonly depthsMm: Float64Array;
};

export function fieldOf(maps: Maps, depths: Maps["wearMm"]): Field {
  const inner = { columns: maps.xMm.length, rows: maps.yMm.length };
  const columns = inner.columns + 2;
  const rows = inner.rows + 2;
  const stepXMm = (maps.xMm.at(-1)! - maps.xMm[0]!) / (inner.columns - 1);
  const stepYMm = (maps.yMm.at(-1)! - maps.yMm[0]!) / (inner.rows - 1);
  const depthsMm = new Float64Array(columns * rows).fill(Number.NaN);
  for (let row = 0; row < inner.rows; row++) {
    for (let column = 0; column < inner.columns; column++) {
      depthsMm[(row + 1) * columns + column + 1] = depths[row]?.[column] ?? Number.NaN;
    }
  }
  for (let column = 1; column <= inner.columns; column++) carryOutwards(depthsMm, column, columns, rows);
  for (let row = 0; row < rows; row++) {
    depthsMm[row * columns] = depthsMm[row * columns + 1]!;
    depthsMm[row * columns + columns - 1] = depthsMm[row * columns + columns - 2]!;
  }
  return { x0Mm: maps.xMm[0]! - stepXMm, y0Mm: maps.yMm[0]! - stepYMm, stepXMm, stepYMm, columns, rows, depthsMm };
}

function carryOutwards(depthsMm: Float64Array, column: number, columns: number, rows: number): void {
  const at = (row: number) => row * columns + column;
  let first = 0;
  while (first < rows && Number.isNaN(depthsMm[at(first)]!)) first++;
  if (first === rows) return;
  let last = rows - 1;
  while (Number.isNaN(depthsMm[at(last)]!)) last--;
  for (let row = 0; row < first; row++) depthsMm[at(row)] = depthsMm[at(first)]!;
  for (let row = last + 1; row < rows; row++) depthsMm[at(row)] = depthsMm[at(last)]!;
}

/** Depth at a place, bilinear between the four cells about it; NaN off the grid or beside a hole. */
export function depthAt(field: Field, xMm: number, yMm: number): number {
  const u = (xMm - field.x0Mm) / field.stepXMm;
  const v = (yMm - field.y0Mm) / field.stepYMm;
  const column = Math.min(Math.floor(u), field.columns - 2);
  const row = Math.min(Math.floor(v), field.rows - 2);
  if (column < 0 || row < 0 || u > field.columns - 1 || v > field.rows - 1) return Number.NaN;
  const along = u - column;
  const across = v - row;
  const at = row * field.columns + column;
  const near = field.depthsMm[at]! * (1 - along) + field.depthsMm[at + 1]! * along;
  const far = field.depthsMm[at + field.columns]! * (1 - along) + field.depthsMm[at + field.columns + 1]! * along;
  return near * (1 - across) + far * across;
}

/** The deepest cell of a map, mm; 0 for a map without cells. */
export const deepestOf = (depths: Maps["wearMm"]): number =>
  depths.reduce((deepest, row) => row.reduce<number>((d, cell) => (cell !== null && cell > d ? cell : d), deepest), 0);
