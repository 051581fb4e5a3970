/**
 * What the bench itself adds to a height, beside noise: how the rail lay, its bow, the gauge's drift, strings let slack.
 *
 * In: recipe, place, how far the round had come (0 its first reading, 1 its last). Out: mm that the gauge shows too high.
 * A board let slack lies higher by p · 4u(1 − u) in the middle: p at pitch less p slack, linear from the lowest string to the highest.
 */
import { stringYMm } from "./plan.ts";
import type { Recipe, SetUp } from "./recipe.ts";

export type PlaceInRound = {
  readonly xMm: number;
  readonly yMm: number;
  readonly setUp: SetUp | null;
  readonly shareOfRound: number;
};

export function shownTooHighMm(recipe: Recipe, place: PlaceInRound): number {
  const { bench } = recipe;
  if (bench === undefined) return fromSetUpMm(place);
  return (
    fromSetUpMm(place) +
    (bench.driftMm ?? 0) * place.shareOfRound +
    (bench.rail === undefined ? 0 : railErrorMm(recipe, place.xMm)) +
    (bench.slack === undefined ? 0 : slackMm(recipe, bench.slack, place))
  );
}

/** A rail that bows: highest in the middle of the board, 0 at its ends. */
export function railErrorMm({ plan, bench }: Recipe, xMm: number): number {
  const u = xMm / plan.lengthMm;
  return (bench?.rail?.bowMm ?? 0) * 4 * u * (1 - u);
}

/** A pass along tilts along, a pass across (one crossline) tilts across. */
function fromSetUpMm({ xMm, yMm, setUp }: PlaceInRound): number {
  if (setUp === null) return 0;
  return setUp.heightMm + setUp.slope * (setUp.crosslinesMm.length === 1 ? yMm : xMm);
}

function slackMm(
  { plan }: Recipe,
  pull: { readonly lowestMm: number; readonly highestMm: number },
  { xMm, yMm }: PlaceInRound,
): number {
  const u = xMm / plan.lengthMm;
  const lowestY = stringYMm(plan, plan.strings[0]!, xMm);
  const share = (yMm - lowestY) / (stringYMm(plan, plan.strings.at(-1)!, xMm) - lowestY);
  return (pull.lowestMm + (pull.highestMm - pull.lowestMm) * share) * 4 * u * (1 - u);
}
