/**
 * Ruts that the gauge's ball may not have bottomed: it hangs on their rims or on their sides, and their depth is the least it can be.
 *
 * Where the rut's width b was measured: at any depth from which the ball could rest on the sides, down to what it can reach. Of a
 * rut with a rounded bottom (a wave, depth·(1 + cos)/2) it finds the bottom down to b²/(2π²r), b counted from the nearer rim: on a
 * slope the ball touches aside of its centre. A pit pressed by a finger is wider than a rut, so that a ball which a rut would let in
 * finds a pit's bottom.
 *
 * Where the width was not measured: a row of readings on a string's path, worn about evenly over more than a fingertip's pit, may be
 * a rut; and no deeper than the ball can sink into one twice as wide as the default, a shallow rut can't be told from a deep one.
 * A lone pit is a finger's.
 *
 * Where the tip may hang somewhere along a string's rut, no deeper place on that rut was bottomed either.
 *
 * in: worn places, all places read -> out: the same worn places, each with whether its depth is the least it can be. Lengths in mm.
 */
import type { Instrument } from "../board/instrument.ts";
import type { Gauge } from "../board/settings.ts";
import { nearestString, stringSpacingMm } from "../board/stringPaths.ts";
import { reachMm } from "../compensation/tip.ts";
import type { PlaceKind } from "../examination.ts";
import type { PlaceRead, WornReading } from "./wearAtReadings.ts";

export type MaybeRut = {
  readonly kind: PlaceKind;
  readonly string: string;
  /** Narrow, on a string's path. */
  readonly isOnString: boolean;
  readonly depthMm: number;
  readonly u: number;
  readonly deepestReading: WornReading;
};

export function ruledByTip<Found extends MaybeRut>(
  found: readonly Found[],
  read: readonly PlaceRead[],
  instrument: Instrument,
  gauge: Gauge,
): (Found & { readonly atLeast: boolean })[] {
  const mayHang = instrument.rutWidthMm.source === "given" ? mayHangInMeasured : mayHangInUsual;
  const hanging = new Set(
    found
      .filter((place) => gauge.tipRadiusMm > 0 && place.isOnString && mayHang(place, read, instrument, gauge))
      .map((place) => place.string),
  );
  return found.map((place) => ({ ...place, atLeast: place.isOnString && hanging.has(place.string) }));
}

function mayHangInMeasured(
  { kind, depthMm, u, deepestReading }: MaybeRut,
  _read: readonly PlaceRead[],
  { rutWidthMm }: Instrument,
  { tipRadiusMm }: Gauge,
): boolean {
  const reach = reachMm(tipRadiusMm, rutWidthMm.value);
  if (depthMm > reach + u || (reach === Number.POSITIVE_INFINITY && kind !== "string rut")) return false;
  const asideMm = Math.abs(deepestReading.yMm - deepestReading.givenYMm);
  const nearerRimMm = Math.max(0, rutWidthMm.value / 2 - asideMm);
  const bottomedMm = (2 * nearerRimMm ** 2) / (Math.PI ** 2 * tipRadiusMm);
  return depthMm >= bottomedMm - u;
}

/** The default is the narrow end of what is usual; a rut is up to so many times as wide (from memory). */
const mostOfUsual = 2;

function mayHangInUsual(
  place: MaybeRut,
  read: readonly PlaceRead[],
  instrument: Instrument,
  { tipRadiusMm }: Gauge,
): boolean {
  const { value: widthMm } = instrument.rutWidthMm;
  const letsEveryRutIn = widthMm >= 2 * tipRadiusMm;
  const isTooDeep = place.depthMm > reachMm(tipRadiusMm, mostOfUsual * widthMm) + place.u;
  return !letsEveryRutIn && !isTooDeep && isOneOfARow(place, read, instrument);
}

/** A fingertip's pit is no longer than this, mm (from memory). */
const longestPitMm = 20;
const fewestInARow = 3;
/** A ball hangs about evenly all along a rut; noise and the rut's own changes are within this factor. */
const aboutAsDeep = 2;

/** Whether the readings on this string's path before and after it are worn about as deep, over more than a pit's length. */
function isOneOfARow(place: MaybeRut, read: readonly PlaceRead[], instrument: Instrument): boolean {
  const { index } = nearestString(instrument, place.deepestReading);
  const alongPath = read
    .map(({ mean }) => mean)
    .filter((reading) => isOnPath(reading, index, instrument))
    .sort((a, b) => a.givenXMm - b.givenXMm);
  const isAlike = ({ wearMm }: WornReading): boolean =>
    wearMm >= place.depthMm / aboutAsDeep && wearMm <= place.depthMm * aboutAsDeep;
  const at = alongPath.findIndex(({ row }) => row === place.deepestReading.row);
  const before = alongPath.findLastIndex((reading, i) => i < at && !isAlike(reading));
  const after = alongPath.findIndex((reading, i) => i > at && !isAlike(reading));
  const row = alongPath.slice(before + 1, after < 0 ? undefined : after);
  const crosslines = new Set(row.map(({ givenXMm }) => givenXMm)).size;
  return crosslines >= fewestInARow && row[row.length - 1].givenXMm - row[0].givenXMm > longestPitMm;
}

function isOnPath(reading: WornReading, stringIndex: number, instrument: Instrument): boolean {
  const { index, offsetMm } = nearestString(instrument, reading);
  return index === stringIndex && Math.abs(offsetMm) < stringSpacingMm(instrument, reading.xMm) / 4;
}
