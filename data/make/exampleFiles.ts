/**
 * Every file of data/examples as text, from the recipes of the store.
 *
 * Out: file name -> text, the same bytes on every run. NAME.csv, NAME.thickness.csv and NAME.rail.csv are what the bench hands in;
 * NAME.truth.json is what is really there, lengths in mm rounded to 0.1 µm; examples.json lists them.
 */
import { asJson } from "./asJson.ts";
import { makeBoard } from "./board.ts";
import type { Example } from "./store/example.ts";
import { store } from "./store/store.ts";

export function exampleFiles(): ReadonlyMap<string, string> {
  const files = new Map<string, string>();
  for (const example of store) {
    const board = makeBoard(example.recipe);
    files.set(`${example.name}.csv`, board.readingsCsv);
    if (board.thicknessCsv !== null) files.set(`${example.name}.thickness.csv`, board.thicknessCsv);
    if (board.railCsv !== null) files.set(`${example.name}.rail.csv`, board.railCsv);
    files.set(`${example.name}.truth.json`, asJson({ decision: example.decision, ...board.truth }));
  }
  files.set("examples.json", asJson(store.map(listed)));
  return files;
}

function listed(example: Example): object {
  const { name, number, title, story, instrument, decision, recipe } = example;
  return {
    name,
    number,
    title,
    story,
    instrument,
    readings: `${name}.csv`,
    thickness: recipe.wood === null ? null : `${name}.thickness.csv`,
    ...(recipe.bench?.rail === undefined ? {} : { rail: `${name}.rail.csv` }),
    truth: `${name}.truth.json`,
    decision,
  };
}
