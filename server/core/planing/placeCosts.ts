/**
 * What each worn place costs: the plane-off depth less what it would be if that place alone were left or filled, mm.
 *
 * A place on which the plan does not rest costs nothing; the others are priced by solving the programme without them.
 */
import type { WornPlace } from "../examination.ts";
import type { WornReading } from "../wear/wearAtReadings.ts";
import type { FoundPlace } from "../wear/wornPlaces.ts";
import { type CutPlan, deepestCutWithoutMm, type PlanTask } from "./planingPlan.ts";

export function placesWithCost(
  found: readonly FoundPlace[],
  plan: CutPlan | null,
  task: PlanTask,
): readonly WornPlace[] {
  return found.map(({ deepestReading: _deepest, isOnString: _isOnString, members, ...place }) => ({
    ...place,
    costMm: plan && costMm(members, plan, task),
    readings: members.length,
  }));
}

function costMm(members: readonly WornReading[], plan: CutPlan, task: PlanTask): number | null {
  const left = new Set(members);
  const isRestedOn = task.places.some(
    (place, i) => plan.restsOn[i] && place.readings.some((reading) => left.has(reading)),
  );
  if (!isRestedOn) return 0;
  const without = deepestCutWithoutMm(task, plan, left);
  return without === null ? null : Math.max(0, plan.leastDeepestMm - without);
}
