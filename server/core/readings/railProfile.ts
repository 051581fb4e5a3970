/**
 * The error of the rail that the gauge slides along: what the gauge shows over something straight, place by place.
 *
 * Positive where the gauge reads too high. x is that of the board the rail is laid over. Lengths in mm.
 */
export type RailPoint = {
  readonly xMm: number;
  readonly errorMm: number;
  /** Standard uncertainty of the error there; 0 where the profile gives none. */
  readonly uMm: number;
};

/** At least two points, x rising. */
export type RailProfile = readonly RailPoint[];
