/**
 * A template of a given radius laid across at a crossline: it rests on the high places like a straightedge does.
 *
 * An arc that tilts a little on the board adds a straight line to itself (a roll of an arc is a shift of its crown), so
 * laying a template on the section is laying a straightedge on the section's departure from the arc:
 * underside = arc + upper hull of (section − arc), exact to second order in the tilt. Heights and y in mm.
 */
import { hullHeights } from "../maths/hull.ts";
import { camberMm } from "./idealSurface.ts";

/** Height of the template's underside at each y (rising), resting on the section without entering it. */
export function layTemplate(yMm: readonly number[], heightsMm: readonly number[], radiusMm: number): readonly number[] {
  const arc = yMm.map((y) => camberMm(y, radiusMm));
  const departures = heightsMm.map((z, i) => z - arc[i]);
  return restingOn(yMm, departures).map((line, i) => line + arc[i]);
}

/**
 * A straight line on the departures: the piece of their upper hull over the middle, carried on. Where the hull bends just there, the
 * template rocks on that place and is held evenly, between the two pieces. A hull bends down only, so it enters nothing.
 */
function restingOn(yMm: readonly number[], departures: readonly number[]): readonly number[] {
  const hull = hullHeights(yMm, departures);
  const [first, last] = [yMm[0], yMm[yMm.length - 1]];
  const middle = (first + last) / 2;
  const beside = 1e-9 * (last - first);
  const after = yMm.findIndex((y) => y > middle + beside);
  const before = yMm.findLastIndex((y) => y < middle - beside);
  const slope = (hull[after] - hull[before]) / (yMm[after] - yMm[before]);
  return yMm.map((y) => hull[after - 1] + slope * (y - yMm[after - 1]));
}
