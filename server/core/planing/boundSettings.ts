/**
 * The settings that bound a target's place, each with the parameters that it bounds.
 *
 * A bound in mm as the workshop writes it: projection_bound at the bridge, crown_bound across, the bands in radius and hollow.
 */
import type { Instrument } from "../board/instrument.ts";
import type { PlacementName } from "./targetSurface.ts";

export type BoundSetting = {
  readonly key: "projection_bound" | "crown_bound" | "radius_band" | "hollow_band";
  readonly figure: "projectionBoundMm" | "crownBoundMm" | "radiusBandMm" | "hollowBandMm";
  readonly parameters: readonly PlacementName[];
  /** What it gives room to, for a luthier: "… more …". */
  readonly gives: string;
  /** A step that a workshop would think of, mm. */
  readonly stepMm: number;
  /** Nobody would widen it by more than this, mm. */
  readonly mostMm: number;
};

export const boundSettings: readonly BoundSetting[] = [
  {
    key: "projection_bound",
    figure: "projectionBoundMm",
    parameters: ["pitch"],
    gives: "at the bridge",
    stepMm: 0.1,
    mostMm: 5,
  },
  {
    key: "crown_bound",
    figure: "crownBoundMm",
    parameters: ["crownNutMm", "crownEndMm"],
    gives: "for the crown to stand aside",
    stepMm: 0.1,
    mostMm: 5,
  },
  {
    key: "radius_band",
    figure: "radiusBandMm",
    parameters: ["radiusNutMm", "radiusMiddleMm", "radiusEndMm"],
    gives: "either way for the radius",
    stepMm: 0.5,
    mostMm: 10,
  },
  {
    key: "hollow_band",
    figure: "hollowBandMm",
    parameters: ["hollowLowestMm", "hollowHighestMm"],
    gives: "either way for the hollows",
    stepMm: 0.05,
    mostMm: 1,
  },
];

/** mm of the setting for one unit of the parameter: pitch is in mm per mm, told at the bridge. */
export function mmPerUnit(name: PlacementName, instrument: Instrument): number {
  return name === "pitch" ? instrument.stringLengthMm.value : 1;
}

/** A length as it is said: no more digits than a setting takes. */
export function saidMm(mm: number): string {
  return String(Number(mm.toFixed(2)));
}
