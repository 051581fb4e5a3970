/**
 * Regions round the peaks of a field on a grid: what a flood that sinks from the highest cell lays dry, island by island.
 *
 * Cells are taken from the highest down to `threshold`. A cell without a neighbour in a region starts one; a cell between two
 * regions joins them into one if the lower of their peaks stands out above this saddle by less than `prominence` (a fraction of
 * that peak, at least `leastProminence`); otherwise they stay apart and the cell goes to the higher one.
 * Neighbours are the eight cells around. With prominence Infinity this is plain labelling of connected cells.
 *
 * in: field[row][column] -> out: label of each cell (−1: below the threshold) and the cells of each region, highest peak first.
 */
export type Cell = { readonly row: number; readonly column: number };
export type PeakRegions = { readonly regions: readonly (readonly Cell[])[] };

export type Separation = {
  readonly threshold: number;
  readonly prominence: number;
  readonly leastProminence: number;
};

export function peakRegions(field: readonly (readonly number[])[], separation: Separation): PeakRegions {
  const columns = field[0].length;
  const cells: Cell[] = [];
  field.forEach((line, row) => {
    line.forEach((value, column) => {
      if (value >= separation.threshold) cells.push({ row, column });
    });
  });
  cells.sort((a, b) => field[b.row][b.column] - field[a.row][a.column]);

  const parent: number[] = [];
  const peak: number[] = [];
  const label = new Int32Array(field.length * columns).fill(-1);
  const rootOf = (region: number): number => {
    let root = region;
    while (parent[root] !== root) root = parent[root];
    return root;
  };

  for (const { row, column } of cells) {
    const height = field[row][column];
    const around = new Set<number>();
    for (let r = Math.max(0, row - 1); r <= Math.min(field.length - 1, row + 1); r += 1) {
      for (let c = Math.max(0, column - 1); c <= Math.min(columns - 1, column + 1); c += 1) {
        if (label[r * columns + c] >= 0) around.add(rootOf(label[r * columns + c]));
      }
    }
    const byPeak = [...around].sort((a, b) => peak[b] - peak[a]);
    if (byPeak.length === 0) {
      parent.push(parent.length);
      peak.push(height);
      label[row * columns + column] = parent.length - 1;
      continue;
    }
    const [highest, ...others] = byPeak;
    label[row * columns + column] = highest;
    for (const other of others) {
      const needed = Math.max(separation.leastProminence, separation.prominence * peak[other]);
      if (peak[other] - height < needed) parent[other] = highest;
    }
  }

  const regions = new Map<number, Cell[]>();
  for (const cell of cells) {
    const root = rootOf(label[cell.row * columns + cell.column]);
    const members = regions.get(root) ?? [];
    members.push(cell);
    regions.set(root, members);
  }
  return { regions: [...regions.values()] };
}
