/**
 * Lines and crosslines of a quick look: which readings or gaps lie on one line, or at one crossline. Lengths in mm.
 */
import type { Instrument } from "../board/instrument.ts";
import { linePath } from "../board/stringPaths.ts";
import { type SurfaceShape, surfacePlan } from "../surface/idealSurface.ts";
import { hollowOfShape } from "../surface/straightedge.ts";
import type { LookedHollow, Range } from "./looked.ts";

/** A line as it was named, or the y that it keeps to. */
export type LineLooked = {
  readonly where: string;
  readonly stringIndex: number | null;
  readonly yAtMm: (xMm: number) => number;
};

export function lineLooked(instrument: Instrument, line: string | number): LineLooked {
  if (typeof line === "number") {
    const side = line < 0 ? "to the bass side" : "to the treble side";
    const where = line === 0 ? "along the centre" : `${Number(Math.abs(line).toFixed(1))} mm ${side}`;
    return { where, stringIndex: null, yAtMm: () => line };
  }
  const path = linePath(instrument, line);
  if (path === null) throw new Error(`a line that the check has let pass is none: ${line}`);
  const { stringIndex, yAtMm } = path;
  const where = stringIndex === null ? `along ${line}` : `under the ${line} string`;
  return { where, stringIndex, yAtMm };
}

/** What a straightedge may show along a line and still be right. `set` is the shape that the workshop has set. */
export function hollowRange(instrument: Instrument, set: SurfaceShape, { yAtMm }: LineLooked): Range {
  const shouldBe = hollowOfShape(surfacePlan(instrument), set, yAtMm).hollowMm;
  const tolerance = instrument.hollowToleranceMm.value;
  return [shouldBe - tolerance, shouldBe + tolerance];
}

/** Those on one string, on one line, at one crossline …, each group under the key of its members, in the order of the file. */
export function groupedBy<Key, One>(all: readonly One[], keyOf: (one: One) => Key): ReadonlyMap<Key, readonly One[]> {
  const groups = new Map<Key, One[]>();
  for (const one of all) {
    const key = keyOf(one);
    const group = groups.get(key);
    if (group === undefined) groups.set(key, [one]);
    else group.push(one);
  }
  return groups;
}

/** Strings first and in their order, then the other lines. */
export function inOrderOfStrings(hollows: readonly LookedHollow[]): readonly LookedHollow[] {
  const rank = ({ stringIndex }: LookedHollow): number => stringIndex ?? Number.POSITIVE_INFINITY;
  return [...hollows].sort((a, b) => (rank(a) < rank(b) ? -1 : Number(rank(a) > rank(b))));
}

/** The first and the last place lie at most this share of the length from the board's ends. */
const farthestEnd = 0.2;

export function reachesOver(readings: readonly { readonly xMm: number }[], { boardLengthMm }: Instrument): boolean {
  const lengthMm = boardLengthMm.value;
  return (
    readings.some(({ xMm }) => xMm <= farthestEnd * lengthMm) &&
    readings.some(({ xMm }) => xMm >= (1 - farthestEnd) * lengthMm)
  );
}
