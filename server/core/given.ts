/**
 * What was given, checked together: settings, instrument, readings and thickness, so that every fault is told at once.
 *
 * in: files as read, settings from outside, the table of instruments -> out: checked, or every fault.
 */
import type { Instrument } from "./board/instrument.ts";
import type { InstrumentTable } from "./board/instrumentTable.ts";
import { readSettings } from "./board/readSettings.ts";
import { resolveInstrument } from "./board/resolveInstrument.ts";
import { settingFault } from "./board/settingFault.ts";
import type { Gauge, Job, SettingEntry, Settings } from "./board/settings.ts";
import type { Fault } from "./fault.ts";
import { checkGaps } from "./readings/checkGaps.ts";
import { type CheckedRail, checkRail } from "./readings/checkRail.ts";
import { checkReadings } from "./readings/checkReadings.ts";
import { checkThickness } from "./readings/checkThickness.ts";
import type { Gaps } from "./readings/gaps.ts";
import type { RailProfile } from "./readings/railProfile.ts";
import type { Readings, ThicknessReading } from "./readings/readings.ts";
import type { RailFile } from "./readings/readRailFile.ts";
import type { ReadingsFile } from "./readings/readReadingsFile.ts";
import type { ThicknessFile } from "./readings/readThicknessFile.ts";
import { shownSafely } from "./readings/shownSafely.ts";
import type { OtherSetting } from "./thickness/wouldChange.ts";

export type Given = {
  readonly readings: ReadingsFile;
  readonly thickness: ThicknessFile | null;
  /** The error profile of the rail; null where nobody has surveyed it. */
  readonly rail: RailFile | null;
  /** From the command line or the form: these win over the file's. */
  readonly settings: readonly SettingEntry[];
  readonly table: InstrumentTable;
  readonly version: string;
};

export type Checked = {
  readonly outcome: "checked";
  readonly instrument: Instrument;
  readonly gauge: Gauge;
  readonly job: Job;
  readonly isTipGiven: boolean;
  /** No reading at all where the file holds gaps. */
  readonly readings: Readings;
  /** Gaps under a straightedge or a template; null where the file holds heights. */
  readonly gaps: Gaps | null;
  readonly rail: RailProfile | null;
  readonly thickness: readonly ThicknessReading[];
};

/** Instrument, gauge and job if the workshop had said something else besides; null where that does not fit together. */
export function settingsWith(
  given: Given,
  others: readonly OtherSetting[],
): Pick<Checked, "instrument" | "gauge" | "job"> | null {
  const entries = others.map(({ key, value }): SettingEntry => ({ key, value, where: "settings", line: null }));
  const read = readSettings([...given.readings.entries, ...given.settings, ...entries]);
  if (read.outcome === "faulty") return null;
  const resolved = resolveInstrument(given.table, read.settings);
  return resolved.outcome === "faulty"
    ? null
    : { instrument: resolved.instrument, gauge: read.settings.gauge, job: read.settings.job };
}

/** Settings, instrument, readings and thickness checked together, so that every fault is told at once. */
export function checkGiven(given: Given): Checked | { readonly outcome: "faulty"; readonly faults: readonly Fault[] } {
  const read = readSettings([...given.readings.entries, ...given.settings]);
  const fileFaults = [...given.readings.faults, ...(given.thickness?.faults ?? []), ...(given.rail?.faults ?? [])];
  if (read.outcome === "faulty") return { outcome: "faulty", faults: [...read.faults, ...fileFaults] };
  const resolved = resolveInstrument(given.table, read.settings);
  if (resolved.outcome === "faulty") return { outcome: "faulty", faults: [...resolved.faults, ...fileFaults] };

  const { gauge, job } = read.settings;
  const { instrument } = resolved;
  const readings = checkedReadings(given.readings, read.settings, instrument);
  const thickness = given.thickness
    ? checkThickness(given.thickness, instrument)
    : { outcome: "checked" as const, thickness: [] };
  const heights = readings.outcome === "checked" && readings.gaps === null ? readings.readings : null;
  const rail = checkedRail(given, read.settings, heights, instrument);
  if (readings.outcome === "faulty" || thickness.outcome === "faulty" || rail.outcome === "faulty") {
    return {
      outcome: "faulty",
      faults: [
        ...(readings.outcome === "faulty" ? readings.faults : []),
        ...(thickness.outcome === "faulty" ? thickness.faults : []),
        ...(rail.outcome === "faulty" ? rail.faults : []),
      ],
    };
  }
  if (given.thickness && thickness.thickness.every((reading) => reading.side === "centre")) {
    return { outcome: "faulty", faults: [noEdgeFault()] };
  }
  const isTipGiven = read.settings.given.has("tip_radius");
  return {
    outcome: "checked",
    instrument,
    gauge,
    job,
    isTipGiven,
    readings: readings.readings,
    gaps: readings.gaps,
    rail: rail.profile,
    thickness: thickness.thickness,
  };
}

type HeightsOrGaps =
  | { readonly outcome: "checked"; readonly readings: Readings; readonly gaps: Gaps | null }
  | { readonly outcome: "faulty"; readonly faults: readonly Fault[] };

/** From one leaf of a feeler gauge to the next, mm, unless `resolution` says otherwise; no set goes in finer steps than the finest. From memory. */
const usualStepMm = 0.05;
const finestStepMm = 0.01;

function checkedReadings(file: ReadingsFile, { gauge, given }: Settings, instrument: Instrument): HeightsOrGaps {
  if (file.gaps === null) {
    const heights = checkReadings(file, instrument, gauge);
    return heights.outcome === "faulty" ? heights : { ...heights, gaps: null };
  }
  const stepMm = given.has("resolution") ? Math.max(gauge.resolutionMm, finestStepMm) : usualStepMm;
  const checked = checkGaps(file, instrument, gauge, stepMm);
  if (checked.outcome === "faulty") return checked;
  return { ...checked, readings: { stage: "checked", readings: [], setups: [""] } };
}

/** No profile at all is fine; but where the settings name one, it has to come with the readings. */
function checkedRail(
  given: Given,
  settings: Settings,
  readings: Readings | null,
  instrument: Instrument,
): CheckedRail | { readonly outcome: "checked"; readonly profile: null } {
  if (given.rail) return checkRail(given.rail, readings, instrument);
  const named = settings.given.get("rail_error");
  if (named === undefined) return { outcome: "checked", profile: null };
  const fault = settingFault(
    named,
    "rail-not-sent",
    `\`rail_error\` names ${shownSafely(named.value.trim())}, but no profile of a rail came with the readings`,
    "Send the rail's profile along as the file `rail`, or leave `rail_error` out.",
  );
  return { outcome: "faulty", faults: [fault] };
}

function noEdgeFault(): Fault {
  return {
    where: "thickness",
    line: null,
    column: null,
    code: "no-edge",
    saw: "no thickness at an edge",
    remedy: "Set the calliper on the edges too: rows with side bass and treble. Planing runs out of wood there first.",
  };
}
