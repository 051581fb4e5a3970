/** What keeping needs, around a store of a test's: the program's own examiner and table, a clock that stands at noon on 25 November 2025. */

import { examinerFor } from "../../server/examiner.ts";
import { answeringHere, type StartAnswering } from "../../server/examinerApart.ts";
import { loadInstrumentTable } from "../../server/instrumentTable.ts";
import type { InstrumentSaid } from "../../server/keeping/instrumentGiven.ts";
import { instrumentGiven } from "../../server/keeping/instrumentGiven.ts";
import type { Keeping } from "../../server/keeping/keeping.ts";
import type { Store } from "../../server/records/store.ts";

const table = loadInstrumentTable();

export const examineHere: StartAnswering = answeringHere(examinerFor(table, "test"));

export function keepingOn(store: Store, others: Partial<Keeping> = {}): Keeping {
  return {
    store,
    table,
    examineHere,
    examineApart: examineHere,
    inTurn: (work) => work(),
    now: () => new Date("2025-11-25T12:00:00Z"),
    ...others,
  };
}

/** Throws with the faults: what a test says of an instrument has none. */
export async function addInstrument(store: Store, said: InstrumentSaid): Promise<void> {
  const checked = instrumentGiven(said, table);
  if (checked.outcome === "faulty") throw new Error(JSON.stringify(checked.faults));
  await store.addInstrument(checked.given);
}

/** A text as an upload brings it: in pieces that end anywhere. */
export function inPieces(text: string, pieceBytes = 100): readonly Uint8Array[] {
  const bytes = new TextEncoder().encode(text);
  const count = Math.ceil(bytes.length / pieceBytes);
  return Array.from({ length: count }, (_, k) => bytes.subarray(k * pieceBytes, (k + 1) * pieceBytes));
}
