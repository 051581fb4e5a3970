/** Refusals that several routes of the records share, as Problems (`faulty`). */
import type { Fault } from "../../../core/fault.ts";
import { Problem } from "../../problems.ts";

/** Every fault together; `nothing`: what was not done because of them. */
export function faultsRefused(faults: readonly Fault[], nothing: "was changed" | "was kept"): Problem {
  return new Problem("faulty", {
    detail: `Mend each of the faults listed here and send it again; nothing ${nothing}.`,
    faults,
  });
}

/** The visit that was to be measured again after is none of this instrument, or follows this one already. */
export function unknownEarlierVisit(nothing: "was changed" | "was kept"): Problem {
  const fault: Fault = {
    ...{ where: "visit", line: null, column: null, code: "unknown-visit" },
    saw: "the visit before the work is no earlier one of this instrument",
    remedy: "Give the id of one of its visits, or leave it out.",
  };
  return faultsRefused([fault], nothing);
}
