/**
 * The instrument and the visit that an address names; what is not there is a Problem (`not-found`).
 *
 * Words that can stand in no number or id never reach the store: a database may refuse to look for them.
 */
import type { Request } from "express";
import type { InstrumentRecord, VisitRecord } from "../../../records/records.ts";
import type { Store } from "../../../records/store.ts";
import { Problem } from "../../problems.ts";

const uuid = /^[0-9a-f]{8}(-[0-9a-f]{4}){3}-[0-9a-f]{12}$/;

/** As it stands in the address, decoded. */
export function numberAsked({ params }: Pick<Request, "params">): string {
  const { number } = params;
  if (typeof number !== "string" || /\p{Cc}/u.test(number)) throw unknownInstrument();
  return number;
}

export async function instrumentAsked(store: Store, request: Pick<Request, "params">): Promise<InstrumentRecord> {
  const instrument = await store.instrument(numberAsked(request));
  if (instrument === null) throw unknownInstrument();
  return instrument;
}

export async function visitAsked(store: Store, request: Pick<Request, "params">): Promise<VisitRecord> {
  const { id } = request.params;
  const visit = typeof id === "string" && uuid.test(id) ? await store.visit(numberAsked(request), id) : null;
  if (visit === null) throw unknownVisit();
  return visit;
}

export function unknownInstrument(): Problem {
  return new Problem("not-found", { detail: "No instrument here has that number: find it at /api/instruments?find=…" });
}

export function unknownVisit(): Problem {
  return new Problem("not-found", { detail: "No such visit of this instrument: its story lists them all." });
}
