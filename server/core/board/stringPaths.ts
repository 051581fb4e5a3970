/**
 * Paths along the board: under each string, midway between two, along the edges, down the centre.
 *
 * A string runs straight from the nut (x = 0) to the bridge (x = vibrating length S); the strings stand evenly spaced
 * at both, and fan out between: y_i(x) = yNut_i + (yBridge_i - yNut_i) x / S. Lengths in mm, y positive towards treble.
 */
import type { Place } from "../units.ts";
import type { Instrument } from "./instrument.ts";
import { halfWidthMm } from "./outline.ts";
import { readStringName } from "./stringNames.ts";

export type LinePath = {
  /** In the tool's spelling: "C", "C/G", "bass edge", "treble edge", "centre". */
  readonly name: string;
  readonly yAtMm: (xMm: number) => number;
  /** The string above this line, null where it runs under none. */
  readonly stringIndex: number | null;
};

/** y of a string's path; it goes straight on beyond nut and bridge. Throws a RangeError where there is no such string. */
export function stringYMm(instrument: Instrument, stringIndex: number, xMm: number): number {
  const last = instrument.strings.length - 1;
  if (!Number.isInteger(stringIndex) || stringIndex < 0 || stringIndex > last) {
    throw new RangeError(`no string ${stringIndex} among ${last + 1}`);
  }
  const acrossSpan = stringIndex / last - 0.5;
  const nutMm = acrossSpan * instrument.spacingNutMm.value;
  const bridgeMm = acrossSpan * instrument.spacingBridgeMm.value;
  return nutMm + (bridgeMm - nutMm) * (xMm / instrument.stringLengthMm.value);
}

/** Distance between neighbouring strings at a crossline. */
export function stringSpacingMm(instrument: Instrument, xMm: number): number {
  return stringYMm(instrument, 1, xMm) - stringYMm(instrument, 0, xMm);
}

/** The path that a line's name means, null where it means none. Case and blanks don't matter. */
export function linePath(instrument: Instrument, name: string): LinePath | null {
  const words = name
    .trim()
    .toLowerCase()
    .replace(/[\s_-]+/g, " ");
  switch (words) {
    case "bass edge":
    case "edge bass":
      return edgePath(instrument, "bass");
    case "treble edge":
    case "edge treble":
      return edgePath(instrument, "treble");
    case "centre":
    case "center":
    case "centreline":
    case "centerline":
    case "centre line":
    case "center line":
    case "middle":
      return { name: "centre", yAtMm: () => 0, stringIndex: null };
  }
  const pair = words.split("/");
  const [first = "", second] = pair;
  if (pair.length > 2) return null;
  const index = stringIndexOf(instrument, first);
  if (second === undefined) return index === null ? null : stringPath(instrument, index);
  const other = stringIndexOf(instrument, second);
  return index === null || other === null || index === other ? null : midwayPath(instrument, index, other);
}

/** Every line's name, for messages and grids: strings and the ways between them from bass to treble, then the rest. */
export function lineNames(instrument: Instrument): readonly string[] {
  return [...stringAndMidwayNames(instrument), "bass edge", "treble edge", "centre"];
}

/** Strings and the ways midway between neighbours, from bass to treble: "C", "C/G", "G", … */
export function stringAndMidwayNames(instrument: Instrument): readonly string[] {
  return instrument.strings.flatMap((name, index) => {
    const next = instrument.strings[index + 1];
    return next === undefined ? [name] : [name, `${name}/${next}`];
  });
}

/** The string whose path runs nearest, and how far the place lies from it (mm, positive towards treble). */
export function nearestString(instrument: Instrument, place: Place): { index: number; offsetMm: number } {
  let nearest = { index: 0, offsetMm: Number.POSITIVE_INFINITY };
  for (let index = 0; index < instrument.strings.length; index++) {
    const offsetMm = place.yMm - stringYMm(instrument, index, place.xMm);
    if (Math.abs(offsetMm) < Math.abs(nearest.offsetMm)) nearest = { index, offsetMm };
  }
  return nearest;
}

function stringPath(instrument: Instrument, index: number): LinePath {
  return {
    name: instrument.strings[index] ?? "",
    yAtMm: (xMm) => stringYMm(instrument, index, xMm),
    stringIndex: index,
  };
}

function midwayPath(instrument: Instrument, one: number, other: number): LinePath {
  const low = Math.min(one, other);
  const high = Math.max(one, other);
  return {
    name: `${instrument.strings[low]}/${instrument.strings[high]}`,
    yAtMm: (xMm) => (stringYMm(instrument, low, xMm) + stringYMm(instrument, high, xMm)) / 2,
    stringIndex: null,
  };
}

function edgePath(instrument: Instrument, side: "bass" | "treble"): LinePath {
  const sign = side === "bass" ? -1 : 1;
  return {
    name: `${side} edge`,
    yAtMm: (xMm) => sign * (halfWidthMm(instrument, xMm) - instrument.edgeInsetMm.value),
    stringIndex: null,
  };
}

/**
 * A string by its name, with or without its octave. Null where no string, or more than one, answers to it: on a set with
 * two G strings "G" alone means neither, "G2" and "G3" do.
 */
function stringIndexOf(instrument: Instrument, written: string): number | null {
  const asked = readStringName(written);
  if (asked === null) return null;
  const answering = instrument.openPitches.flatMap((pitch, index) => {
    const sameNote = pitch % 12 === asked.semitoneInOctave;
    const sameOctave = asked.octave === null || Math.floor(pitch / 12) === asked.octave;
    return sameNote && sameOctave ? [index] : [];
  });
  const [index, another] = answering;
  return index === undefined || another !== undefined ? null : index;
}
