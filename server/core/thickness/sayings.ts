/**
 * Words that several parts of a verdict share: uncertainties, how often to read, places on a line of the board.
 *
 * Lengths in mm, rounded as the bench's gauge shows them.
 */
import type { Instrument } from "../board/instrument.ts";
import type { PlaceOnLine } from "./placesToRead.ts";

/** An uncertainty, rounded up: 0.0312 -> "± 0.04". */
export function plusMinus(uMm: number, decimals = 2): string {
  const scale = 10 ** decimals;
  return `± ${(Math.ceil(uMm * scale - 1e-3) / scale).toFixed(decimals)}`;
}

/** "from ± 0.04 to ± 0.03 mm"; to a thousandth where they are less than a hundredth apart. */
export function narrowed(fromMm: number, toMm: number): string {
  const decimals = fromMm - toMm < 0.01 ? 3 : 2;
  return `from ${plusMinus(fromMm, decimals)} to ${plusMinus(toMm, decimals)} mm`;
}

/** "once", "3 times". */
function timesInWords(times: number): string {
  return times === 1 ? "once" : `${times} times`;
}

/** "once more", "3 more times". */
export function moreTimes(times: number): string {
  return times === 1 ? "once more" : `${times} more times`;
}

/** Where a line of readings runs: "under the A string", "midway between D and A", "3 mm inside the bass edge". */
export function alongLine(line: string, { edgeInsetMm }: Instrument): string {
  if (line.endsWith("edge")) return `${edgeInsetMm.value} mm inside the ${line}`;
  const [lower, upper] = line.split("/");
  return upper === undefined ? `under the ${line} string` : `midway between ${lower} and ${upper}`;
}

/** Readings by line: "under the A string 137 mm from the nut (3 times), and 3 mm inside the bass edge 4 mm from the nut (once)". */
export function readingsInWords(places: readonly PlaceOnLine[], instrument: Instrument): string {
  const lines = new Map<string, Map<number, number>>();
  for (const { line, xMm } of places) {
    const onLine = lines.get(line) ?? new Map<number, number>();
    lines.set(line, onLine.set(xMm, (onLine.get(xMm) ?? 0) + 1));
  }
  const told = [...lines].map(([line, onLine]) => {
    const crosslines = [...onLine].sort(([a], [b]) => a - b);
    const read = crosslines.map(([xMm, times]) => `${xMm} mm from the nut (${timesInWords(times)})`);
    return `${alongLine(line, instrument)} ${read.join(" and ")}`;
  });
  return told.join(", and ");
}

/** That ruts of a width ("0.8 mm wide", "narrower than 1.3 mm") don't show under this ball, and what to do about it. */
export function notShown(string: string, ruts: string, tipRadiusMm: number): string {
  return `Under the ${string} string a ball of radius ${tipRadiusMm} mm can't get into a rut ${ruts}: one there would not show with this tip. Read the strings' paths with a finer tip or a point, or look for ruts by eye against the light.`;
}

/** That no reading lies on a string's path, and what could lie there. */
export function notRead(string: string, xMm: number, widestRutMm: number): string {
  return `No reading lies under the ${string} string round ${xMm} mm from the nut: between the lines a rut up to ${widestRutMm.toFixed(1)} mm wide could hide.`;
}
