/**
 * Everything a verdict is founded on. Lengths in mm.
 */
import type { Instrument } from "../board/instrument.ts";
import type { Gauge, Job } from "../board/settings.ts";
import type { SurveyedSurface, Thickness } from "../examination.ts";
import type { UnreadPath, UnreadPaths } from "../readings/unreadPath.ts";
import type { UnwornSurface } from "../surface/unwornSurface.ts";
import type { Quantity } from "../units.ts";
import type { FoundPlace } from "../wear/wornPlaces.ts";
import type { NarrowestRut } from "./narrowestRut.ts";

export type Findings = {
  readonly instrument: Instrument;
  readonly job: Job;
  readonly gauge: Gauge;
  /** Where a rut could lie under a string unread. */
  readonly unreadPaths: UnreadPaths;
  /** The narrowest rut that shows under the gauge's ball; null for a point, which finds any. */
  readonly narrowestRut: NarrowestRut | null;
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

/** A string that no line of readings runs near: that keeps the answer open. Not on a new board: nobody has played on it. */
export function stringWithoutLine({ unreadPaths, job }: Findings): UnreadPath | null {
  return job.newBoard ? null : unreadPaths.withoutLine;
}

/** Ruts that the workshop itself measured, and that would not show under this ball: that keeps the answer open. */
export function rutTooNarrow({ narrowestRut, instrument, job }: Findings): NarrowestRut | null {
  if (narrowestRut === null || job.newBoard) return null;
  const { value, source } = instrument.rutWidthMm;
  return source === "given" && value < narrowestRut.widthMm ? narrowestRut : null;
}

/** What could hide and does not keep the answer open: ruts between the lines, and ruts narrower than show under this ball. */
export type UnheededRuts = { readonly unread: UnreadPath | null; readonly narrow: NarrowestRut | null };

export function unheededRuts(findings: Findings): UnheededRuts {
  const { unreadPaths, narrowestRut, instrument, job } = findings;
  if (job.newBoard) return { unread: null, narrow: null };
  const { value, source } = instrument.rutWidthMm;
  return {
    unread: stringWithoutLine(findings) === null ? unreadPaths.widest : null,
    narrow: source !== "given" && narrowestRut !== null && value < narrowestRut.widthMm ? narrowestRut : null,
  };
}

/** Whether the cut is only the least that it can be: a rut may go deeper than it reads, or lie where none would be seen. */
export function hasDeeperRut(findings: Findings): boolean {
  return (
    findings.wornPlaces.some((place) => place.atLeast) ||
    stringWithoutLine(findings) !== null ||
    rutTooNarrow(findings) !== null
  );
}
