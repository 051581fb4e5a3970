/** `boardtrue check`: whether the store is sound; what is wrong on standard error, one a line, exit 1. */
import type { Environment } from "../cantStart.ts";
import { print } from "./print.ts";
import { Faulty, onOneLine, WrongCall } from "./refusals.ts";
import { withRecords } from "./withRecords.ts";

export async function checkRecords(words: readonly string[], environment: Environment): Promise<void> {
  if (words.length > 0) throw new WrongCall("check takes nothing more; BOARDTRUE_DATA or DATABASE_URL says where.");
  await withRecords(environment, { mayBegin: false }, async (store, place) => {
    const wrong = await store.check();
    if (wrong.length > 0) throw new Faulty(wrong.map(onOneLine).join("\n"));
    await print([`${place}: all is well\n`]);
  });
}
