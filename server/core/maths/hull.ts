/**
 * Upper hull of a profile: what a straightedge meets that is laid on it from above.
 *
 * in   a profile: places x (never falling from one to the next) and heights z, same unit
 * out  indices of the hull's corners from left to right, or the hull's height at every x
 *
 * Of several heights at one x only the highest counts; a point on the straight line between two corners is no corner.
 * Source: the monotone chain of A. M. Andrew, Inform. Process. Lett. 9 (1979) 216–219 (from memory).
 *
 * Example: x 0, 1, 2, 3 with z 0, −1, 1, 0 -> corners 0, 2, 3; hull heights 0, 0.5, 1, 0.
 */

/** Throws a RangeError for an empty or unequal profile, a number that is not finite, or an x that falls. */
export function upperHull(x: ArrayLike<number>, z: ArrayLike<number>): number[] {
  checkProfile(x, z);
  const corners: number[] = [];
  for (let i = 0; i < x.length; i++) {
    const previous = corners.at(-1);
    if (previous !== undefined && x[i] === x[previous]) {
      if (z[i]! <= z[previous]!) continue;
      corners.pop();
    }
    while (corners.length >= 2 && !standsAbove(x, z, corners.at(-2)!, corners.at(-1)!, i)) corners.pop();
    corners.push(i);
  }
  return corners;
}

/** Height of the upper hull at every x of the profile: never below z, and equal to it at the corners. */
export function hullHeights(x: ArrayLike<number>, z: ArrayLike<number>): Float64Array {
  const corners = upperHull(x, z);
  const heights = new Float64Array(x.length);
  let segment = 0;
  for (let i = 0; i < x.length; i++) {
    while (segment < corners.length - 2 && x[i]! > x[corners[segment + 1]!]!) segment++;
    heights[i] = Math.max(
      z[i]!,
      heightOnSegment(x, z, corners[segment]!, corners[segment + 1] ?? corners[segment]!, x[i]!),
    );
  }
  return heights;
}

/** The middle one stands above the straight line from first to last (x rising). */
function standsAbove(x: ArrayLike<number>, z: ArrayLike<number>, first: number, middle: number, last: number): boolean {
  return (z[middle]! - z[first]!) * (x[last]! - x[first]!) > (z[last]! - z[first]!) * (x[middle]! - x[first]!);
}

function heightOnSegment(x: ArrayLike<number>, z: ArrayLike<number>, from: number, to: number, at: number): number {
  if (from === to || at === x[from]) return z[from]!;
  if (at === x[to]) return z[to]!;
  return z[from]! + ((z[to]! - z[from]!) * (at - x[from]!)) / (x[to]! - x[from]!);
}

function checkProfile(x: ArrayLike<number>, z: ArrayLike<number>): void {
  if (x.length === 0 || x.length !== z.length) throw new RangeError(`hull: ${x.length} places, ${z.length} heights`);
  for (let i = 0; i < x.length; i++) {
    if (!Number.isFinite(x[i]) || !Number.isFinite(z[i])) throw new RangeError("hull: a number is not finite");
    if (i > 0 && x[i]! < x[i - 1]!) throw new RangeError("hull: the places are not in order");
  }
}
