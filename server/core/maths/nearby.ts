/**
 * What lies near, weighted by nearness: exp(−0.7·d²) at the distance d, nothing beyond two.
 *
 * in: positions (u, v) in units in which neighbours are about 1 apart -> out: for a position the indices near it (itself
 * included, at distance 0) with their weights.
 */
export type Nearby = readonly { readonly index: number; readonly weight: number }[];

const nearness = 0.7;
const farthest = 2;

export function nearby(u: ArrayLike<number>, v: ArrayLike<number>): (index: number) => Nearby {
  const cells = new Map<number, number[]>();
  for (let i = 0; i < u.length; i++) {
    const key = keyOf(Math.floor(u[i]! / farthest), Math.floor(v[i]! / farthest));
    const cell = cells.get(key);
    if (cell) cell.push(i);
    else cells.set(key, [i]);
  }
  return (index) => {
    const found: { index: number; weight: number }[] = [];
    const column = Math.floor(u[index]! / farthest);
    const row = Math.floor(v[index]! / farthest);
    for (const aside of [-1, 0, 1]) {
      for (const above of [-1, 0, 1]) {
        for (const other of cells.get(keyOf(column + aside, row + above)) ?? []) {
          const squared = (u[other]! - u[index]!) ** 2 + (v[other]! - v[index]!) ** 2;
          if (squared <= farthest ** 2) found.push({ index: other, weight: Math.exp(-nearness * squared) });
        }
      }
    }
    return found;
  };
}

function keyOf(column: number, row: number): number {
  return column * 65_536 + row + 32_768;
}
