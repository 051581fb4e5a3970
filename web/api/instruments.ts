/**
 * The workshop's instruments: found as one types, added, changed, and each one's story. `base` is "" for the workshop's own records and
 * "/invented" for the invented loan store.
 */
import type { History } from "../../server/core/history/history.ts";
import type { Due, InstrumentGiven, InstrumentRecord, Page } from "../../server/records/records.ts";
import { type Base, instrumentAddress } from "./addresses.ts";
import { ask, type Reply } from "./reach.ts";
import type { Pair, VisitSummary } from "./visits.ts";

/** `kind` is "cello", `size` "4/4". */
export type Instrument = Omit<InstrumentRecord, "id" | "instrument"> & { readonly kind: string; readonly size: string };

/** What is said of an instrument: `kind` and `size` as the table of instruments has them. */
export type InstrumentSaid = Omit<InstrumentGiven, "instrument"> & { readonly kind: string; readonly size: string };

export type InstrumentList = { readonly instruments: readonly Instrument[]; readonly next: string | null };

export type Story = {
  readonly instrument: Instrument;
  /** Newest first. */
  readonly visits: readonly VisitSummary[];
  readonly history: History;
  readonly pairs: readonly Pair[];
};

/** One line of the due list. */
export type DueLine = {
  readonly number: string;
  readonly kind: string;
  readonly size: string;
  readonly label: Due["label"];
  readonly lastVisit: string | null;
  readonly outlook: Due["outlook"];
};
export type DueList = { readonly due: readonly DueLine[]; readonly next: Page<Due>["next"] };

/** Those whose number begins with what was typed, then those that hold it. */
export const findInstruments = (
  base: Base,
  typed: string,
  limit: number,
  signal?: AbortSignal,
): Promise<Reply<InstrumentList>> =>
  ask(
    `${base}/api/instruments?find=${encodeURIComponent(typed)}&limit=${limit}`,
    signal === undefined ? {} : { signal },
  );

/** A further part of a list, at the address the part before named. */
export const further = <List>(next: string): Promise<Reply<List>> => ask(next);

export const instrument = (base: Base, number: string): Promise<Reply<Instrument>> =>
  ask(instrumentAddress(base, number));

export const addInstrument = (base: Base, said: InstrumentSaid): Promise<Reply<Instrument>> =>
  ask(`${base}/api/instruments`, { method: "POST", json: said });

export const story = (base: Base, number: string): Promise<Reply<Story>> =>
  ask(`${instrumentAddress(base, number)}/story`);

export const due = (base: Base, limit: number): Promise<Reply<DueList>> => ask(`${base}/api/due?limit=${limit}`);
