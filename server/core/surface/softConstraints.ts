/**
 * What is known of any fingerboard before a reading is taken, as soft constraints on its shape: combination = setting ± spread.
 *
 * Most are so wide that the readings of a survey leave nothing of them (they pull a radius by less than a thousandth of what it is
 * off); they only keep a fit with few readings, or with set-ups that nothing ties together, from running away. Where the
 * readings can't tell a respect of the shape (the taper of its radius, say), it is *assumed*: held to what is usual, by a narrow
 * spread that is also in every uncertainty. Lengths in mm, u0 a fraction, slopes mm per mm. Widths from memory.
 */
import type { Instrument } from "../board/instrument.ts";
import { type ParameterName, parameterNames, type SurfacePlan, type SurfaceShape } from "./idealSurface.ts";

/** A respect of the shape that readings may fail to tell. */
export type Respect = "camber" | "swell" | "taper" | "twist" | "facet";

/** What is assumed where a respect can't be told, in a luthier's words. */
export const assumedInWords: { readonly [respect in Respect]: string } = {
  camber: "the radius as it is set",
  swell: "no swell of the radius half way",
  taper: "the same radius at both ends",
  twist: "no twist",
  facet: "the flat's slope as the arc runs on",
};

export type SoftConstraint = {
  readonly combination: { readonly [name in ParameterName]?: number };
  readonly setting: number;
  readonly spread: number;
};

/** How far u0 may be off its setting: one standard deviation. */
const deepestSpread = 0.06;

export function softConstraints(
  instrument: Instrument,
  plan: SurfacePlan,
  assumed: ReadonlySet<Respect>,
): readonly SoftConstraint[] {
  const widthMm = instrument.widthEndMm.value;
  const held = (respect: Respect, free: number, usual: number): number => (assumed.has(respect) ? usual : free);
  const one = (name: ParameterName, setting: number, spread: number): SoftConstraint => ({
    combination: { [name]: 1 },
    setting,
    spread,
  });
  const radii = [
    { name: "radiusNutMm", setMm: instrument.radiusNutMm.value },
    { name: "radiusMiddleMm", setMm: instrument.radiusMiddleMm.value },
    { name: "radiusEndMm", setMm: instrument.radiusEndMm.value },
  ] as const;
  const facetSpread = held("facet", 0.5, 0.03);
  return [
    one("hollowDeepest", instrument.hollowDeepest.value, deepestSpread),
    one("crownNutMm", 0, 0.2 * widthMm),
    one("crownEndMm", 0, 0.2 * widthMm),
    ...radii.map(({ name, setMm }) =>
      assumed.has("camber") ? one(name, setMm, setMm / 10) : one(name, widthMm, widthMm),
    ),
    one("hollowLowestMm", 0, 5),
    one("hollowHighestMm", 0, 5),
    { combination: swell, setting: 0, spread: widthMm * held("swell", 0.5, 0.01) },
    { combination: taper, setting: 0, spread: widthMm * held("taper", 0.5, 0.03) },
    { combination: twist, setting: 0, spread: widthMm * held("twist", 0.2, 0.008) },
    ...(plan.ridge
      ? [
          one("facetSlopeNut", -plan.ridge.nutMm / instrument.radiusNutMm.value, facetSpread),
          one("facetSlopeEnd", -plan.ridge.endMm / instrument.radiusEndMm.value, facetSpread),
        ]
      : []),
  ];
}

const swell = { radiusMiddleMm: 1, radiusNutMm: -0.5, radiusEndMm: -0.5 } as const;
const taper = { radiusEndMm: 1, radiusNutMm: -1 } as const;
const twist = { crownEndMm: 1, crownNutMm: -1 } as const;

/**
 * A respect is told when its standard uncertainty is under this: for the camber and its swell and taper a tenth of the board's width
 * (which is about its radius), for twist six tenths of a degree, for a facet a slope of 0.05.
 */
export function untoldRespects(
  instrument: Instrument,
  plan: SurfacePlan,
  standardUncertaintyOf: (combination: SoftConstraint["combination"]) => number,
): readonly Respect[] {
  const widthMm = instrument.widthEndMm.value;
  const isUntold = (combination: SoftConstraint["combination"], most: number): boolean =>
    standardUncertaintyOf(combination) > most;
  return [
    ...(isUntold({ radiusMiddleMm: 1 }, 0.1 * widthMm) ? (["camber"] as const) : []),
    ...(isUntold(swell, 0.1 * widthMm) ? (["swell"] as const) : []),
    ...(isUntold(taper, 0.1 * widthMm) ? (["taper"] as const) : []),
    ...(isUntold(twist, 0.01 * widthMm) ? (["twist"] as const) : []),
    ...(plan.ridge && (isUntold({ facetSlopeNut: 1 }, 0.05) || isUntold({ facetSlopeEnd: 1 }, 0.05))
      ? (["facet"] as const)
      : []),
  ];
}

/** The combination's value on a shape. */
export function combinedOn(shape: SurfaceShape, combination: SoftConstraint["combination"]): number {
  return parameterNames.reduce((sum, name) => sum + (combination[name] ?? 0) * shape[name], 0);
}
