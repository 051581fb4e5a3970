/**
 * A planing task on a worn violin board, made straight from a shape: a little off the workshop's, rolled and pitched, with noise
 * and pits towards the nut. Lengths in mm.
 */
import type { Instrument } from "../../../../server/core/board/instrument.ts";
import type { Job } from "../../../../server/core/board/settings.ts";
import { seededRandom } from "../../../../server/core/maths/seededRandom.ts";
import { worthATemplateMm } from "../../../../server/core/planing/arc.ts";
import { outlinePlaces, type PresentPlace } from "../../../../server/core/planing/cutPlaces.ts";
import type { PlanTask, SparePlace } from "../../../../server/core/planing/planingPlan.ts";
import { secondAim } from "../../../../server/core/planing/secondAim.ts";
import { targetChoice } from "../../../../server/core/planing/targetChoice.ts";
import { heightMm } from "../../../../server/core/surface/idealSurface.ts";
import type { UnwornSurface } from "../../../../server/core/surface/unwornSurface.ts";
import { knownSurface, shapeWith, violin } from "../plainBoards.ts";

export const workshopJob: Job = {
  aim: "workshop",
  spare: "wood",
  templateRadiiMm: [],
  build: "solid",
  valuable: false,
  loose: false,
  newBoard: false,
};

export type WornPlan = { readonly surface: UnwornSurface; readonly instrument: Instrument; readonly task: PlanTask };

export function wornPlan(
  seed: number,
  {
    count = 80,
    job = workshopJob,
    figures = {},
    edgeSpareMm = null,
  }: {
    readonly count?: number;
    readonly job?: Job;
    readonly figures?: Partial<Record<BoundFigure, number>>;
    /** Wood above its limit at six places along each edge; null: nobody measured. */
    readonly edgeSpareMm?: number | null;
  } = {},
): WornPlan {
  const random = seededRandom(seed);
  const shape = shapeWith({
    pitch: 0.002 * random.normal(),
    crownNutMm: 0.5 * random.normal(),
    crownEndMm: 0.5 * random.normal(),
    radiusNutMm: 42 + 1.5 * random.normal(),
    radiusMiddleMm: 42 + 1.5 * random.normal(),
    radiusEndMm: 42 + 1.5 * random.normal(),
    hollowLowestMm: 0.85 + 0.12 * random.normal(),
    hollowHighestMm: 0.65 + 0.12 * random.normal(),
  });
  const surface = knownSurface(shape);
  const instrument = withFigures(figures);
  const lengthMm = violin.boardLengthMm.value;
  const pits = Array.from({ length: 5 }, () => ({
    xMm: 0.5 * lengthMm * random.uniform(),
    yMm: 20 * random.uniform() - 10,
    depthMm: 0.3 * random.uniform(),
  }));
  const places = Array.from({ length: count }, (_, row): PresentPlace => {
    const xMm = 3 + (lengthMm - 6) * random.uniform();
    const yMm = (2 * random.uniform() - 1) * (9 + (11 * xMm) / lengthMm);
    const wornMm = pits.reduce(
      (sum, pit) => sum + pit.depthMm * Math.exp(-((xMm - pit.xMm) ** 2) / 200 - (yMm - pit.yMm) ** 2 / 12),
      0,
    );
    const presentMm = heightMm(surface.plan, shape, xMm, yMm) - wornMm + 0.005 * random.normal();
    const unwornMm = heightMm(surface.plan, shape, xMm, yMm);
    const place = { row, givenXMm: xMm, givenYMm: yMm, xMm, yMm, heightMm: presentMm, unwornMm, wearMm: wornMm };
    return { xMm, yMm, presentMm, uncertaintyMm: 0.005, readings: [{ ...place, line: null, setup: 0, mark: null }] };
  });
  const sparePlaces =
    edgeSpareMm === null
      ? []
      : [0.03, 0.2, 0.4, 0.6, 0.8, 0.97].flatMap((share) =>
          [-1, 1].map((side): SparePlace => {
            const xMm = share * lengthMm;
            const yMm = side * (12 + (9 * xMm) / lengthMm);
            const presentMm = heightMm(surface.plan, shape, xMm, yMm);
            return { xMm, yMm, presentMm, spareMm: edgeSpareMm, isEdge: true };
          }),
        );
  return {
    surface,
    instrument,
    task: {
      choice: targetChoice(surface, instrument, job),
      places,
      outlinePlaces: outlinePlaces(surface, instrument),
      sparePlaces,
      allowanceMm: instrument.allowanceMm.value,
      plainWithinMm: worthATemplateMm(instrument, job),
      spareUMm: 0.03,
      secondAim: secondAim(instrument, job.spare),
    },
  };
}

export type BoundFigure = "projectionBoundMm" | "crownBoundMm" | "radiusBandMm" | "hollowBandMm" | "allowanceMm";

function withFigures(figures: Partial<Record<BoundFigure, number>>): Instrument {
  const given = Object.entries(figures).map(([name, value]) => [
    name,
    { value, source: "given" as const, origin: "the test" },
  ]);
  return { ...violin, ...Object.fromEntries(given) };
}
