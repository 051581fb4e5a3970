/**
 * What the readings leave open, as reasons: a rut that the tip could not bottom or get into, wear lost in the scatter, a string
 * that no line runs near.
 *
 * None of them ever lets a board pass as plainly sound. Lengths in mm.
 */
import type { Reason } from "../examination.ts";
import type { Facts } from "./decide.ts";
import { type Findings, rutTooNarrow, stringWithoutLine } from "./findings.ts";
import { notRead, notShown } from "./sayings.ts";

export function openReasons(findings: Findings, facts: Facts): readonly Reason[] {
  return [
    ...camberReasons(facts),
    ...tipReasons(findings),
    ...blindReasons(findings),
    ...pathReasons(findings),
    ...noiseReasons(findings, facts),
  ];
}

function camberReasons({ isCamberUntold }: Facts): readonly Reason[] {
  if (!isCamberUntold) return [];
  return [
    {
      code: "untied",
      says: "Nothing ties the set-ups to each other across the board, so the arc across can't be told, nor the least cut. Take two or three passes across, each a set-up of its own.",
      valueMm: null,
      u: null,
      limitMm: null,
      origin: null,
      probability: null,
    },
  ];
}

function tipReasons({ wornPlaces }: Findings): readonly Reason[] {
  const unsure = wornPlaces.find((place) => place.atLeast);
  if (!unsure) return [];
  return [
    {
      code: "tip",
      says: `The wear under the ${unsure.string} string goes at least this deep: if it is a narrow rut, the ball hangs on its rims. Read it again with a finer tip, or measure the rut's width (rut_width).`,
      valueMm: unsure.depthMm,
      u: unsure.u,
      limitMm: null,
      origin: null,
      probability: null,
    },
  ];
}

function blindReasons(findings: Findings): readonly Reason[] {
  const tooNarrow = rutTooNarrow(findings);
  if (tooNarrow === null) return [];
  const { instrument, gauge } = findings;
  return [
    {
      code: "tip-blind",
      says: notShown(tooNarrow.string, `${instrument.rutWidthMm.value} mm wide`, gauge.tipRadiusMm),
      valueMm: null,
      u: null,
      limitMm: null,
      origin: null,
      probability: null,
    },
  ];
}

function pathReasons(findings: Findings): readonly Reason[] {
  const withoutLine = stringWithoutLine(findings);
  if (withoutLine === null) return [];
  const { string, place, widestRutMm } = withoutLine;
  const { instrument } = findings;
  return [
    {
      code: "coarse",
      says: notRead(string, place.xMm, widestRutMm),
      valueMm: null,
      u: null,
      limitMm: null,
      origin: `a rut here is taken to be ${instrument.rutWidthMm.value} mm wide, ${instrument.rutWidthMm.origin}`,
      probability: null,
    },
  ];
}

function noiseReasons({ shape, leastWearMm, instrument }: Findings, facts: Facts): readonly Reason[] {
  if (!facts.isWearHiddenByNoise) return [];
  return [
    {
      code: "noise",
      says: `The readings scatter so much that only wear from ${leastWearMm.toFixed(2)} mm on shows: a dressing is due sooner. Read again with a steadier rail.`,
      valueMm: shape.noiseMm,
      u: null,
      limitMm: instrument.dressAtMm.value,
      origin: instrument.dressAtMm.origin,
      probability: null,
    },
  ];
}
