/**
 * What is written down about a visit beside its readings, checked: all faults together, or ready for the store.
 *
 * In: texts as a form or a later change brings them; what is left out is left as it is. Out: the notes that were said, or every fault, each with
 * `where: "visit"`. Humidity in percent of saturation, hours played since the visit before; both take a decimal comma.
 */

import { nearestWord } from "../core/board/nearestWord.ts";
import type { Fault } from "../core/fault.ts";
import { type WorkDone, worksDone } from "../core/history/history.ts";
import { shownSafely } from "../core/readings/shownSafely.ts";
import { type DecisionTaken, decisionsTaken, type PlayerGiven, type VisitNotes } from "../records/records.ts";
import { plainWords, type TextRules } from "./plainWords.ts";

/** As it comes in. Null, or a blank text, takes back what was there. */
export type NotesSaid = { readonly [note in keyof VisitNotes]?: string | number | null };

export type CheckedNotes =
  | { readonly outcome: "checked"; readonly notes: Partial<VisitNotes> }
  | { readonly outcome: "faulty"; readonly faults: readonly Fault[] };

/** Of a visit about which nothing was written down. */
export const noNotes: VisitNotes = {
  reason: "",
  gauge: "",
  rail: "",
  humidityPercent: null,
  hoursPlayed: null,
  decisionTaken: null,
  workDone: "none",
  workNotes: "",
  afterVisit: null,
  withdrawn: null,
};

const noteRules: TextRules = { most: 4000, lines: "many" };
const wordRules: TextRules = { most: 200, lines: "one" };
/** More than a century of eight hours a day would be a slip long before. */
const mostHours = 100_000;

export function visitNotes(said: NotesSaid): CheckedNotes {
  const faults: Fault[] = [];
  const text = (what: string, written: string | number | null, rules: TextRules): string => {
    const plain = plainWords(String(written ?? ""), rules);
    if (plain.outcome === "plain") return plain.text;
    faults.push(visitFault(plain.code, `${what}: ${plain.saw}`, plain.remedy));
    return "";
  };
  const number = (what: string, written: string | number | null, most: number): number | null => {
    const plain = text(what, written, wordRules);
    if (plain === "") return null;
    const value = /^\d+([.,]\d*)?$/.test(plain) ? Number(plain.replace(",", ".")) : Number.NaN;
    if (value >= 0 && value <= most) return value;
    faults.push(
      visitFault(
        "not-in-range",
        `${what}: ${shownSafely(plain)}`,
        `Write a number from 0 to ${most}, or leave it out.`,
      ),
    );
    return null;
  };
  function choice<Choice extends string>(
    what: string,
    written: string | number | null,
    choices: readonly Choice[],
  ): Choice | null {
    const plain = text(what, written, wordRules).toLowerCase();
    if (plain === "") return null;
    const chosen = choices.find((one) => one === plain);
    if (chosen !== undefined) return chosen;
    const remedy = `Did you mean ${nearestWord(plain, choices)}? Choose one of: ${choices.join(", ")}.`;
    faults.push(visitFault("not-a-choice", `${what}: ${shownSafely(plain)}`, remedy));
    return null;
  }
  const ifSaid = <Note>(
    written: string | number | null | undefined,
    read: (written: string | number | null) => Note,
  ) => (written === undefined ? undefined : read(written));
  const notes = {
    reason: ifSaid(said.reason, (one) => text("why it came", one, noteRules)),
    gauge: ifSaid(said.gauge, (one) => text("the gauge", one, wordRules)),
    rail: ifSaid(said.rail, (one) => text("the rail", one, wordRules)),
    humidityPercent: ifSaid(said.humidityPercent, (one) => number("humidity, percent", one, 100)),
    hoursPlayed: ifSaid(said.hoursPlayed, (one) => number("hours played", one, mostHours)),
    decisionTaken: ifSaid(said.decisionTaken, (one) => choice<DecisionTaken>("the decision", one, decisionsTaken)),
    workDone: ifSaid(said.workDone, (one) => choice<WorkDone>("the work done", one, worksDone) ?? "none"),
    workNotes: ifSaid(said.workNotes, (one) => text("the work", one, noteRules)),
    afterVisit: ifSaid(said.afterVisit, (one) => text("the visit before the work", one, wordRules) || null),
    withdrawn: ifSaid(said.withdrawn, (one) => text("why it is withdrawn", one, noteRules) || null),
  };
  if (faults.length > 0) return { outcome: "faulty", faults };
  return { outcome: "checked", notes: withoutUnsaid(notes) };
}

/** The player's hand and notes: as long as other notes, and kept apart from them. */
export function playerGiven(said: {
  readonly hand?: string | null;
  readonly notes?: string | null;
}):
  | { readonly outcome: "checked"; readonly player: PlayerGiven }
  | { readonly outcome: "faulty"; readonly faults: readonly Fault[] } {
  const hand = plainWords(said.hand ?? "", noteRules);
  const notes = plainWords(said.notes ?? "", noteRules);
  if (hand.outcome === "plain" && notes.outcome === "plain") {
    return { outcome: "checked", player: { hand: hand.text, notes: notes.text } };
  }
  const faults = [
    { what: "the player's hand", read: hand },
    { what: "notes on the player", read: notes },
  ].flatMap(({ what, read }) =>
    read.outcome === "refused" ? [visitFault(read.code, `${what}: ${read.saw}`, read.remedy)] : [],
  );
  return { outcome: "faulty", faults };
}

function withoutUnsaid(
  notes: { readonly [note in keyof VisitNotes]: VisitNotes[note] | undefined },
): Partial<VisitNotes> {
  return Object.fromEntries(Object.entries(notes).filter(([, said]) => said !== undefined));
}

function visitFault(code: string, saw: string, remedy: string): Fault {
  return { where: "visit", line: null, column: null, code, saw, remedy };
}
