/**
 * Heights of the board itself: readings after rail and tip compensation. The only thing a surface is fitted to.
 */
export type CompensatedReading = {
  readonly row: number;
  readonly givenXMm: number;
  readonly givenYMm: number;
  /** Where the tip really touched. */
  readonly xMm: number;
  readonly yMm: number;
  readonly heightMm: number;
  readonly line: string | null;
};

export type CompensatedReadings = { readonly stage: "compensated"; readonly readings: readonly CompensatedReading[] };
