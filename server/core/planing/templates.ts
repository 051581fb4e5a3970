/**
 * The workshop's own templates compared: what the least cut would be if the board were brought to each one's radius, the same all
 * along, and how many dressings would be left then. Lengths in mm.
 */
import type { Instrument } from "../board/instrument.ts";
import type { Job } from "../board/settings.ts";
import type { Planing } from "../examination.ts";
import type { UnwornSurface } from "../surface/unwornSurface.ts";
import { type CutPlan, type PlanTask, planBoard } from "./planingPlan.ts";
import { targetChoice } from "./targetChoice.ts";

/** A radius that no target can have on this board is left out. */
export function templatesCompared(
  task: PlanTask,
  surface: UnwornSurface,
  instrument: Instrument,
  job: Job,
  dressingsLeft: (plan: CutPlan) => number | null,
): Planing["templates"] {
  return job.templateRadiiMm.flatMap((radiusMm) => {
    const plan = planBoard({
      ...task,
      choice: targetChoice(surface, ofRadius(instrument, radiusMm), workshopJob(job)),
    });
    return plan ? [{ radiusMm, planeOffMm: plan.deepestMm, dressingsLeft: dressingsLeft(plan) }] : [];
  });
}

function ofRadius(instrument: Instrument, radiusMm: number): Instrument {
  const radius = { value: radiusMm, source: "given", origin: "the workshop's template" } as const;
  return {
    ...instrument,
    radiusNutMm: radius,
    radiusMiddleMm: radius,
    radiusEndMm: radius,
    radiusBandMm: { ...radius, value: 0 },
  };
}

function workshopJob(job: Job): Job {
  return { ...job, aim: "workshop" };
}
