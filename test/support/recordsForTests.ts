/** Invented instruments and visits for tests of the records: a youth orchestra's loan cello, a real examination of a made board. */
import { createHash } from "node:crypto";
import { readFileSync } from "node:fs";
import type { Examination } from "../../server/core/examination.ts";
import type { Findings, HistoryVisit, Outlook } from "../../server/core/history/history.ts";
import { noNotes } from "../../server/keeping/visitNotes.ts";
import type { FilePart, GivenFile, InstrumentGiven, NewVisit, VisitNotes } from "../../server/records/records.ts";
import type { Store } from "../../server/records/store.ts";
import { examineFiles } from "./examineMade.ts";

export function instrumentGiven(number: string, others: Partial<InstrumentGiven> = {}): InstrumentGiven {
  return {
    number,
    instrument: "cello",
    label: "",
    strings: null,
    build: "solid",
    valuable: false,
    dimensions: {},
    ...others,
  };
}

export function givenFile(part: FilePart, text: string): GivenFile {
  const bytes = new TextEncoder().encode(text);
  return { part, bytes, sha256: createHash("sha256").update(bytes).digest("hex") };
}

export function visitNotes(others: Partial<VisitNotes> = {}): VisitNotes {
  return { ...noNotes, ...others };
}

const readings = readFileSync(new URL("../../data/examples/cello-to-dress.csv", import.meta.url), "utf8");
let examined: Examination | null = null;

/** Of the made cello that needs a dressing; worked out once. */
export function celloExamined(): Examination {
  examined ??= examineFiles(readings, null);
  return examined;
}

export function findings(depthMm: number, others: Partial<Findings> = {}): Findings {
  return {
    readings: 91,
    decision: "dress",
    quickLook: null,
    deepest: {
      depthMm: { value: depthMm, u: 0.02 },
      atLeast: false,
      xMm: 120,
      yMm: 8,
      string: "D",
      note: "E",
      position: "first",
    },
    unseenMm: 0.03,
    dressAtMm: 0.3,
    planeOffMm: null,
    hollows: null,
    edge: null,
    edgeAfterMm: null,
    edgeLimitMm: 5,
    dressingSpendMm: 0.5,
    ...others,
  };
}

/** A visit whose readings file says `says`: another text is another file. */
export function newVisit(date: string, says: string, others: Partial<NewVisit> = {}): NewVisit {
  return {
    date,
    settings: { tip_radius: "1" },
    notes: noNotes,
    player: null,
    files: [givenFile("readings", `${readings}# ${says}\n`)],
    examination: celloExamined(),
    findings: findings(0.2),
    ...others,
  };
}

/** Stands for history: an outlook that says how many visits it was made of, and lies so many years after the last. */
export function outlookOf(visits: readonly HistoryVisit[]): Outlook {
  const last = visits[visits.length - 1];
  return {
    dressing: {
      told: "range",
      from: yearsAfter(last.date, visits.length),
      to: null,
      says: `of ${visits.length} visits`,
    },
    end: { told: "not yet", why: "for this test" },
  };
}

function yearsAfter(date: string, years: number): string {
  return `${Number(date.slice(0, 4)) + years}${date.slice(4)}`;
}

/** Two cellos of a loan store that does not exist, the first with two visits, the other with one; each visit with notes on its player. */
export async function keepTwoCellos(store: Store): Promise<void> {
  for (const number of ["C-07", "C-19"]) await store.addInstrument(instrumentGiven(number));
  for (const [number, date] of [
    ["C-07", "2024-05-06"],
    ["C-07", "2026-05-04"],
    ["C-19", "2025-05-05"],
  ] as const) {
    const player = { hand: "left, small", notes: "" };
    await store.keepVisit(number, newVisit(date, `${number} ${date}`, { player }), outlookOf);
  }
}
