/** `boardtrue history NUMBER`: one instrument's visits as CSV for a spreadsheet, oldest first. */
import type { Environment } from "../cantStart.ts";
import { visitsOldestFirst } from "../keeping/visitsOldestFirst.ts";
import { instrumentCsv } from "../reports/instrumentCsv.ts";
import { print } from "./print.ts";
import { Faulty, onOneLine, WrongCall } from "./refusals.ts";
import { withRecords } from "./withRecords.ts";

export async function printHistory(words: readonly string[], environment: Environment): Promise<void> {
  const [number, ...others] = words;
  if (number === undefined) throw new WrongCall("history needs an instrument's number: boardtrue history C-07");
  if (others.length > 0) throw new WrongCall(`history takes one number; what is "${others[0]}"?`);
  await withRecords(environment, { mayBegin: false }, async (store) => {
    if ((await store.instrument(number)) === null) throw new Faulty(`There is no instrument ${onOneLine(number)}.`);
    await print([instrumentCsv(await visitsOldestFirst(store, number))]);
  });
}
