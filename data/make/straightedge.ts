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
