/**
 * What every use of the records needs: where they are kept, what examines readings, and what day it is.
 */
import type { InstrumentTable } from "../core/board/instrumentTable.ts";
import type { StartAnswering } from "../examinerApart.ts";
import type { Store } from "../records/store.ts";

export type Keeping = {
  readonly store: Store;
  readonly table: InstrumentTable;
  readonly examineHere: StartAnswering;
  /** For long files: on a thread apart, so that everything else goes on. */
  readonly examineApart: StartAnswering;
  /** Long files wait here for their turn: only so many are examined at once. */
  readonly inTurn: <Made>(work: () => Promise<Made>) => Promise<Made>;
  readonly now: () => Date;
};
