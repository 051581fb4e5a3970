/**
 * What one map shows: its field, the full depth of its shading, and the contours that suit it.
 *
 * Examination and kind of map -> Sheet, mm. Humps are negative wear turned round, so that the highest is the deepest shade. Contours
 * within the noise of the readings are left out: they would draw noise. Without a plan there is no planing field.
 */
import type { Examination, Maps } from "../../server/core/examination.ts";
import { contourLevels, evenLevels } from "./contourLines.ts";
import { deepestOf, type Field, fieldOf } from "./field.ts";
import type { MapKind } from "./palette.ts";
import { noiseFloorMm } from "./soundings.ts";

export type Sheet = {
  readonly kind: MapKind;
  /** What the shading means, for the legend. */
  readonly legend: string;
  readonly field: Field | null;
  /** Depth up to which the shading stays bare paper: it can't be told from noise. */
  readonly floorMm: number;
  /** Depth of the deepest shade. */
  readonly fullMm: number;
  readonly levelsMm: readonly number[];
};

const legends: Readonly<Record<MapKind, string>> = { wear: "lost", cut: "to take off", humps: "too high" };

export function sheetOf(examination: Examination, kind: MapKind): Sheet {
  const { maps, planing } = examination;
  const legend = legends[kind];
  if (maps === null || (kind === "cut" && planing === null))
    return { kind, legend, field: null, floorMm: 0, fullMm: 0.05, levelsMm: [] };
  const depths = depthsOf(maps, kind);
  const deepestMm = deepestOf(depths);
  const floorMm = kind === "cut" ? 0 : noiseFloorMm(examination);
  return {
    kind,
    legend,
    field: fieldOf(maps, depths),
    floorMm,
    fullMm: fullDepthMm(deepestMm),
    levelsMm: kind === "cut" ? evenLevels(deepestMm) : contourLevels(deepestMm).filter((level) => level > floorMm),
  };
}

/** A depth as a share of the shading's range: 0 within the noise and where nothing is known, 1 at the full depth. */
export function shadeOf(sheet: Sheet, depthMm: number): number {
  return Number.isNaN(depthMm) ? 0 : Math.max(0, depthMm - sheet.floorMm) / (sheet.fullMm - sheet.floorMm);
}

function depthsOf(maps: Maps, kind: MapKind): Maps["wearMm"] {
  if (kind === "cut") return maps.cutMm;
  if (kind === "wear") return maps.wearMm;
  return maps.wearMm.map((row) => row.map((wear) => (wear === null ? null : -wear)));
}

/** The shading's full depth: the least round figure not below the deepest place, mm. */
function fullDepthMm(deepestMm: number): number {
  const full = [0.1, 0.15, 0.2, 0.25, 0.3, 0.4, 0.5, 0.6, 0.8, 1, 1.5, 2, 3, 5];
  return full.find((mm) => mm >= deepestMm) ?? deepestMm;
}
