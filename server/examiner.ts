/**
 * The examination as the server and the command both run it: chunks of files in, one answer out.
 *
 * Neither side ever holds a whole file: each chunk goes straight into a reader that keeps only numbers.
 * In: bytes of the readings (and, if there are any, of the thickness file and the rail's profile), then the settings that win
 * over the file.
 * Out: the examination, or every fault together.
 */
import type { InstrumentTable } from "./core/board/instrumentTable.ts";
import type { SettingEntry } from "./core/board/settings.ts";
import type { Examination } from "./core/examination.ts";
import { examine } from "./core/examine.ts";
import type { Fault } from "./core/fault.ts";
import { railFileReader } from "./core/readings/readRailFile.ts";
import { readingsFileReader } from "./core/readings/readReadingsFile.ts";
import { thicknessFileReader } from "./core/readings/readThicknessFile.ts";

export type Examined =
  | { readonly outcome: "examined"; readonly examination: Examination }
  | { readonly outcome: "faulty"; readonly faults: readonly Fault[] };

/** Something that takes a file chunk by chunk; a chunk may end anywhere, even inside a character. */
export type ChunkTaker = { push(chunk: Uint8Array): void };

/** One examination under way. */
export type Examining = {
  readonly readings: ChunkTaker;
  /** Call it only if there is a thickness file: from then on the file counts as given, even if it is empty. */
  openThickness(): ChunkTaker;
  /** The same for the profile of the rail. */
  openRail(): ChunkTaker;
  /** What the readings file says above its header; complete once the whole file has been taken. */
  settingsInReadings(): readonly SettingEntry[];
  finish(settings: readonly SettingEntry[]): Examined;
};

export type StartExamining = () => Examining;

export function examinerFor(table: InstrumentTable, version: string): StartExamining {
  return () => {
    const readings = readingsFileReader();
    let thickness: ReturnType<typeof thicknessFileReader> | null = null;
    let rail: ReturnType<typeof railFileReader> | null = null;
    return {
      readings,
      openThickness() {
        thickness = thicknessFileReader();
        return thickness;
      },
      openRail() {
        rail = railFileReader();
        return rail;
      },
      settingsInReadings: readings.settings,
      finish: (settings) =>
        examine({
          readings: readings.finish(),
          thickness: thickness?.finish() ?? null,
          rail: rail?.finish() ?? null,
          settings,
          table,
          version,
        }),
    };
  };
}
