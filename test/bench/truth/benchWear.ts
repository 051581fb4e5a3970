/**
 * Wear for the bench's boards: pits under fingers, ruts under strings, broad wear, until the asked share of the readings is worn.
 *
 * In: plan, places read, share of them to be worn (from, to), a random source. Out: marks whose deepest reading is 0.05 to
 * 0.7 mm deep, most of them in the half towards the nut, where boards wear; none that wears no further reading. A reading counts
 * as worn from 0.002 mm on.
 */
import { halfWidthMm, stringYMm } from "../../../data/make/plan.ts";
import type { Random } from "../../../data/make/random.ts";
import type { Plan, WearMark } from "../../../data/make/recipe.ts";
import { fingerPit, stringRut, wearField } from "../../../data/make/wear.ts";

/** Wear below this, mm, is none: the oracle fits what is below it. */
export const unwornBelowMm = 0.002;
const deepestMm = 0.7;
const mostTries = 1000;

type Spot = { readonly xMm: number; readonly yMm: number };
export type Band = readonly [from: number, to: number];

export function benchWear(plan: Plan, spots: readonly Spot[], [from, to]: Band, random: Random): readonly WearMark[] {
  if (to === 0) return [];
  const depthMm = 0.05 * (deepestMm / 0.05) ** random.uniform();
  const wanted = Math.max(from, 0.5 / spots.length) + random.between(0.1, 0.9) * (to - from);
  let marks: readonly WearMark[] = [];
  let share = 0;
  for (let tries = 0; tries < mostTries && share < wanted; tries++) {
    const more = [...marks, anyMark(plan, depthMm, random)];
    const moreShare = wornShare(plan, more, spots);
    const isTooDeep = spots.some(({ xMm, yMm }) => wearField(plan, more)(xMm, yMm) > deepestMm);
    if (isTooDeep || moreShare <= share || moreShare > to) continue;
    marks = more;
    share = moreShare;
  }
  return marks;
}

function wornShare(plan: Plan, marks: readonly WearMark[], spots: readonly Spot[]): number {
  const depthMm = wearField(plan, marks);
  return spots.filter(({ xMm, yMm }) => depthMm(xMm, yMm) >= unwornBelowMm).length / spots.length;
}

/** Six in ten a finger pit, two a string's rut, two broad wear; at most as deep as asked. */
function anyMark(plan: Plan, mostMm: number, random: Random): WearMark {
  const string = plan.strings[Math.floor(random.uniform() * plan.strings.length)]!;
  const depthMm = mostMm * random.between(0.4, 1);
  const semitones = 1 + Math.floor(16 * random.uniform() ** 2);
  const what = random.uniform();
  if (what < 0.6) {
    const size = {
      halfLengthMm: random.between(0.02, 0.05) * plan.lengthMm,
      halfWidthMm: random.between(0.12, 0.3) * plan.widthNutMm,
    };
    return fingerPit(plan, string, semitones, depthMm, size, random.between(-0.3, 0.3));
  }
  if (what < 0.8) {
    const length = 2 + Math.floor(8 * random.uniform());
    return stringRut(plan, string, [semitones, semitones + length], random.between(2.5, 5), depthMm / 2);
  }
  const xMm = random.between(0.1, 0.6) * plan.lengthMm;
  return {
    mark: "pit",
    xMm,
    yMm: stringYMm(plan, string, xMm),
    halfLengthMm: random.between(0.08, 0.25) * plan.lengthMm,
    halfWidthMm: random.between(0.3, 0.9) * halfWidthMm(plan, xMm),
    depthMm,
  };
}
