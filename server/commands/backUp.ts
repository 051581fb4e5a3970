/** `boardtrue backup FILE`: a whole copy of the store, also while the server runs. */
import { parseArgs } from "node:util";
import type { Environment } from "../cantStart.ts";
import { onePathOf, parsed } from "./callWords.ts";
import { printHelp } from "./help.ts";
import { print } from "./print.ts";
import { withRecords } from "./withRecords.ts";

export async function backUp(words: readonly string[], environment: Environment): Promise<void> {
  const { values, positionals } = parsed(() =>
    parseArgs({ args: [...words], allowPositionals: true, options: { help: { type: "boolean" } } }),
  );
  if (values.help) return printHelp();
  const path = onePathOf(positionals, "backup needs a name for the copy: boardtrue backup FILE");
  await withRecords(environment, { mayBegin: false }, async (store, place) => {
    await store.backup(path);
    await print([`${path}: a copy of ${place}\n`]);
  });
}
