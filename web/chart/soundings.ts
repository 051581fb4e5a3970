/**
 * Soundings: which readings stand on the chart as a number, and which as a mark.
 *
 * Points and a field's quantity -> marks in px. Repeats of a place are averaged. A reading within its noise (2 standard deviations) is a
 * tiny dot: it says "read, nothing found". The rest are written in hundredths of a millimetre, the deepest first: over their
 * place where there is room, else beside a mark at their place, else as that mark alone. Drawing larger makes room for more.
 * However many readings there are, only the deepest of each small square of the drawing is looked at, so a scan stays cheap. The deepest
 * of many is deep by chance: of n readings of pure noise it lies about √(2 ln n) standard deviations out (the usual bound for the
 * greatest of n normal deviates), so a square's floor rises by what that exceeds one.
 */
import type { Examination, Point } from "../../server/core/examination.ts";
import type { PlaceMm } from "./board.ts";
import { type Box, type Clearing, textBox } from "./clearing.ts";
import { soundingText } from "./format.ts";
import type { MapKind } from "./palette.ts";
import type { PlanScales } from "./scales.ts";

export type Sounding = {
  readonly xMm: number;
  readonly yMm: number;
  readonly depthMm: number;
  readonly show: "number" | "beside" | "crowded" | "noise";
  /** From the place to the middle of its number, px. */
  readonly asidePx: number;
};

const soundingSizePx = 13;
/** Sides of the squares of which only the deepest reading is drawn, px: the least that leaves few enough to draw. */
const squaresPx = [8, 12, 18, 27, 40] as const;
const mostMarks = 700;
/** Half a mark's breadth, px. */
const markPx = 3;
/** Radius of the ring about the deepest place, px: its number claims the ring's room. */
export const ringPx = 12;

/** Depth below which a reading can't be told from noise, mm: two standard deviations. */
export function noiseFloorMm(examination: Examination): number {
  return 2 * Math.max(examination.surface.noiseMm ?? 0, examination.readings.repeatSdMm ?? 0);
}

/** What a point says on a map, mm: wood lost, wood to take off, or height of a hump; null where there is no plan. */
function soundedMm(point: Point, kind: MapKind): number | null {
  if (kind === "cut") return point.cutMm;
  return kind === "humps" ? -point.wearMm : point.wearMm;
}

export function soundings(
  examination: Examination,
  kind: MapKind,
  scales: PlanScales,
  room: Clearing,
  ringed: PlaceMm | null,
): readonly Sounding[] {
  const floorMm = noiseFloorMm(examination);
  const isRinged = (place: Place) => ringed !== null && Math.hypot(place.xMm - ringed[0], place.yMm - ringed[1]) < 0.5;
  const places = thinned(averaged(examination.points, kind), scales);
  const ringedFirst = [...places].sort((a, b) => Number(isRinged(b)) - Number(isRinged(a)) || b.depthMm - a.depthMm);
  return ringedFirst.flatMap((place): Sounding[] => {
    const x = scales.x(place.xMm);
    const y = scales.y(place.yMm);
    if (place.depthMm < floorAmongMm(floorMm, place.among) && kind !== "cut") {
      return room.isFree(around(x, y, 1.5)) ? [{ ...place, show: "noise", asidePx: 0 }] : [];
    }
    const text = soundingText(place.depthMm);
    const box = textBox(x, y, text, soundingSizePx, 0.5);
    if (room.claim(isRinged(place) ? union(box, around(x, y, ringPx)) : box)) {
      return [{ ...place, show: "number", asidePx: 0 }];
    }
    const asidePx = markPx + 2 + (box.right - box.left) / 2;
    for (const side of [asidePx, -asidePx]) {
      const both = union(around(x, y, markPx), textBox(x + side, y, text, soundingSizePx, 0.5));
      if (isInPlan(both, scales) && room.claim(both)) return [{ ...place, show: "beside", asidePx: side }];
    }
    return room.claim(around(x, y, markPx)) ? [{ ...place, show: "crowded", asidePx: 0 }] : [];
  });
}

/** A place read, and among how many it was the deepest. */
type Place = { readonly xMm: number; readonly yMm: number; readonly depthMm: number; readonly among: number };

/** The noise floor (two standard deviations) for the deepest of several readings, mm. */
function floorAmongMm(floorMm: number, among: number): number {
  return floorMm * Math.max(1, (1 + Math.sqrt(2 * Math.log(among))) / 2);
}

function averaged(points: readonly Point[], kind: MapKind): readonly Place[] {
  const places = new Map<string, { xMm: number; yMm: number; sumMm: number; count: number }>();
  for (const point of points) {
    const depthMm = soundedMm(point, kind);
    if (depthMm === null) continue;
    const key = `${point.givenXMm.toFixed(2)} ${point.givenYMm.toFixed(2)}`;
    const place = places.get(key);
    if (place === undefined) places.set(key, { xMm: point.xMm, yMm: point.yMm, sumMm: depthMm, count: 1 });
    else {
      place.sumMm += depthMm;
      place.count += 1;
    }
  }
  return [...places.values()].map(({ xMm, yMm, sumMm, count }) => ({ xMm, yMm, depthMm: sumMm / count, among: 1 }));
}

function thinned(places: readonly Place[], scales: PlanScales): readonly Place[] {
  let kept = places;
  for (const squarePx of squaresPx) {
    kept = deepestOfSquares(kept, scales, squarePx);
    if (kept.length <= mostMarks) break;
  }
  return kept;
}

function deepestOfSquares(places: readonly Place[], scales: PlanScales, squarePx: number): readonly Place[] {
  const [fromMm, toMm] = scales.x.domain() as [number, number];
  const deepest = new Map<number, Place>();
  for (const place of places) {
    if (place.xMm < fromMm || place.xMm > toMm) continue;
    const square = Math.floor(scales.y(place.yMm) / squarePx) * 100_000 + Math.floor(scales.x(place.xMm) / squarePx);
    const other = deepest.get(square);
    const among = place.among + (other?.among ?? 0);
    deepest.set(square, { ...(other === undefined || place.depthMm > other.depthMm ? place : other), among });
  }
  return [...deepest.values()];
}

const around = (x: number, y: number, px: number): Box => ({
  left: x - px,
  right: x + px,
  top: y - px,
  bottom: y + px,
});

const union = (a: Box, b: Box): Box => ({
  left: Math.min(a.left, b.left),
  right: Math.max(a.right, b.right),
  top: Math.min(a.top, b.top),
  bottom: Math.max(a.bottom, b.bottom),
});

const isInPlan = (box: Box, scales: PlanScales): boolean =>
  box.left > scales.margins.left && box.right < scales.widthPx - scales.margins.right;
