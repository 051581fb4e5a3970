/**
 * A straightedge laid along a path, by brute force: every pair of places is tried as the two that carry it.
 *
 * In: heights at places along the path, mm. Out: the largest gap under the straightedge; where the path stands proud of
 * the line between its ends by more than that, the rise instead, negative (a hump).
 */
export function straightedgeGapMm(atMm: readonly number[], heightsMm: readonly number[]): number {
  const last = atMm.length - 1;
  let gapMm = 0;
  let riseMm = 0;
  for (let k = 0; k <= last; k++) {
    riseMm = Math.max(riseMm, heightsMm[k]! - chordMm(atMm, heightsMm, 0, last, k));
    for (let left = 0; left < k; left++) {
      for (let right = k + 1; right <= last; right++) {
        gapMm = Math.max(gapMm, chordMm(atMm, heightsMm, left, right, k) - heightsMm[k]!);
      }
    }
  }
  return riseMm > gapMm ? -riseMm : gapMm;
}

/**
 * The underside of a straightedge that lies on a path over the middle of it: the lowest line over every place that rests on one place on
 * either side of the middle. Heights in mm -> its height anywhere, mm.
 */
export function straightedgeUndersideMm(
  atMm: readonly number[],
  heightsMm: readonly number[],
): (xMm: number) => number {
  const middleMm = (atMm[0]! + atMm.at(-1)!) / 2;
  let lowestMm = Number.POSITIVE_INFINITY;
  let underside = (_: number): number => Number.NaN;
  atMm.forEach((leftMm, left) => {
    atMm.forEach((rightMm, right) => {
      if (leftMm >= middleMm || rightMm <= middleMm) return;
      const slope = (heightsMm[right]! - heightsMm[left]!) / (rightMm - leftMm);
      const heightMm = (xMm: number): number => heightsMm[left]! + slope * (xMm - leftMm);
      const isClear = () => atMm.every((xMm, k) => heightMm(xMm) >= heightsMm[k]! - 1e-9);
      if (heightMm(middleMm) >= lowestMm || !isClear()) return;
      lowestMm = heightMm(middleMm);
      underside = heightMm;
    });
  });
  return underside;
}

/** Height at place k of the straight line from one place to another. */
function chordMm(
  atMm: readonly number[],
  heightsMm: readonly number[],
  left: number,
  right: number,
  k: number,
): number {
  const share = (atMm[k]! - atMm[left]!) / (atMm[right]! - atMm[left]!);
  return heightsMm[left]! + share * (heightsMm[right]! - heightsMm[left]!);
}
