/**
 * The one reading more that would narrow a quick look most: for whatever comes nearest to its limit, in its own uncertainty.
 *
 * With a surface behind the look every place on the lines is tried, and the one that takes most off the variance is told
 * (oneMoreReading.ts). Without one: the gap again, where it is largest or, for a radius, at the crossline's edge. Lengths in mm.
 */
import type { Instrument } from "../board/instrument.ts";
import { halfWidthMm } from "../board/outline.ts";
import { stringYMm } from "../board/stringPaths.ts";
import type { NextReading } from "../examination.ts";
import { radiusAtMm } from "../surface/idealSurface.ts";
import { readingsThatNarrow } from "../surface/oneMoreReading.ts";
import { hollowOfShape } from "../surface/straightedge.ts";
import type { UnwornSurface } from "../surface/unwornSurface.ts";
import { coverageFactor, type Place } from "../units.ts";
import type { LookedHollow, LookedRadius } from "./looked.ts";
import { outsideMm } from "./looked.ts";
import type { Respect } from "./respects.ts";

export function nextLook(
  open: readonly Respect[],
  surface: UnwornSurface | null,
  what: "height" | "gap",
  instrument: Instrument,
): NextReading | null {
  const nearest = open
    .flatMap(({ of }) => (of === null ? [] : [of]))
    .sort((a, b) => distanceOf(a) - distanceOf(b))
    .at(0);
  if (nearest === undefined) return null;
  return surface === null ? again(nearest, what, instrument) : onSurface(nearest, surface, instrument);
}

function isHollow(of: LookedHollow | LookedRadius): of is LookedHollow {
  return "hollowMm" in of;
}

/** How far from its limit, in units of its uncertainty. */
function distanceOf(of: LookedHollow | LookedRadius): number {
  const { value, u } = isHollow(of) ? of.hollowMm : of.radiusMm;
  return Math.abs(outsideMm(value, of.withinMm)) / u;
}

function onSurface(of: LookedHollow | LookedRadius, surface: UnwornSurface, instrument: Instrument): NextReading {
  const { plan } = surface;
  const quantity: Parameters<typeof readingsThatNarrow>[1] = isHollow(of)
    ? (shape, form) => hollowOfShape(plan, shape, of.yAtMm, form).hollowMm
    : (shape) => radiusAtMm(shape, of.xMm / plan.lengthMm);
  const [best] = readingsThatNarrow(surface, quantity, candidates(instrument), 1);
  if (best === undefined) throw new Error("a board without a place to read");
  const { xMm, yMm } = best.place;
  const u = isHollow(of) ? of.hollowMm.u : of.radiusMm.u;
  const after = coverageFactor * Math.sqrt(best.variance);
  const decimals = isHollow(of) ? 2 : 1;
  const narrows = `from ± ${u.toFixed(decimals)} mm to about ± ${Math.min(u, after).toFixed(decimals)} mm`;
  return {
    xMm,
    yMm,
    what: "height",
    says: `One more height at ${Math.round(xMm)} mm from the nut, ${acrossInWords(yMm)}, narrows the ${nameOf(of)} most: ${narrows}.`,
  };
}

/** Along every string and the centreline, at every twentieth of the length; nothing is read at the very ends. */
function candidates(instrument: Instrument): readonly Place[] {
  const lengthMm = instrument.boardLengthMm.value;
  const along = Array.from({ length: 19 }, (_, i) => (lengthMm * (i + 1)) / 20);
  return along.flatMap((xMm) => [
    ...instrument.strings.map((_, index) => ({ xMm, yMm: stringYMm(instrument, index, xMm) })),
    { xMm, yMm: 0 },
  ]);
}

function again(of: LookedHollow | LookedRadius, what: "height" | "gap", instrument: Instrument): NextReading {
  if (isHollow(of)) {
    const xMm = of.deepestAtMm;
    const tool = what === "gap" ? "Measure the gap again with thinner leaves" : "Read the height once more";
    const says = `${tool}, ${Math.round(xMm)} mm from the nut ${of.where}, where the hollow is deepest.`;
    return { xMm, yMm: of.yAtMm(xMm), what, says };
  }
  const { xMm } = of;
  const yMm = Math.max(0, halfWidthMm(instrument, xMm) - instrument.edgeInsetMm.value);
  const tool = what === "gap" ? "Measure the gap under the template" : "Read the height";
  const says = `${tool} once more ${Math.round(xMm)} mm from the nut, close to the edge: there the radius shows most.`;
  return { xMm, yMm, what, says };
}

function nameOf(of: LookedHollow | LookedRadius): string {
  return isHollow(of) ? `hollow ${of.where}` : `radius ${Math.round(of.xMm)} mm from the nut`;
}

function acrossInWords(yMm: number): string {
  if (Math.abs(yMm) < 0.05) return "on the centreline";
  return `${Math.abs(yMm).toFixed(1)} mm to the ${yMm < 0 ? "bass" : "treble"} side`;
}
