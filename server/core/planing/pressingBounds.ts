/**
 * Which bounds make the deepest cut as deep as it is, and what a little more room would save.
 *
 * The multiplier of a bound is what one unit more of it saves, for the first little of it: further on other places govern. Only a
 * bound that a setting makes is told: not the least radius that an arc can have on this board, nor that no target may be humped.
 *
 * in: plan, choice of targets, instrument -> out: savings in mm of deepest cut per mm of the setting, the greatest first.
 */
import type { Instrument } from "../board/instrument.ts";
import type { Planing } from "../examination.ts";
import { type BoundSetting, boundSettings, mmPerUnit, saidMm } from "./boundSettings.ts";
import type { CutPlan } from "./planingPlan.ts";
import type { TargetChoice } from "./targetChoice.ts";
import { placementNames } from "./targetSurface.ts";

/** A bound that saves less than this for one sensible step is not told, mm. */
const worthTellingMm = 0.005;

export function pressingBounds(plan: CutPlan, choice: TargetChoice, instrument: Instrument): Planing["boundBy"] {
  return boundSettings
    .map((setting) => ({ setting, savesMmPerMm: savingOf(setting, plan, choice, instrument) }))
    .filter(({ setting, savesMmPerMm }) => savesMmPerMm * setting.stepMm > worthTellingMm)
    .sort((a, b) => b.savesMmPerMm * b.setting.stepMm - a.savesMmPerMm * a.setting.stepMm)
    .map(({ setting, savesMmPerMm }) => ({
      setting: setting.key,
      savesMmPerMm,
      says:
        `${saidMm(setting.stepMm)} mm more ${setting.gives} (${setting.key}, now ${saidMm(instrument[setting.figure].value)} mm) ` +
        `would save up to ${saidMm(savesMmPerMm * setting.stepMm)} mm of the deepest cut.`,
    }));
}

function savingOf(
  { parameters, figure }: BoundSetting,
  { pressure }: CutPlan,
  { bounds, start }: TargetChoice,
  instrument: Instrument,
): number {
  return parameters.reduce((sum, name) => {
    const pressed = pressure[placementNames.indexOf(name)];
    const [lower, upper] = bounds[name];
    const ownReach = instrument[figure].value / mmPerUnit(name, instrument);
    const reach = pressed > 0 ? upper - start[name] : start[name] - lower;
    const isOfSetting = Math.abs(reach - ownReach) < 1e-9;
    return isOfSetting ? sum + Math.abs(pressed) / mmPerUnit(name, instrument) : sum;
  }, 0);
}
