/**
 * Worn places: where wear hangs together, named as a player would say it, and humps likewise.
 *
 * A reading counts as worn when its wear stands out of the noise (once in a hundred unworn boards does one reading of all do
 * so by chance) and is worth naming (a fifth of the depth that calls for a dressing). Cells of the map above that level form
 * places, each round its own peak; a peak that stands out less than a third above the saddle belongs to its neighbour.
 * Depth is that of the deepest reading in the place, never of the map between readings.
 *
 *   string rut   long (over a seventh of the board), narrow, on a string's path
 *   broad wear   wider than a string and three quarters
 *   finger pit   anything shorter
 *
 * Lengths in mm, area mm², volume mm³.
 */
import type { Instrument } from "../board/instrument.ts";
import { halfWidthMm } from "../board/outline.ts";
import type { Gauge } from "../board/settings.ts";
import { namePlace } from "../board/stops.ts";
import { nearestString } from "../board/stringPaths.ts";
import { reachMm } from "../compensation/tip.ts";
import type { PlaceKind, WornPlace } from "../examination.ts";
import { type Cell, peakRegions } from "../maths/peakRegions.ts";
import { normalQuantile } from "../maths/quantiles.ts";
import type { UnwornSurface } from "../surface/unwornSurface.ts";
import { coverageFactor } from "../units.ts";
import type { WearAtReadings, WornReading } from "./wearAtReadings.ts";
import { wearUncertaintyMm } from "./wearAtReadings.ts";
import type { WearMap } from "./wearMap.ts";

/** A worn place with the deepest reading in it and all its readings, for what comes after. */
export type FoundPlace = Omit<WornPlace, "costMm" | "readings"> & {
  readonly deepestReading: WornReading;
  readonly members: readonly WornReading[];
};

export function findWornPlaces(
  wear: WearAtReadings,
  map: WearMap,
  surface: UnwornSurface,
  instrument: Instrument,
  gauge: Gauge,
): readonly FoundPlace[] {
  const thresholdMm = leastWearMm(surface, instrument, wear.readings.length);
  const find = (sign: 1 | -1): readonly FoundPlace[] => {
    const onBoard = map.wearMm.map((line, row) =>
      line.map((mm, column) => (isInside(instrument, map, row, column) ? sign * mm : Number.NEGATIVE_INFINITY)),
    );
    const { regions } = peakRegions(onBoard, {
      threshold: thresholdMm,
      prominence: 1 / 3,
      leastProminence: 3 * surface.noiseMm,
    });
    const members = readingsByRegion(wear, map, regions);
    return regions.flatMap((cells, i) => {
      const place = describe(cells, members[i], sign, { map, surface, instrument, gauge });
      return place && place.depthMm >= thresholdMm ? [place] : [];
    });
  };
  return [...find(1), ...find(-1)].sort((a, b) => b.depthMm - a.depthMm);
}

/** The least wear that is told from noise and worth naming, mm. */
export function leastWearMm(surface: UnwornSurface, instrument: Instrument, readings: number): number {
  const byChance = normalQuantile(1 - 0.01 / readings);
  return Math.max(byChance * surface.noiseMm, instrument.dressAtMm.value / 5);
}

type Scene = { map: WearMap; surface: UnwornSurface; instrument: Instrument; gauge: Gauge };

function describe(
  cells: readonly Cell[],
  members: readonly WornReading[],
  sign: 1 | -1,
  scene: Scene,
): FoundPlace | null {
  if (members.length === 0) return null;
  const { map, surface, instrument, gauge } = scene;
  const deepestReading = members.reduce((most, reading) =>
    sign * reading.wearMm > sign * most.wearMm ? reading : most,
  );
  const columns = cells.map((cell) => map.xMm[cell.column]);
  const rows = cells.map((cell) => map.yMm[cell.row]);
  const xMm = [least(columns), greatest(columns)] as const;
  const yMm = [least(rows), greatest(rows)] as const;
  const cellMm2 = (map.xMm[1] - map.xMm[0]) * (map.yMm[1] - map.yMm[0]);
  const depthMm = sign * deepestReading.wearMm;
  const kind = sign < 0 ? "hump" : kindOf(xMm, widestAcrossMm(cells, map), deepestReading, instrument);
  const { string, note, position } = namePlace(instrument, deepestReading);
  return {
    kind,
    string,
    note,
    position,
    depthMm,
    u: coverageFactor * wearUncertaintyMm(surface, gauge, deepestReading.xMm, deepestReading.yMm),
    atLeast: kind === "string rut" && tipMayHang(depthMm, instrument, gauge),
    xMm,
    yMm,
    areaMm2: cells.length * cellMm2,
    volumeMm3: cells.reduce((sum, { row, column }) => sum + sign * map.wearMm[row][column], 0) * cellMm2,
    deepestReading,
    members,
  };
}

function kindOf(
  xMm: readonly [number, number],
  widthMm: number,
  deepest: WornReading,
  instrument: Instrument,
): PlaceKind {
  const spacingMm = spacingAtMm(instrument, deepest.xMm);
  if (widthMm > 1.75 * spacingMm) return "broad wear";
  const isLong = xMm[1] - xMm[0] > instrument.boardLengthMm.value / 7;
  const isOnPath = Math.abs(nearestString(instrument, deepest).offsetMm) < spacingMm / 4;
  return isLong && isOnPath ? "string rut" : "finger pit";
}

/**
 * Whether a ball may hang on the rims of a rut of this depth. Where the rut's width was measured: the depth is at least four
 * fifths of what the ball can reach in it. Where it was not: a rut of usual width would stop the ball at this depth or
 * deeper, so the reading can't tell a shallow rut from a deep one.
 */
function tipMayHang(depthMm: number, instrument: Instrument, gauge: Gauge): boolean {
  if (gauge.tipRadiusMm === 0) return false;
  const reach = reachMm(gauge.tipRadiusMm, instrument.rutWidthMm.value);
  return instrument.rutWidthMm.source === "given"
    ? depthMm >= 0.8 * reach
    : depthMm <= 1.1 * reach && Number.isFinite(reach);
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

function readingsByRegion(wear: WearAtReadings, map: WearMap, regions: readonly (readonly Cell[])[]) {
  const columns = map.xMm.length;
  const regionOfCell = new Map<number, number>();
  regions.forEach((cells, region) => {
    for (const { row, column } of cells) regionOfCell.set(row * columns + column, region);
  });
  const members: WornReading[][] = regions.map(() => []);
  for (const reading of wear.readings) {
    const column = Math.round((reading.xMm - map.xMm[0]) / (map.xMm[1] - map.xMm[0]));
    const row = Math.round((reading.yMm - map.yMm[0]) / (map.yMm[1] - map.yMm[0]));
    const region = regionOfCell.get(row * columns + column);
    if (region !== undefined) members[region].push(reading);
  }
  return members;
}

function least(numbers: readonly number[]): number {
  return numbers.reduce((a, b) => Math.min(a, b));
}

function greatest(numbers: readonly number[]): number {
  return numbers.reduce((a, b) => Math.max(a, b));
}
