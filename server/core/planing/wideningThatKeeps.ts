/**
 * Where no target within the bounds leaves enough wood: which bound to widen, and by how much, so that one would.
 *
 * A target can always be let down, so there is always a plan; what the bounds may forbid is a plan that keeps every measured place
 * above its limit. For each bound alone the least widening is sought at which the plan that spares the thinnest place most keeps it
 * beyond the uncertainty. Lengths in mm.
 *
 * in: a plan and its task -> out: widenings, the smallest share of a sensible step first; none where the plan keeps enough.
 */
import type { Instrument } from "../board/instrument.ts";
import type { Job } from "../board/settings.ts";
import type { Planing } from "../examination.ts";
import type { UnwornSurface } from "../surface/unwornSurface.ts";
import { type BoundSetting, boundSettings, saidMm } from "./boundSettings.ts";
import { type CutPlan, leavesTooLittle, mostToSpare, type PlanTask } from "./planingPlan.ts";
import { targetChoice } from "./targetChoice.ts";

export function wideningOf(
  task: PlanTask,
  plan: CutPlan,
  surface: UnwornSurface,
  instrument: Instrument,
  job: Job,
): Planing["widening"] {
  if (!leavesTooLittle(task, plan)) return [];
  return wideningsThatKeep((setting, byMm) => {
    const wider = { ...instrument[setting.figure], value: instrument[setting.figure].value + byMm };
    const choice = targetChoice(surface, { ...instrument, [setting.figure]: wider }, job);
    return mostToSpare({ ...task, choice }, plan)?.mm ?? null;
  });
}

/** With a bound widened by so much: the least that is left above a limit, beyond the uncertainty; null where nobody knows. */
type SpareWith = (setting: BoundSetting, byMm: number) => number | null;

/** Widenings are told to a hundredth, rounded up. */
const graduationMm = 0.01;
const mostTrials = 12;

function wideningsThatKeep(spareWith: SpareWith): Planing["widening"] {
  return boundSettings
    .flatMap((setting) => {
      const byMm = leastWidening(setting, spareWith);
      return byMm === null ? [] : [{ setting, byMm }];
    })
    .sort((a, b) => a.byMm / a.setting.stepMm - b.byMm / b.setting.stepMm)
    .map(({ setting, byMm }) => ({
      setting: setting.key,
      byMm,
      says: `A target that leaves enough wood needs ${saidMm(byMm)} mm more ${setting.gives} (${setting.key}).`,
    }));
}

/** Halving towards the least widening that keeps every place, helped by a straight line; null where even the most does not. */
function leastWidening(setting: BoundSetting, spareWith: SpareWith): number | null {
  let tooLittle = { byMm: 0, spareMm: spareWith(setting, 0) ?? 0 };
  let enough = { byMm: setting.mostMm, spareMm: spareWith(setting, setting.mostMm) ?? -1 };
  if (tooLittle.spareMm >= 0 || enough.spareMm < 0) return null;
  for (let trial = 0; trial < mostTrials && enough.byMm - tooLittle.byMm > graduationMm; trial += 1) {
    const straight = tooLittle.spareMm / (tooLittle.spareMm - enough.spareMm);
    const share = trial % 2 === 0 ? Math.min(Math.max(straight * 1.02, 0.02), 0.98) : 0.5;
    const byMm = tooLittle.byMm + share * (enough.byMm - tooLittle.byMm);
    const spareMm = spareWith(setting, byMm) ?? -1;
    if (spareMm >= 0) enough = { byMm, spareMm };
    else tooLittle = { byMm, spareMm };
  }
  return Math.ceil(enough.byMm / graduationMm - 1e-6) * graduationMm;
}
