/**
 * Everything a verdict is founded on. Lengths in mm.
 */
import type { Instrument } from "../board/instrument.ts";
import type { Job } from "../board/settings.ts";
import type { SurveyedSurface, Thickness } from "../examination.ts";
import type { Quantity } from "../units.ts";
import type { FoundPlace } from "../wear/wornPlaces.ts";

export type Findings = {
  readonly instrument: Instrument;
  readonly job: Job;
  readonly shape: SurveyedSurface;
  /** Hollow along the centreline, where strings don't fan out; negative: humped lengthwise. */
  readonly centreHollowMm: Quantity;
  readonly wornPlaces: readonly FoundPlace[];
  /** The least wear that is told from noise, mm. */
  readonly leastWearMm: number;
  /** Whether any target within the bounds lies below the board. */
  readonly hasPlan: boolean;
  readonly thickness: Thickness | null;
};
