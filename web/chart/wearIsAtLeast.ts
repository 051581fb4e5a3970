/**
 * Whether the deepest wear of the board is only the least that it can be: the tip may hang on the rims of one of its worn places.
 *
 * The place that reads deepest need not be the deepest: where any place may go deeper than it reads, so may the deepest of all.
 */
import type { Examination } from "../../server/core/examination.ts";

export const wearIsAtLeast = ({ deepest, wornPlaces }: Examination): boolean =>
  deepest?.atLeast === true || wornPlaces.some((place) => place.atLeast);
