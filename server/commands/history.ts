/** `boardtrue history NUMBER`: one instrument's visits as CSV for a spreadsheet, oldest first. */
import type { Environment } from "../cantStart.ts";
import { everyPage } from "../keeping/everyPage.ts";
import type { VisitRecord } from "../records/records.ts";
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
    const visits: VisitRecord[] = [];
    for await (const visit of everyPage((asked) => store.visits(number, asked))) visits.push(visit);
    await print([instrumentCsv(visits.reverse())]);
  });
}
