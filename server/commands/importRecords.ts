/**
 * `boardtrue import ARCHIVE.zip`: an archive into the records; what happened to each instrument a line, what was refused on
 * standard error.
 */
import { parseArgs } from "node:util";
import type { Environment } from "../cantStart.ts";
import { archiveShapes } from "../http/wire/archive.ts";
import { loadInstrumentTable } from "../instrumentTable.ts";
import { type Imported, type ImportLine, importArchive, importLimits } from "../keeping/archive/importArchive.ts";
import { uploadLimitBytesFrom } from "../numberFromEnvironment.ts";
import { counted } from "../reports/words.ts";
import { onePathOf, parsed } from "./callWords.ts";
import { unreadable } from "./givenFile.ts";
import { printHelp } from "./help.ts";
import { print } from "./print.ts";
import { codeOf, Faulty, onOneLine } from "./refusals.ts";
import { withRecords } from "./withRecords.ts";

export async function importRecords(words: readonly string[], environment: Environment): Promise<void> {
  const { values, positionals } = parsed(() =>
    parseArgs({ args: [...words], allowPositionals: true, options: { help: { type: "boolean" } } }),
  );
  if (values.help) return printHelp();
  const path = onePathOf(positionals, "import needs the archive: boardtrue import ARCHIVE.zip");
  await withRecords(environment, { mayBegin: true }, async (store) => {
    const importing = {
      store,
      table: loadInstrumentTable(),
      shapes: archiveShapes,
      limits: importLimits(uploadLimitBytesFrom(environment)),
      now: new Date(),
      tell: (line: ImportLine) => say(line),
    };
    const imported = await importArchive(path, importing).catch((error: unknown) => {
      const code = codeOf(error);
      throw code !== null && error instanceof Error && "syscall" in error
        ? new Faulty(unreadable(path, code, "archive"))
        : error;
    });
    if (imported.outcome === "refused") throw new Faulty(`${path}: ${imported.why}`);
    await print([`${sumOf(imported)}\n`]);
    const { refused } = imported;
    if (refused.instruments + refused.visits > 0)
      throw new Faulty("What was refused is told above; the rest is safe in the records.");
  });
}

function say({ instrument, visit, outcome, says }: ImportLine): void {
  const what = visit === null ? instrument : `${instrument} ${visit}`;
  const line = onOneLine(`${what}: ${outcome}${says === null ? "" : `; ${says}`}`);
  (outcome === "refused" ? process.stderr : process.stdout).write(`${line}\n`);
}

function sumOf({ added, alreadyThere, refused }: Extract<Imported, { outcome: "taken in" }>): string {
  const inWords = ({ instruments, visits }: typeof added) =>
    `${counted(instruments, "instrument")} and ${counted(visits, "visit")}`;
  return `Added ${inWords(added)}; there already ${inWords(alreadyThere)}; refused ${inWords(refused)}.`;
}
