/**
 * The lines plan: the board cut lengthwise under each string (profiles) and crosswise at the crosslines (sections).
 *
 * Each holds the present surface, the unworn one and the target, and what is laid on the present surface: a straightedge
 * along, a template of the target's radius across. Heights in mm, in the gauge's frame.
 */
import type { Instrument } from "../board/instrument.ts";
import { halfWidthMm } from "../board/outline.ts";
import { stringYMm } from "../board/stringPaths.ts";
import type { Profile, Section } from "../examination.ts";
import { heightMm, radiusAtMm, type SurfaceShape } from "../surface/idealSurface.ts";
import { layStraightedge } from "../surface/straightedge.ts";
import { layTemplate } from "../surface/template.ts";
import { type UnwornSurface, unwornHeightMm } from "../surface/unwornSurface.ts";
import { type WearMap, wearOfMapMm } from "../wear/wearMap.ts";

const stationsAlong = 121;
const stationsAcross = 41;

export function profiles(
  surface: UnwornSurface,
  map: WearMap,
  target: SurfaceShape | null,
  instrument: Instrument,
): readonly Profile[] {
  const xMm = spaced(0, instrument.boardLengthMm.value, stationsAlong);
  return instrument.strings.map((string, index): Profile => {
    const yMm = xMm.map((x) => stringYMm(instrument, index, x));
    const { measuredMm, unwornMm, targetMm } = heights(surface, map, target, xMm, yMm);
    return {
      string,
      xMm,
      yMm,
      measuredMm,
      unwornMm,
      targetMm,
      straightedgeMm: layStraightedge(xMm, measuredMm).undersideMm,
    };
  });
}

/** `shapeOfTemplate` gives the radius of the template at each crossline: the target's, or what the workshop asks for. */
export function sections(
  surface: UnwornSurface,
  map: WearMap,
  target: SurfaceShape | null,
  shapeOfTemplate: SurfaceShape,
  crosslinesMm: readonly number[],
  instrument: Instrument,
): readonly Section[] {
  return crosslinesMm.map((x): Section => {
    const half = halfWidthMm(instrument, x);
    const yMm = spaced(-half, half, stationsAcross);
    const { measuredMm, unwornMm, targetMm } = heights(
      surface,
      map,
      target,
      yMm.map(() => x),
      yMm,
    );
    const templateRadiusMm = radiusAtMm(shapeOfTemplate, x / surface.plan.lengthMm);
    const templateMm = layTemplate(yMm, measuredMm, templateRadiusMm);
    return { xMm: x, yMm, measuredMm, unwornMm, targetMm, templateMm, templateRadiusMm };
  });
}

function heights(
  surface: UnwornSurface,
  map: WearMap,
  target: SurfaceShape | null,
  xMm: readonly number[],
  yMm: readonly number[],
) {
  const unwornMm = xMm.map((x, i) => unwornHeightMm(surface, x, yMm[i]));
  return {
    unwornMm,
    measuredMm: unwornMm.map((z, i) => z - wearOfMapMm(map, xMm[i], yMm[i])),
    targetMm: target && xMm.map((x, i) => heightMm(surface.plan, target, x, yMm[i])),
  };
}

function spaced(from: number, to: number, count: number): readonly number[] {
  return Array.from({ length: count }, (_, i) => from + ((to - from) * i) / (count - 1));
}
