/**
 * What an examination says, beside what is really there.
 *
 * In: an examination and the made board it came from. Out: every difference, mm, each beside the uncertainty that the
 * examination states for it. Tests decide what is allowed. Readings are matched by their order in the file.
 */
import type { MadeBoard } from "../../data/make/board.ts";
import type { Examination } from "../../server/core/examination.ts";
import { known } from "./known.ts";

/** A stated value less the true one, and the expanded uncertainty stated with it. */
export type Difference = { readonly what: string; readonly offMm: number; readonly u: number };

export type Comparison = {
  /** Unworn surface, and wear as far as the tip can show it, at every reading: root mean square and largest difference. */
  readonly unwornRmsMm: number;
  readonly wearRmsMm: number;
  readonly wearWorstMm: number;
  /** How far the deepest place lies from the truly deepest reading; null: none is named. */
  readonly deepestPlaceOffMm: number | null;
  readonly deepest: Difference | null;
  readonly hollows: readonly Difference[];
  readonly radii: readonly Difference[];
  readonly twist: Difference;
  readonly thinnestBefore: Difference | null;
};

export function compareWithTruth(examination: Examination, made: MadeBoard): Comparison {
  const { truth } = made;
  const { surface, deepest, thickness, points } = examination;
  if (points.length !== truth.readings.length) {
    throw new Error(`${points.length} points for ${truth.readings.length} readings`);
  }
  const unwornOff = points.map((point) => point.unwornMm - made.unwornHeightMm(point.xMm, point.yMm));
  const wearOff = points.map((point, i) => point.wearMm - truth.readings[i]!.shownMm);
  const { deepestReading } = truth;
  const ends = ["nut", "middle", "end"] as const;
  return {
    unwornRmsMm: rms(unwornOff),
    wearRmsMm: rms(wearOff),
    wearWorstMm: Math.max(...wearOff.map(Math.abs)),
    deepestPlaceOffMm: deepest && Math.hypot(deepest.xMm - deepestReading.xMm, deepest.yMm - deepestReading.yMm),
    deepest: deepest && { what: "deepest wear", offMm: deepest.depthMm - deepestReading.depthMm, u: deepest.u },
    hollows: surface.hollows.map(({ string, hollowMm }, i) => ({
      what: `hollow under ${string}`,
      offMm: hollowMm.value - truth.hollowsMm[i]!,
      u: hollowMm.u,
    })),
    radii: ends.map((end) => ({
      what: `radius at ${end}`,
      offMm: known(surface.camberRadiusMm[end]).value - truth.radiusMm[end],
      u: known(surface.camberRadiusMm[end]).u,
    })),
    twist: { what: "twist", offMm: known(surface.twistMm).value - truth.twistMm, u: known(surface.twistMm).u },
    thinnestBefore: thickness && {
      what: "thinnest edge before",
      offMm: thickness.before.value - trueThicknessMm(made, thickness.before.xMm, thickness.before.side),
      u: thickness.before.u,
    },
  };
}

function trueThicknessMm(made: MadeBoard, xMm: number, side: string): number {
  const place = made.truth.thickness.find((one) => one.xMm === xMm && one.side === side);
  if (place === undefined) throw new Error(`no thickness was read at ${xMm} ${side}`);
  return place.thicknessMm;
}

function rms(differences: readonly number[]): number {
  return Math.sqrt(differences.reduce((sum, off) => sum + off * off, 0) / differences.length);
}
