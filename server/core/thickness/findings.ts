/**
 * Everything a verdict is founded on. Lengths in mm.
 */
import type { Instrument } from "../board/instrument.ts";
import type { Gauge, Job } from "../board/settings.ts";
import type { SurveyedSurface, Thickness } from "../examination.ts";
import type { UnreadPath } from "../readings/unreadPath.ts";
import type { UnwornSurface } from "../surface/unwornSurface.ts";
import type { Quantity } from "../units.ts";
import type { FoundPlace } from "../wear/wornPlaces.ts";

export type Findings = {
  readonly instrument: Instrument;
  readonly job: Job;
  readonly gauge: Gauge;
  /** Where a rut could lie under a string unread. */
  readonly unreadPath: UnreadPath | null;
  readonly surface: UnwornSurface;
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

/** A rut could lie unread under some string. Not on a new board: nobody has played on it. */
export function mayHideRut({ unreadPath, job }: Findings): boolean {
  return unreadPath !== null && !job.newBoard;
}
