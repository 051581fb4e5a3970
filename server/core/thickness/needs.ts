/**
 * What calls for a dressing: every respect in which the board may be worn or out of shape, with how far it is over its limit.
 *
 * `overMm` is the excess over the limit (negative: inside it). How sure a need is, and how likely, says conformity.ts. What stands
 * alone as a likely slip, or is deeper than the tip could tell, has no probability: neither is normal scatter. Lengths in mm.
 */
import type { Figure, Instrument } from "../board/instrument.ts";
import type { Job } from "../board/settings.ts";
import type { Reason, SurveyedSurface } from "../examination.ts";
import type { FoundPlace } from "../wear/wornPlaces.ts";
import { type Certainty, certaintyOf, probabilityOutside, probabilityOver } from "./conformity.ts";

/** What a need is about: a place on the board, the hollow under a string, or the arc somewhere along it. */
export type Subject =
  | { readonly of: "place"; readonly place: FoundPlace; readonly where: string; readonly standsAlone: boolean }
  | { readonly of: "hollow"; readonly stringIndex: number }
  | { readonly of: "camber"; readonly at: "nut" | "middle" | "end" };

export type Need = {
  readonly respect: "wear" | "hump" | "hollow" | "camber";
  readonly certainty: Certainty;
  readonly overMm: number;
  readonly reason: Reason;
  readonly subject: Subject;
};

export function needsOf(
  shape: SurveyedSurface,
  wornPlaces: readonly FoundPlace[],
  instrument: Instrument,
  job: Job,
): readonly Need[] {
  const surestFirst = [...wornPlaces].sort((a, b) => b.depthMm - b.u - (a.depthMm - a.u));
  const wear = surestFirst.filter((place) => place.kind !== "hump").slice(0, 1);
  const humps = surestFirst.filter((place) => place.kind === "hump").slice(0, 1);
  return [
    ...wear.map((place) => placeNeed("wear", place, instrument.dressAtMm)),
    ...humps.map((place) => placeNeed("hump", place, instrument.dressAtMm)),
    ...(job.aim === "own" ? [] : [...hollowNeeds(shape, instrument), ...camberNeeds(shape, instrument)]),
  ];
}

/** Wear deeper than this, mm, at one reading alone is more likely a slip: 1 mm is extreme (from memory). */
const loneWearMm = 1;

function placeNeed(respect: "wear" | "hump", place: FoundPlace, limit: Figure): Need {
  const overMm = place.depthMm - limit.value;
  const standsAlone = place.members.length === 1 && (respect === "hump" || place.depthMm > loneWearMm);
  const where = `under the ${place.string} string at ${place.note}, ${Math.round(place.deepestReading.xMm)} mm from the nut`;
  const what = respect === "wear" ? `Deepest wear (${place.kind})` : "Highest hump";
  return {
    respect,
    certainty: standsAlone && overMm > 0 ? "possible" : certaintyOf(overMm, place.u),
    overMm,
    reason: {
      code: respect,
      says: `${what} ${where}${standsAlone ? " (one reading stands alone, far from its neighbours: a slip?)" : ""}: a dressing is due from ${limit.value} mm.`,
      valueMm: place.depthMm,
      u: place.u,
      limitMm: limit.value,
      origin: limit.origin,
      probability:
        standsAlone || place.atLeast ? null : probabilityOver({ value: place.depthMm, u: place.u }, limit.value),
    },
    subject: { of: "place", place, where, standsAlone },
  };
}

function hollowNeeds(shape: SurveyedSurface, instrument: Instrument): readonly Need[] {
  return shape.hollows.map(({ string, hollowMm, withinMm: [from, to], state }, stringIndex): Need => {
    const overMm = Math.max(from - hollowMm.value, hollowMm.value - to);
    const isDeep = hollowMm.value > (from + to) / 2;
    const word = { within: "in its range", shallow: "too little", deep: "too much", humped: "a hump instead" }[state];
    return {
      respect: "hollow",
      certainty: certaintyOf(overMm, hollowMm.u),
      overMm,
      reason: {
        code: "hollow",
        says: `Hollow under the ${string} string: ${word}.`,
        valueMm: hollowMm.value,
        u: hollowMm.u,
        limitMm: isDeep ? to : from,
        origin: instrument.hollowToleranceMm.origin,
        probability: probabilityOutside(hollowMm, [from, to]),
      },
      subject: { of: "hollow", stringIndex },
    };
  });
}

export const crosslineInWords = { nut: "the nut", middle: "the middle", end: "the bridge end" } as const;

function camberNeeds(shape: SurveyedSurface, instrument: Instrument): readonly Need[] {
  const tolerance = instrument.radiusToleranceMm;
  const places = [
    { at: "nut", target: instrument.radiusNutMm.value },
    { at: "middle", target: instrument.radiusMiddleMm.value },
    { at: "end", target: instrument.radiusEndMm.value },
  ] as const;
  return places.map(({ at, target }): Need => {
    const measured = shape.camberRadiusMm[at];
    const departure = measured.value - target;
    const overMm = Math.abs(departure) - tolerance.value;
    const word = overMm <= 0 ? "in its range" : departure > 0 ? "too flat" : "too round";
    return {
      respect: "camber",
      certainty: certaintyOf(overMm, measured.u),
      overMm,
      reason: {
        code: "camber",
        says: `Camber radius at ${crosslineInWords[at]}: ${word}.`,
        valueMm: measured.value,
        u: measured.u,
        limitMm: target + Math.sign(departure) * tolerance.value,
        origin: tolerance.origin,
        probability: probabilityOutside(measured, [target - tolerance.value, target + tolerance.value]),
      },
      subject: { of: "camber", at },
    };
  });
}
