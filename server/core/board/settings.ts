/**
 * Settings: what the workshop may say about the instrument, the gauge and the job, as `key: value`.
 *
 * They come in the readings file, on the command line, or in the form; the latter two win over the file.
 */
import type { Fault } from "../fault.ts";

/** One setting as it was written, and where. */
export type SettingEntry = {
  readonly key: string;
  readonly value: string;
  readonly where: "readings" | "settings";
  readonly line: number | null;
};

/** The gauge and how it was used. Lengths in mm. */
export type Gauge = {
  /** mm per unit of the readings, and of x and y. */
  readonly unitMm: number;
  readonly placeUnitMm: number;
  readonly reads: "height" | "depth";
  readonly tipRadiusMm: number;
  readonly resolutionMm: number;
  /** The maker's limit of error, ±. */
  readonly errorLimitMm: number;
  /** Limit of error of the calliper that thickness was measured with, ±. */
  readonly calliperErrorMm: number;
  /** Whether the strings were at pitch. */
  readonly tension: "on" | "off" | "unknown";
  /** Hollow at pitch less hollow slack, under the lowest and the highest string; null where it was not measured. */
  readonly pull: { readonly lowestMm: number; readonly highestMm: number } | null;
};

/** What is to be done with the board, and what kind of board it is. */
export type Job = {
  readonly aim: "workshop" | "own";
  /** What a plan makes small once its deepest cut is: the wood taken, or the cut along both edges. */
  readonly spare: "wood" | "edges";
  readonly templateRadiiMm: readonly number[];
  readonly build: "solid" | "veneered" | "dyed" | "unknown";
  readonly valuable: boolean;
  readonly loose: boolean;
  readonly newBoard: boolean;
};

/** Settings with every known key parsed and every value in its range; dimensions as the instrument table takes them. */
export type Settings = {
  readonly instrument: string | null;
  readonly strings: readonly string[] | null;
  readonly gauge: Gauge;
  readonly job: Job;
  /** Figures that replace the table's, by figure name (mm, fractions, slopes), each with who said so. */
  readonly figures: ReadonlyMap<string, { readonly value: number; readonly entry: SettingEntry }>;
  /** Every key that was said, and where: tells a silent default (a tip radius of 0, say) from an answer. */
  readonly given: ReadonlyMap<string, SettingEntry>;
};

export type ReadSettings =
  | { readonly outcome: "read"; readonly settings: Settings }
  | { readonly outcome: "faulty"; readonly faults: readonly Fault[] };

/** What one key means, what it takes, and an example: for help texts, the form and the reader of settings alike. */
export type SettingDescription = {
  readonly key: string;
  /** In a luthier's words. */
  readonly meaning: string;
  readonly takes:
    | "length"
    | "lengths"
    | "fraction"
    | "slope"
    | "choice"
    | "yes or no"
    | "names"
    | "instrument"
    | "file";
  /** Unit of a number, in words; null where there is none. */
  readonly unit: string | null;
  readonly choices: readonly string[] | null;
  /** Least and greatest value accepted, both included. */
  readonly range: readonly [number, number] | null;
  readonly example: string;
  /** The figure of an instrument that it replaces: a `FigureName`, or one of the facet's. */
  readonly figure: string | null;
};
