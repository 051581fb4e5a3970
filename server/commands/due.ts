/** `boardtrue due`: which boards are due, the most urgent first, a line each with why and when. */
import type { Environment } from "../cantStart.ts";
import type { When } from "../core/history/history.ts";
import { everyPage } from "../keeping/everyPage.ts";
import type { Due } from "../records/records.ts";
import type { Store } from "../records/store.ts";
import { print } from "./print.ts";
import { onOneLine, WrongCall } from "./refusals.ts";
import { withRecords } from "./withRecords.ts";

export async function printDue(words: readonly string[], environment: Environment): Promise<void> {
  if (words.length > 0) throw new WrongCall("due takes nothing more.");
  await withRecords(environment, { mayBegin: false }, (store) => print(linesOf(store)));
}

async function* linesOf(store: Store): AsyncGenerator<string> {
  for await (const due of everyPage((asked) => store.due(asked))) yield `${onOneLine(lineOf(due))}\n`;
}

function lineOf({ instrumentNumber, instrument, lastVisit, outlook }: Due): string {
  const seen = lastVisit === null ? "no visit yet" : `last visit ${lastVisit}`;
  return `${instrumentNumber}  ${instrument}, ${seen}. ${inWords(outlook.dressing)} ${inWords(outlook.end)}`;
}

function inWords(when: When): string {
  return when.told === "not yet" ? when.why : when.says;
}
