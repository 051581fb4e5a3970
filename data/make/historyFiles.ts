/**
 * Every file of data/examples/histories as text: the earlier visits of the loan store's instruments, and what is really there.
 *
 * Out: file name -> text, the same bytes on every run. NAME.DATE.csv and NAME.DATE.thickness.csv are what the bench handed in that day;
 * NAME.truth.json is the truth, lengths in mm rounded to 0.1 µm; histories.json lists instruments and visits, oldest first. A latest visit that
 * is an example board has its files with the examples, one folder up.
 */
import { asJson } from "./asJson.ts";
import { makeBoard } from "./board.ts";
import { historyTruth, type InstrumentHistory, type Visit, visitRecipes } from "./history.ts";
import type { Recipe } from "./recipe.ts";
import { everydayRound } from "./store/habits.ts";
import { histories } from "./store/histories.ts";

export function historyFiles(): ReadonlyMap<string, string> {
  const files = new Map<string, string>();
  for (const history of histories) {
    const recipes = visitRecipes(history, everydayRound);
    const made = recipes.map(makeBoard);
    for (const [at, visit] of history.visits.entries()) {
      const board = made[at]!;
      if (isExample(history, visit)) continue;
      files.set(`${fileName(history, visit)}.csv`, board.readingsCsv);
      if (board.thicknessCsv !== null) files.set(`${fileName(history, visit)}.thickness.csv`, board.thicknessCsv);
    }
    files.set(`${history.number}.truth.json`, asJson(historyTruth(history, made)));
  }
  files.set("histories.json", asJson(histories.map(listed)));
  return files;
}

function listed(history: InstrumentHistory): object {
  const recipes = visitRecipes(history, everydayRound);
  return {
    number: history.number,
    title: history.title,
    ...recordOf(history),
    visits: history.visits.map((visit, at) => ({
      date: visit.date,
      ...filesOf(history, visit, recipes[at]!),
      ...(visit.after === undefined ? {} : { after: visit.after }),
      notes: visit.notes,
    })),
  };
}

function filesOf(history: InstrumentHistory, visit: Visit, recipe: Recipe): object {
  const stem = isExample(history, visit) ? `../${history.example}` : fileName(history, visit);
  return {
    readings: `${stem}.csv`,
    ...(recipe.wood === null ? {} : { thickness: `${stem}.thickness.csv` }),
    ...(recipe.bench?.rail === undefined ? {} : { rail: `${stem}.rail.csv` }),
  };
}

function isExample(history: InstrumentHistory, visit: Visit): boolean {
  return history.example !== null && visit === history.visits.at(-1);
}

const fileName = (history: InstrumentHistory, visit: Visit): string => `${history.number}.${visit.date}`;

/** What the instrument's record says, out of the head of its latest file: all but gauge and job. */
function recordOf({ instrument, recipe }: InstrumentHistory): object {
  const settings = new Map(recipe.writing.settings);
  const dimensions = [...settings].filter(([key]) => !notOfInstrument.has(key));
  return {
    instrument,
    build: settings.get("build") ?? "unknown",
    valuable: settings.get("valuable") === "yes",
    dimensions: Object.fromEntries(dimensions),
  };
}

const notOfInstrument = new Set([
  ...["instrument", "build", "valuable", "new_board"],
  ...["unit", "tip_radius", "resolution", "tension", "pull_lowest", "pull_highest", "rail_error"],
]);
