/**
 * The working rows: of all the conditions that a board's places put on a target, the few that the linear programme is given.
 *
 * A target rests on a handful of places, so the programme starts from the lowest and the highest place of each patch of the board;
 * the target found is tried against every place, the worst offender of each patch is taken in, and so on until none offends.
 * A row left out has no part in the optimum (its multiplier is zero), so what is proved optimal for the working rows is optimal
 * for all of them. Lengths in mm.
 */
import { type Ground, patches } from "./ground.ts";

/**
 * A condition on the cut at one place: at least the allowance (floor), at most the deepest cut after what is spare there
 * (ceiling), at most its cap.
 */
export type CutRow = { readonly place: number; readonly holds: "floor" | "ceiling" | "cap" };

/** An offence below this is rounding, mm. */
export const offenceMm = 1e-8;

export type WorkingRows = {
  readonly rows: readonly CutRow[];
  /** The same with the worst offenders against these cuts; null where no row that is left out is offended against. */
  readonly joinedBy: (cutsMm: Float64Array, deepestMm: number) => WorkingRows | null;
};

/** The lowest and the highest place of each patch, as a first target sees them. */
export function firstRows(ground: Ground, allowanceMm: number, cutsMm: Float64Array): WorkingRows {
  const none = workingRows(ground, allowanceMm, [], new Set());
  return (
    none.joinedBy(
      cutsMm.map((mm) => mm - farMm),
      -2 * farMm,
    ) ?? none
  );
}

/** Further than any cut: every place offends. */
const farMm = 1e4;

function workingRows(
  ground: Ground,
  allowanceMm: number,
  rows: readonly CutRow[],
  taken: ReadonlySet<number>,
): WorkingRows {
  return {
    rows,
    joinedBy: (cutsMm, deepestMm) => {
      const { count, spareMm, capMm } = ground;
      const floors = worstOfEachPatch();
      const ceilings = worstOfEachPatch();
      const caps = worstOfEachPatch();
      for (let i = 0; i < count; i += 1) {
        const patch = ground.patch[i];
        const cut = cutsMm[i];
        consider(floors, patch, i, allowanceMm - cut, taken, 0);
        consider(ceilings, patch, i, cut - spareMm[i] - deepestMm, taken, 1);
        consider(caps, patch, i, cut - capMm[i], taken, 2);
      }
      const joining = [...rowsOf(floors, "floor"), ...rowsOf(ceilings, "ceiling"), ...rowsOf(caps, "cap")];
      if (joining.length === 0) return null;
      const all = new Set(taken);
      for (const { place, holds } of joining) all.add(numberOf(place, kinds.indexOf(holds)));
      return workingRows(ground, allowanceMm, [...rows, ...joining], all);
    },
  };
}

const kinds: readonly CutRow["holds"][] = ["floor", "ceiling", "cap"];

function numberOf(place: number, kind: number): number {
  return 3 * place + kind;
}

type Worst = { readonly place: Int32Array; readonly byMm: Float64Array };

function worstOfEachPatch(): Worst {
  return { place: new Int32Array(patches).fill(-1), byMm: new Float64Array(patches).fill(offenceMm) };
}

function consider(worst: Worst, patch: number, place: number, byMm: number, taken: ReadonlySet<number>, kind: number) {
  if (!(byMm > worst.byMm[patch]) || taken.has(numberOf(place, kind))) return;
  worst.byMm[patch] = byMm;
  worst.place[patch] = place;
}

function rowsOf(worst: Worst, holds: CutRow["holds"]): readonly CutRow[] {
  return Array.from(
    worst.place.filter((place) => place >= 0),
    (place) => ({ place, holds }),
  );
}
