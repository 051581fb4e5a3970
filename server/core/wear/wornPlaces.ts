/**
 * Worn places: where wear hangs together, named as a player would say it, and humps likewise.
 *
 * Cells of the map above a low level form places, each round its own peak; a peak that stands out less than a fifth above the saddle
 * belongs to its neighbour. A place is told when a reading in it stands out of the noise, alone or with its neighbours
 * (standingOut.ts), and its depth is worth naming (a tenth of the depth that calls for a dressing).
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
import { nearestString, stringSpacingMm } from "../board/stringPaths.ts";
import type { PlaceKind, PlaceName, WornPlace } from "../examination.ts";
import { type Cell, peakRegions } from "../maths/peakRegions.ts";
import { normalQuantile } from "../maths/quantiles.ts";
import type { UnwornSurface } from "../surface/unwornSurface.ts";
import { coverageFactor, type Place } from "../units.ts";
import { ruledByTip } from "./rutsUnderTip.ts";
import { standingOut } from "./standingOut.ts";
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
  const worthMm = worthNamingMm(instrument, gauge);
  const levelMm = Math.max(worthMm, levelInNoises * surface.noiseMm);
  const find = (sign: 1 | -1): readonly DescribedPlace[] => {
    const onBoard = map.wearMm.map((line, row) =>
      line.map((mm, column) => (isInside(instrument, map, row, column) ? sign * mm : Number.NEGATIVE_INFINITY)),
    );
    const { regions } = peakRegions(onBoard, {
      threshold: levelMm,
      prominence: 1 / 5,
      leastProminence: 3 * surface.noiseMm,
    });
    const standsOut = standingOut(wear.places, sign, surface, instrument);
    const outstanding = new Set(wear.places.filter((_, i) => standsOut[i]));
    const worn = wear.places.filter(({ mean }) => sign * mean.wearMm >= levelMm);
    const members = placesByRegion(worn, map, regions);
    return regions.flatMap((cells, i) => {
      if (!members[i].some((place) => outstanding.has(place))) return [];
      const place = describe(cells, members[i], sign, { map, surface, instrument, gauge });
      return place ? [place] : [];
    });
  };
  return ruledByTip([...find(1), ...find(-1)], wear.places, instrument, gauge).sort((a, b) => b.depthMm - a.depthMm);
}

/** The map is looked through down to this many times the noise. */
const levelInNoises = 2;

/** The least depth worth naming, mm; beyond the gauge's own limit of error. */
function worthNamingMm(instrument: Instrument, gauge: Gauge): number {
  return Math.max(gauge.errorLimitMm, instrument.dressAtMm.value / 10);
}

/** The least wear that one reading tells from noise and that is worth naming, mm: beyond what chance makes of all the readings. */
export function leastWearMm(surface: UnwornSurface, instrument: Instrument, gauge: Gauge, readings: number): number {
  const byChance = normalQuantile(1 - 0.01 / readings);
  return Math.max(byChance * surface.noiseMm, worthNamingMm(instrument, gauge));
}

/** Without what the tip may have hidden in it. */
type DescribedPlace = Omit<FoundPlace, "atLeast">;

type Scene = { map: WearMap; surface: UnwornSurface; instrument: Instrument; gauge: Gauge };

function describe(
  cells: readonly Cell[],
  places: readonly PlaceRead[],
  sign: 1 | -1,
  scene: Scene,
): DescribedPlace | null {
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
  const u = coverageFactor * wearUncertaintyMm(surface, gauge, deepestReading, deepest.repeats.length);
  const isOnString = sign > 0 && isNarrowOnString(deepestReading, map, instrument);
  const kind = sign < 0 ? "hump" : kindOf(cells, members, isOnString, deepestReading, scene);
  return {
    kind,
    ...nameOf(instrument, deepestReading),
    depthMm,
    u,
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
  if (widestAcrossMm(halfDeep, map) > 1.5 * stringSpacingMm(instrument, deepest.xMm)) return "broad wear";
  const crosslines = new Set(members.map((reading) => reading.givenXMm)).size;
  return isOnString && crosslines >= 3 ? "string rut" : "finger pit";
}

/** On a string's path, and less than half as deep half way to the next string on both sides: it may be a rut. */
function isNarrowOnString(deepest: WornReading, map: WearMap, instrument: Instrument): boolean {
  const spacingMm = stringSpacingMm(instrument, deepest.xMm);
  const { offsetMm } = nearestString(instrument, deepest);
  const sideMm = (side: 1 | -1) => wearOfMapMm(map, deepest.xMm, deepest.yMm - offsetMm + (side * spacingMm) / 2);
  return Math.abs(offsetMm) < spacingMm / 4 && Math.max(sideMm(1), sideMm(-1)) < deepest.wearMm / 2;
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
