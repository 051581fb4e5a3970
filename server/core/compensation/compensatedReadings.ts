/**
 * Heights of the board itself: readings after rail and tip compensation. The only thing a surface is fitted to.
 */
import type { Mark } from "../readings/readings.ts";

export type CompensatedReading = {
  readonly row: number;
  readonly givenXMm: number;
  readonly givenYMm: number;
  /** Where the tip really touched. */
  readonly xMm: number;
  readonly yMm: number;
  readonly heightMm: number;
  readonly line: string | null;
  readonly mark: Mark | null;
  /** Which set-up of the rail it belongs to, from 0. */
  readonly setup: number;
};

export type CompensatedReadings = { readonly stage: "compensated"; readonly readings: readonly CompensatedReading[] };
