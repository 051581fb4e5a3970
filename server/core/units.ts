/**
 * Units, axes and the sign rule: the one agreement that every other file relies on.
 *
 * Lengths are millimetres, kept at full precision; only display rounds.
 *
 *   x  along the board: 0 where the board meets the nut, the board's length at the bridge end
 *   y  across: 0 on the centreline, positive towards the treble (highest) string
 *   z  height: positive away from the neck
 *
 * Wear is positive where wood is missing (unworn surface less measured height); a hump is negative wear.
 * A cut is positive downwards: wood that the plane takes off.
 */

/** A measured quantity in mm with its expanded uncertainty (coverage factor 2). */
export type Quantity = { readonly value: number; readonly u: number };

/** Coverage factor of every expanded uncertainty `u` that leaves the core (JCGM 100:2008, 6.3: about 95 %). */
export const coverageFactor = 2;

/** A place on the board, mm. */
export type Place = { readonly xMm: number; readonly yMm: number };
