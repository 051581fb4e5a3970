/**
 * Soundings: which readings stand on the chart as a number, and which as a dot.
 *
 * Points and a field's quantity -> marks in px. Repeats of a place are averaged. A reading within its noise (2 standard deviations) is a
 * small dot: it says "read, nothing found". The rest are written in hundredths of a millimetre, the deepest first, wherever there
 * is room; one without room is a full dot. Drawing nearer makes room for more.
 */
import type { Examination, Point } from "../../server/core/examination.ts";
import { type Clearing, textBox } from "./clearing.ts";
import { soundingText } from "./format.ts";
import type { MapKind } from "./palette.ts";
import type { PlanScales } from "./scales.ts";

export type Sounding = {
  readonly xMm: number;
  readonly yMm: number;
  readonly depthMm: number;
  readonly show: "number" | "crowded" | "noise";
};

const soundingSizePx = 13;

/** Depth below which a reading can't be told from noise, mm: two standard deviations. */
export function noiseFloorMm(examination: Examination): number {
  return 2 * Math.max(examination.surface.noiseMm, examination.readings.repeatSdMm ?? 0);
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
): readonly Sounding[] {
  const floorMm = noiseFloorMm(examination);
  const places = averaged(examination.points, kind);
  const byDepth = [...places].sort((a, b) => b.depthMm - a.depthMm);
  const dots = new Set<string>();
  const marks: Sounding[] = [];
  for (const place of byDepth) {
    const x = scales.x(place.xMm);
    const y = scales.y(place.yMm);
    const isSure = place.depthMm >= floorMm || kind === "cut";
    const text = soundingText(place.depthMm);
    if (isSure && room.claim(textBox(x, y, text, soundingSizePx))) {
      marks.push({ ...place, show: "number" });
      continue;
    }
    const cell = `${Math.round(x / 4)} ${Math.round(y / 4)}`;
    if (dots.has(cell)) continue;
    dots.add(cell);
    if (room.isFree({ left: x - 1.5, right: x + 1.5, top: y - 1.5, bottom: y + 1.5 })) {
      marks.push({ ...place, show: isSure ? "crowded" : "noise" });
    }
  }
  return marks;
}

function averaged(points: readonly Point[], kind: MapKind): readonly { xMm: number; yMm: number; depthMm: number }[] {
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
  return [...places.values()].map(({ xMm, yMm, sumMm, count }) => ({ xMm, yMm, depthMm: sumMm / count }));
}
