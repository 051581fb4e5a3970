/**
 * `boardtrue examine-again [NUMBER]`: kept readings examined by this version, one line a visit with what that changes.
 *
 * Of all instruments those visits that another version examined last; of one that is named, every visit, since a dimension put
 * right in its record changes the answer, too. What this version refuses is told on standard error (exit 1), and stays as it was.
 */
import { parseArgs } from "node:util";
import type { Environment } from "../cantStart.ts";
import { faultInWords } from "../core/fault.ts";
import { examinerFor } from "../examiner.ts";
import { answeringHere } from "../examinerApart.ts";
import { loadInstrumentTable } from "../instrumentTable.ts";
import { everyPage } from "../keeping/everyPage.ts";
import { type ExaminedAgain, examineAgain } from "../keeping/examineAgain.ts";
import type { Keeping } from "../keeping/keeping.ts";
import type { VisitRecord } from "../records/records.ts";
import type { Store } from "../records/store.ts";
import { version } from "../version.ts";
import { parsed } from "./callWords.ts";
import { printHelp } from "./help.ts";
import { print } from "./print.ts";
import { Faulty, onOneLine, WrongCall } from "./refusals.ts";
import { withRecords } from "./withRecords.ts";

export async function examineVisitsAgain(words: readonly string[], environment: Environment): Promise<void> {
  const { values, positionals } = parsed(() =>
    parseArgs({ args: [...words], allowPositionals: true, options: { help: { type: "boolean" } } }),
  );
  if (values.help) return printHelp();
  const [number, ...others] = positionals;
  if (others.length > 0) throw new WrongCall(`examine-again takes one instrument's number; what is "${others[0]}"?`);
  await withRecords(environment, { mayBegin: false }, async (store) => {
    const table = loadInstrumentTable();
    const examineHere = answeringHere(examinerFor(table, version));
    const keeping: Keeping = {
      store,
      table,
      examineHere,
      examineApart: examineHere,
      inTurn: (work) => work(),
      now: () => new Date(),
    };
    const refused: string[] = [];
    await print(linesOf(keeping, visitsToExamine(store, number), refused));
    if (refused.length > 0) throw new Faulty(refused.join("\n"));
  });
}

async function* visitsToExamine(store: Store, number: string | undefined): AsyncGenerator<VisitRecord> {
  if (number !== undefined) {
    if ((await store.instrument(number)) === null) throw new Faulty(`There is no instrument ${onOneLine(number)}.`);
    yield* everyPage((asked) => store.visits(number, asked));
    return;
  }
  for await (const instrument of everyPage((asked) => store.findInstruments("", asked))) {
    for await (const visit of everyPage((asked) => store.visits(instrument.number, asked))) {
      if (visit.version !== version) yield visit;
    }
  }
}

async function* linesOf(
  keeping: Keeping,
  visits: AsyncIterable<VisitRecord>,
  refused: string[],
): AsyncGenerator<string> {
  let count = 0;
  for await (const { instrumentNumber, id, date } of visits) {
    count++;
    const line = `${instrumentNumber} ${date} ${id}: `;
    const again = await examineAgain(keeping, instrumentNumber, id);
    if (again.outcome === "examined again") yield `${onOneLine(line + changesInWords(again))}\n`;
    else
      refused.push(
        onOneLine(line + (again.outcome === "faulty" ? again.faults.map(faultInWords).join(" ") : "it is gone")),
      );
  }
  if (count === 0) yield `Version ${version} has examined every visit.\n`;
}

function changesInWords({ changes }: Extract<ExaminedAgain, { outcome: "examined again" }>): string {
  if (changes.length === 0) return "nothing changed";
  return changes
    .map(({ what, before, after, isBeyondU }) => {
      return `${what}: ${before} -> ${after}${isBeyondU === false ? " (within its uncertainty)" : ""}`;
    })
    .join("; ");
}
