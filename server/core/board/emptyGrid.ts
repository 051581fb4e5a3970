/**
 * An empty grid for the bench: which lines and crosslines to read, as a CSV to fill in.
 *
 * Lines run under the strings and midway between, where ruts and finger pits are; about half of the crosslines stand where
 * fingers press in first position, on the stopped notes themselves: a pit between two crosslines is not seen. None stands
 * nearer than 3 mm to either end: the nut hides the first millimetres and the rounded edge is no place to read. x in whole mm.
 * 77 readings on four strings: 7 lines by 11 crosslines.
 */
import type { Instrument } from "./instrument.ts";
import { settingTable } from "./settingTable.ts";
import { stopMm } from "./stops.ts";
import { stringAndMidwayNames } from "./stringPaths.ts";

/** The fewest and the most readings that a grid is laid out for. */
export const gridReadings = { fewest: 9, most: 20000 } as const;

/** Throws a RangeError where the number of readings is not within `gridReadings`. */
export function emptyGrid(instrument: Instrument, readings = 77): { xMm: number[]; lines: string[]; csv: string } {
  if (!(readings >= gridReadings.fewest && readings <= gridReadings.most)) {
    throw new RangeError(`a grid takes from ${gridReadings.fewest} to ${gridReadings.most} readings, not ${readings}`);
  }
  const lines = linesFor(instrument, readings);
  const xMm = crosslinesFor(instrument, Math.max(3, Math.round(readings / lines.length)));
  return { xMm, lines, csv: csvOf(instrument, xMm, lines) };
}

/** Few readings go on few lines, so that each line still shows its hollow. */
function linesFor(instrument: Instrument, readings: number): string[] {
  const all = [...stringAndMidwayNames(instrument)];
  if (readings < 28) return pick(all, 3);
  if (readings < 56) return pick(all, 5);
  return all;
}

/** So many names out of all, evenly spread, both outer ones and the middle one among them. */
function pick(names: readonly string[], count: number): string[] {
  return Array.from({ length: count }, (_, i) => names[evenIndex(i, count, names.length)] ?? "");
}

/** Halves go towards the middle, so that of seven lines five are the four strings and the one between the inner two. */
function evenIndex(i: number, count: number, of: number): number {
  const middle = (of - 1) / 2;
  const fromMiddle = (i / (count - 1)) * (of - 1) - middle;
  return middle + Math.sign(fromMiddle) * Math.ceil(Math.abs(fromMiddle) - 0.5);
}

/**
 * Semitones at which fingers press most, the busiest first: the tone above the open string, then third, fourth, minor third and
 * fifth, and the semitones between them (first position of violin and viola; a cello's hand covers the same notes).
 * Common practice, no source.
 */
const busiestSemitones = [2, 4, 5, 3, 7, 1, 6];
const lastDenseSemitone = 7;

/** Many readings on a short board meet at the same whole mm: each crossline stands once. */
function crosslinesFor(instrument: Instrument, count: number): number[] {
  const lengthMm = instrument.boardLengthMm.value;
  const stringMm = instrument.stringLengthMm.value;
  const marginMm = Math.max(4, Math.ceil(lengthMm / 100));
  const lastMm = Math.floor(lengthMm - marginMm);
  const dense = Math.ceil(count / 2);
  const sparse = count - dense;
  const stopped = stoppedNotes(dense - 1).map((semitone) => Math.round(stopMm(stringMm, semitone)));
  const denseEndMm = stopMm(stringMm, lastDenseSemitone);
  const beyond = Array.from({ length: sparse }, (_, i) =>
    Math.round(denseEndMm + ((lastMm - denseEndMm) * (i + 1)) / sparse),
  );
  const inside = [marginMm, ...stopped, ...beyond].filter((xMm) => xMm >= marginMm && xMm <= lastMm);
  return [...new Set(inside)].sort((a, b) => a - b);
}

/** So many places in first position, as semitones: the busiest stops, or evenly in between where there are more to spend. */
function stoppedNotes(count: number): readonly number[] {
  if (count <= busiestSemitones.length) return busiestSemitones.slice(0, count);
  return Array.from({ length: count }, (_, i) => (lastDenseSemitone * (i + 1)) / count);
}

/** What a bench has to say about its gauge, the strings, the board and its limits; left blank, the default holds. */
const toFillIn = ["tip_radius", "resolution", "tension", "build", "edge_limit", "rut_width"];

/** A grid that reads back as it stands: the instrument and whatever the workshop gave about it go on top. */
function csvOf(instrument: Instrument, xMm: readonly number[], lines: readonly string[]): string {
  const given = givenFigures(instrument);
  const settings = [
    `# instrument: ${instrument.kind} ${instrument.size}`,
    `# strings: ${instrument.strings.join(", ")}`,
    ...given.map(({ key, value }) => `# ${key}: ${value}`),
    ...toFillIn.filter((key) => given.every((one) => one.key !== key)).map((key) => `# ${key}:`),
  ];
  const header = ["x", ...lines].join(",");
  const rows = xMm.map((x) => `${x}${",".repeat(lines.length)}`);
  return `${[...settings, header, ...rows].join("\n")}\n`;
}

function givenFigures(instrument: Instrument): readonly { readonly key: string; readonly value: number }[] {
  const { facet, ...figures } = instrument;
  const all: Readonly<Record<string, unknown>> = {
    ...figures,
    flatRidgeNutMm: facet?.ridgeNutMm,
    flatRidgeEndMm: facet?.ridgeEndMm,
    flatSlopeNut: facet?.slopeNut,
    flatSlopeEnd: facet?.slopeEnd,
  };
  return settingTable.flatMap(({ key, figure }) => {
    const given = figure === null ? null : givenValue(all[figure]);
    return given === null ? [] : [{ key, value: given }];
  });
}

function givenValue(figure: unknown): number | null {
  if (typeof figure !== "object" || figure === null || !("source" in figure) || !("value" in figure)) return null;
  return figure.source === "given" && typeof figure.value === "number" ? figure.value : null;
}
