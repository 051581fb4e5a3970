/**
 * Worn places: where wear hangs together, named as a player would say it, and humps likewise.
 *
 * A reading counts as worn when its wear stands out of the noise (once in a hundred unworn boards does one reading of all do
 * so by chance) and is worth naming (a fifth of the depth that calls for a dressing). Cells of the map above that level form
 * places, each round its own peak; a peak that stands out less than a fifth above the saddle belongs to its neighbour.
 * Depth is that of the deepest place read in it (repeats averaged), never of the map between readings.
 *
 *   broad wear   at half its depth still wider than a string and a half
 *   string rut   on a string's path, narrow, at three crosslines or more
 *   finger pit   anything else
 *
 * Lengths in mm, area mm², volume mm³.
 */
import type { Instrument } from "../board/instrument.ts";
import { halfWidthMm } from "../board/outline.ts";
import type { Gauge } from "../board/settings.ts";
import { namePlace } from "../board/stops.ts";
import { nearestString } from "../board/stringPaths.ts";
import { reachMm } from "../compensation/tip.ts";
import type { PlaceKind, PlaceName, WornPlace } from "../examination.ts";
import { type Cell, peakRegions } from "../maths/peakRegions.ts";
import { normalQuantile } from "../maths/quantiles.ts";
import type { UnwornSurface } from "../surface/unwornSurface.ts";
import { coverageFactor, type Place } from "../units.ts";
import { type PlaceRead, type WearAtReadings, type WornReading, wearUncertaintyMm } from "./wearAtReadings.ts";
import { type WearMap, wearOfMapMm } from "./wearMap.ts";

/** A worn place with the deepest reading in it and all its readings, for what comes after. */
export type FoundPlace = Omit<WornPlace, "costMm" | "readings"> & {
  /** Narrow, on a string's path: a rut runs through it, or it is one. */
  readonly isOnString: boolean;
  /** The deepest place read, repeats averaged. */
  readonly deepestReading: WornReading;
  /** Every reading in it, repeats one by one. */
  readonly members: readonly WornReading[];
};

export function findWornPlaces(
  wear: WearAtReadings,
  map: WearMap,
  surface: UnwornSurface,
  instrument: Instrument,
  gauge: Gauge,
): readonly FoundPlace[] {
  const thresholdMm = leastWearMm(surface, instrument, gauge, wear.readings.length);
  const find = (sign: 1 | -1): readonly FoundPlace[] => {
    const onBoard = map.wearMm.map((line, row) =>
      line.map((mm, column) => (isInside(instrument, map, row, column) ? sign * mm : Number.NEGATIVE_INFINITY)),
    );
    const { regions } = peakRegions(onBoard, {
      threshold: thresholdMm,
      prominence: 1 / 5,
      leastProminence: 3 * surface.noiseMm,
    });
    const worn = wear.places.filter(({ mean }) => sign * mean.wearMm >= thresholdMm);
    const members = placesByRegion(worn, map, regions);
    return regions.flatMap((cells, i) => {
      const place = describe(cells, members[i], sign, { map, surface, instrument, gauge });
      return place ? [place] : [];
    });
  };
  return withRutsNotBottomed([...find(1), ...find(-1)]).sort((a, b) => b.depthMm - a.depthMm);
}

/**
 * The least wear that is told from noise and worth naming, mm: beyond what chance makes of all the readings, and beyond the
 * gauge's own limit of error.
 */
export function leastWearMm(surface: UnwornSurface, instrument: Instrument, gauge: Gauge, readings: number): number {
  const byChance = normalQuantile(1 - 0.01 / readings);
  return Math.max(byChance * surface.noiseMm, gauge.errorLimitMm, instrument.dressAtMm.value / 5);
}

type Scene = { map: WearMap; surface: UnwornSurface; instrument: Instrument; gauge: Gauge };

function describe(cells: readonly Cell[], places: readonly PlaceRead[], sign: 1 | -1, scene: Scene): FoundPlace | null {
  if (places.length === 0) return null;
  const { map, surface, instrument, gauge } = scene;
  const deepest = places.reduce((most, place) => (sign * place.mean.wearMm > sign * most.mean.wearMm ? place : most));
  const deepestReading = deepest.mean;
  const members = places.flatMap(({ repeats }) => repeats);
  const columns = cells.map((cell) => map.xMm[cell.column]);
  const rows = cells.map((cell) => map.yMm[cell.row]);
  const xMm = [least(columns), greatest(columns)] as const;
  const yMm = [least(rows), greatest(rows)] as const;
  const cellMm2 = (map.xMm[1] - map.xMm[0]) * (map.yMm[1] - map.yMm[0]);
  const depthMm = sign * deepestReading.wearMm;
  const u =
    coverageFactor * wearUncertaintyMm(surface, gauge, deepestReading.xMm, deepestReading.yMm, deepest.repeats.length);
  const isOnString = sign > 0 && isNarrowOnString(deepestReading, map, instrument);
  const kind = sign < 0 ? "hump" : kindOf(cells, members, isOnString, deepestReading, scene);
  return {
    kind,
    ...nameOf(instrument, deepestReading),
    depthMm,
    u,
    atLeast: isOnString && tipMayHang({ kind, deepest: deepestReading, depthMm, u }, instrument, gauge),
    isOnString,
    xMm,
    yMm,
    areaMm2: cells.length * cellMm2,
    volumeMm3: cells.reduce((sum, { row, column }) => sum + sign * map.wearMm[row][column], 0) * cellMm2,
    deepestReading,
    members,
  };
}

function nameOf(instrument: Instrument, place: Place): PlaceName {
  const { string, note, position } = namePlace(instrument, place);
  return { string, note, position };
}

function kindOf(
  cells: readonly Cell[],
  members: readonly WornReading[],
  isOnString: boolean,
  deepest: WornReading,
  { map, instrument }: Scene,
): PlaceKind {
  const halfDeep = cells.filter(({ row, column }) => map.wearMm[row][column] >= deepest.wearMm / 2);
  if (widestAcrossMm(halfDeep, map) > 1.5 * spacingAtMm(instrument, deepest.xMm)) return "broad wear";
  const crosslines = new Set(members.map((reading) => reading.givenXMm)).size;
  return isOnString && crosslines >= 3 ? "string rut" : "finger pit";
}

/** On a string's path, and less than half as deep half way to the next string on both sides: it may be a rut. */
function isNarrowOnString(deepest: WornReading, map: WearMap, instrument: Instrument): boolean {
  const spacingMm = spacingAtMm(instrument, deepest.xMm);
  const { offsetMm } = nearestString(instrument, deepest);
  const sideMm = (side: 1 | -1) => wearOfMapMm(map, deepest.xMm, deepest.yMm - offsetMm + (side * spacingMm) / 2);
  return Math.abs(offsetMm) < spacingMm / 4 && Math.max(sideMm(1), sideMm(-1)) < deepest.wearMm / 2;
}

/**
 * Whether a ball may hang in a rut of this depth, on its rims or on its sides.
 *
 * Where the rut's width b was measured: at any depth from which the ball could rest on the sides, down to what it can reach. Of a
 * rut with a rounded bottom (a wave, depth·(1 + cos)/2) it finds the bottom down to b²/(2π²r), b counted from the nearer rim: on a
 * slope the ball touches aside of its centre. A pit pressed by a finger is wider than a rut, so that a ball which a rut would let in
 * finds a pit's bottom. Where the width was not measured: a rut of usual width would stop the ball at this depth or deeper, so the
 * reading can't tell a shallow rut from a deep one.
 */
function tipMayHang(rut: Rut, instrument: Instrument, { tipRadiusMm }: Gauge): boolean {
  if (tipRadiusMm === 0) return false;
  const { value: widthMm, source } = instrument.rutWidthMm;
  const reach = reachMm(tipRadiusMm, widthMm);
  if (rut.depthMm > reach + rut.u || (reach === Number.POSITIVE_INFINITY && rut.kind !== "string rut")) return false;
  if (source !== "given") return Number.isFinite(reach);
  const nearerRimMm = Math.max(0, widthMm / 2 - Math.abs(rut.deepest.yMm - rut.deepest.givenYMm));
  const bottomedMm = (2 * nearerRimMm ** 2) / (Math.PI ** 2 * tipRadiusMm);
  return rut.depthMm >= bottomedMm - rut.u;
}

type Rut = {
  readonly kind: PlaceKind;
  readonly deepest: WornReading;
  readonly depthMm: number;
  readonly u: number;
};

/** Where the tip hangs somewhere along a string's rut, no deeper place on that rut was bottomed either. */
function withRutsNotBottomed(places: readonly FoundPlace[]): FoundPlace[] {
  const hanging = new Set(places.filter((place) => place.atLeast).map((place) => place.string));
  return places.map((place) => ({
    ...place,
    atLeast: place.atLeast || (place.isOnString && hanging.has(place.string)),
  }));
}

/** Distance between neighbouring strings at a crossline, mm. */
function spacingAtMm(instrument: Instrument, xMm: number): number {
  const share = xMm / instrument.stringLengthMm.value;
  const spanMm = instrument.spacingNutMm.value * (1 - share) + instrument.spacingBridgeMm.value * share;
  return spanMm / (instrument.strings.length - 1);
}

function widestAcrossMm(cells: readonly Cell[], map: WearMap): number {
  const perColumn = new Map<number, number>();
  for (const { column } of cells) perColumn.set(column, (perColumn.get(column) ?? 0) + 1);
  return Math.max(...perColumn.values()) * (map.yMm[1] - map.yMm[0]);
}

function isInside(instrument: Instrument, map: WearMap, row: number, column: number): boolean {
  return Math.abs(map.yMm[row]) <= halfWidthMm(instrument, map.xMm[column]);
}

function placesByRegion(places: readonly PlaceRead[], map: WearMap, regions: readonly (readonly Cell[])[]) {
  const columns = map.xMm.length;
  const regionOfCell = new Map<number, number>();
  regions.forEach((cells, region) => {
    for (const { row, column } of cells) regionOfCell.set(row * columns + column, region);
  });
  const byRegion: PlaceRead[][] = regions.map(() => []);
  for (const place of places) {
    const column = Math.round((place.mean.xMm - map.xMm[0]) / (map.xMm[1] - map.xMm[0]));
    const row = Math.round((place.mean.yMm - map.yMm[0]) / (map.yMm[1] - map.yMm[0]));
    const region = regionOfCell.get(row * columns + column);
    if (region !== undefined) byRegion[region].push(place);
  }
  return byRegion;
}

function least(numbers: readonly number[]): number {
  return numbers.reduce((a, b) => Math.min(a, b));
}

function greatest(numbers: readonly number[]): number {
  return numbers.reduce((a, b) => Math.max(a, b));
}
