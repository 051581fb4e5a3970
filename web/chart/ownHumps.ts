/**
 * The humps worth a word of their own: on strings whose whole path is not humped anyhow.
 *
 * A board that is humped from end to end (a bent neck, say) is told so with its hollows; there a hump is no matter of the plane's.
 */
import type { HumpUnderString, SurfaceSummary } from "../../server/core/examination.ts";

export function ownHumps({ humps, hollows }: SurfaceSummary): readonly HumpUnderString[] {
  return humps.filter(({ string }) => hollows.every((hollow) => hollow.string !== string || hollow.state !== "humped"));
}
