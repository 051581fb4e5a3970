/**
 * The history of one invented instrument: runs of wear that grow evenly from one dressing to the next, and the visits that read them.
 *
 * In: a history. Out: a recipe for each visit, so that every visit's board is made and measured like any other; and what is really there.
 * Every mark of a board grows at the same pace, so its deepest place stays where it is and gains `perYearMm` every year of
 * 365.25 days, or `perHundredHoursMm` every hundred hours played. Nothing here is shared with the program.
 */
import type { MadeBoard } from "./board.ts";
import type { Look, Probe, Recipe, Rounds, Shape, WearMark, Wood, Writing } from "./recipe.ts";

/** What the workshop wrote down about a visit; names as the program's form has them. */
export type Notes = {
  readonly reason?: string;
  readonly gauge?: string;
  readonly rail?: string;
  readonly humidityPercent?: number;
  readonly hoursPlayed?: number;
  readonly decisionTaken?: "leave" | "wait" | "dress" | "shape" | "replace" | "restorer";
  readonly workDone?: "none" | "dressed" | "shaped" | "new board" | "other";
  readonly workNotes?: string;
};

export type Visit = {
  /** A calendar day. */
  readonly date: string;
  readonly notes: Notes;
  /** The day of the visit that this one measures again after the work. */
  readonly after?: string;
  /** What of the board was otherwise than today, beside wear and edges. */
  readonly shape?: Shape;
  /** A quick look by gaps is all that was taken. */
  readonly look?: Look;
};

/** From one dressing, or the new board, to the next. */
export type Run = {
  /** The day the board was free of wear. */
  readonly from: string;
  /** Growth of the deepest place; null: as fast as in the last run, which ends with the latest visit's board. */
  readonly perYearMm: number | null;
  /** How much more wood the edges had than today. */
  readonly edgesMoreMm: number;
};

export type InstrumentHistory = {
  readonly number: string;
  /** File name of the latest visit without its ending, where that is an example board; else null. */
  readonly example: string | null;
  readonly title: string;
  readonly instrument: string;
  /** The board at the latest visit. */
  readonly recipe: Recipe;
  /** Marks of an earlier board, where today's has none. */
  readonly earlierWear?: readonly WearMark[];
  readonly runs: readonly Run[];
  /** Wear grows with hours played, which the visits tell; else with time. */
  readonly wearsBy: "years" | "hours";
  /** Oldest first; the last one is the latest. */
  readonly visits: readonly Visit[];
};

/** How a workshop that knows its instruments writes: nothing about the instrument, a grid of seven lines. */
export type EverydayRound = { readonly rounds: Rounds; readonly probe: Probe; readonly writing: Writing };

export type VisitTruth = {
  readonly date: string;
  /** Which run of wear, 0 the first. */
  readonly run: number;
  readonly yearsInRun: number;
  /** Deepest wear anywhere; and the deepest that a reading shows. */
  readonly deepestMm: number;
  readonly deepestReadingMm: number;
  /** Thinnest edge where the calliper was set; null where it was not. */
  readonly thinnestEdgeMm: number | null;
};

export type HistoryTruth = {
  readonly number: string;
  readonly wearsBy: "years" | "hours";
  readonly runs: readonly {
    readonly from: string;
    readonly perYearMm: number;
    readonly perHundredHoursMm: number | null;
  }[];
  readonly visits: readonly VisitTruth[];
};

/** The recipe of each visit, oldest first; the latest is the board as it stands. */
export function visitRecipes(
  history: InstrumentHistory,
  everyday: (recipe: Recipe, visit: Visit) => EverydayRound,
): readonly Recipe[] {
  return history.visits.map((visit, at) => {
    if (at === history.visits.length - 1) return history.recipe;
    const run = runAt(history, visit.date);
    const { recipe } = history;
    const look = visit.look === undefined ? {} : { look: visit.look };
    return {
      seed: recipe.seed * 100 + at + 1,
      plan: recipe.plan,
      shape: visit.shape ?? recipe.shape,
      wear: grown(history, visit.date),
      wood: visit.look === undefined && recipe.wood !== null ? thicker(recipe.wood, run.edgesMoreMm) : null,
      ...everyday(recipe, visit),
      ...look,
    };
  });
}

export function historyTruth(history: InstrumentHistory, made: readonly MadeBoard[]): HistoryTruth {
  const latest = history.visits.at(-1)!.date;
  return {
    number: history.number,
    wearsBy: history.wearsBy,
    runs: history.runs.map((run, at) => {
      const until = history.runs[at + 1]?.from ?? latest;
      const perYearMm = growthMm(history, run);
      const hours = hoursIn(history, run.from, until);
      const grownMm = perYearMm * years(run.from, until);
      return {
        from: run.from,
        perYearMm,
        perHundredHoursMm: history.wearsBy === "hours" ? (100 * grownMm) / hours : null,
      };
    }),
    visits: history.visits.map(({ date }, at) => {
      const run = runAt(history, date);
      const { truth } = made[at]!;
      const edges = truth.thickness.filter(({ side }) => side !== "centre").map(({ thicknessMm }) => thicknessMm);
      return {
        date,
        run: history.runs.indexOf(run),
        yearsInRun: years(run.from, date),
        deepestMm: truth.deepestWear.depthMm,
        deepestReadingMm: truth.deepestReading.depthMm,
        thinnestEdgeMm: edges.length === 0 ? null : Math.min(...edges),
      };
    }),
  };
}

/** Growth of a run's deepest place, mm a year. */
function growthMm({ recipe, runs, visits }: InstrumentHistory, run: Run): number {
  return run.perYearMm ?? deepestMark(recipe.wear) / years(runs.at(-1)!.from, visits.at(-1)!.date);
}

function years(from: string, to: string): number {
  return (Date.parse(to) - Date.parse(from)) / 86_400_000 / 365.25;
}

/** The last run that had begun by that day. */
function runAt(history: InstrumentHistory, date: string): Run {
  const run = history.runs.findLast(({ from }) => from <= date);
  if (run === undefined) throw new Error(`${history.number}: no run has begun by ${date}`);
  return run;
}

/** Marks as deep as they were that day; none where they had only begun. */
function grown(history: InstrumentHistory, date: string): readonly WearMark[] {
  const run = runAt(history, date);
  const latest = history.visits.at(-1)!.date;
  const marks = run.perYearMm === null ? history.recipe.wear : (history.earlierWear ?? history.recipe.wear);
  const until = history.runs[history.runs.indexOf(run) + 1]?.from ?? latest;
  const played =
    history.wearsBy === "hours" ? hoursIn(history, run.from, date) / hoursIn(history, run.from, until) : null;
  const share = played ?? years(run.from, date) / years(run.from, until);
  const deepestMm = growthMm(history, run) * years(run.from, until);
  const factor = (share * deepestMm) / deepestMark(marks);
  return factor === 0 ? [] : marks.map((mark) => ({ ...mark, depthMm: mark.depthMm * factor }));
}

/** Hours of the visits after the run's first day, up to a day. */
function hoursIn({ visits }: InstrumentHistory, from: string, to: string): number {
  return visits
    .filter(({ date }) => date > from && date <= to)
    .reduce((sum, { notes }) => sum + (notes.hoursPlayed ?? 0), 0);
}

const deepestMark = (marks: readonly WearMark[]): number => Math.max(0, ...marks.map(({ depthMm }) => depthMm));

function thicker(wood: Wood, moreMm: number): Wood {
  const { bassNutMm, bassEndMm, trebleNutMm, trebleEndMm, centre } = wood;
  return {
    ...wood,
    bassNutMm: bassNutMm + moreMm,
    bassEndMm: bassEndMm + moreMm,
    trebleNutMm: trebleNutMm + moreMm,
    trebleEndMm: trebleEndMm + moreMm,
    centre: centre && { ...centre, thicknessMm: centre.thicknessMm + moreMm },
  };
}
