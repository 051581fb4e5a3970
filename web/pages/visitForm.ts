/**
 * What is written down about a visit beside its readings, as a form: when it is kept, or to correct it later.
 *
 * Notes as they stand (null: none yet) and the earlier visits that it may measure again -> form, what is said, faults beside their fields.
 */
import type { Fault } from "../../server/core/fault.ts";
import type { WorkDone } from "../../server/core/history/history.ts";
import type { DecisionTaken, VisitNotes } from "../../server/records/records.ts";
import type { NotesSaid, VisitSummary } from "../api/visits.ts";
import { element, fill } from "../views/element.ts";
import { choiceInput, type Field, fieldOf, tellFaults, textArea, textInput } from "../views/formFields.ts";
import { dayText, foundText, takenWords, workWords } from "../views/recordWords.ts";

export type VisitForm = {
  readonly element: HTMLElement;
  /** What is said, or the faults that can be seen without the server. */
  readonly said: () => { readonly notes: NotesSaid; readonly faults: readonly Fault[] };
  readonly tell: (faults: readonly Fault[]) => void;
  readonly setEarlier: (visits: readonly VisitSummary[]) => void;
};

const entriesOf = <Key extends string>(words: Readonly<Record<Key, string>>): (readonly [Key, string])[] =>
  Object.entries(words) as [Key, string][];

export function visitForm(was: VisitNotes | null, ahead: readonly Field[] = []): VisitForm {
  const reason = textInput(was?.reason ?? "");
  const hours = textInput(was?.hoursPlayed?.toString() ?? "", { inputmode: "decimal" });
  const humidity = textInput(was?.humidityPercent?.toString() ?? "", { inputmode: "decimal" });
  const gauge = textInput(was?.gauge ?? "");
  const rail = textInput(was?.rail ?? "");
  const taken = choiceInput([["", "–"], ...entriesOf(takenWords)], was?.decisionTaken ?? "");
  const work = choiceInput(entriesOf(workWords), was?.workDone ?? "none");
  const workNotes = textArea(was?.workNotes ?? "");
  const after = choiceInput([["", "–"]], "");
  const setEarlier = (visits: readonly VisitSummary[]): void => {
    const chosen = after.value || (was?.afterVisit ?? "");
    fill(
      after,
      element("option", { value: "" }, "–"),
      ...visits.map((one) => element("option", { value: one.id }, `${dayText(one.date)}: ${foundText(one.findings)}`)),
    );
    after.value = chosen;
    if (after.selectedIndex === -1) after.value = "";
  };
  const fields: readonly Field[] = [
    fieldOf(reason, { name: "Why it came", about: ["why it came"] }),
    fieldOf(hours, {
      name: "Hours played since the visit before",
      about: ["hours played"],
      hint: "Empty where nobody knows.",
    }),
    fieldOf(taken, { name: "Decision taken", about: ["the decision"] }),
    fieldOf(work, { name: "Work done on the board", about: ["the work done"] }),
    fieldOf(workNotes, { name: "Notes on the work", about: ["the work"] }),
    fieldOf(after, { name: "Measures again, after work, the board of", about: ["the visit before the work"] }),
    fieldOf(gauge, { name: "Gauge", about: ["the gauge"] }),
    fieldOf(rail, { name: "Rail", about: ["the rail"] }),
    fieldOf(humidity, { name: "Humidity, %", about: ["humidity"] }),
  ];
  const others = element("div", { class: "in-the-way", role: "alert" });
  return {
    element: element("div", { class: "fields" }, others, ...fields.map((field) => field.element)),
    setEarlier,
    said: () => {
      const faults: Fault[] = [];
      const number = (what: string, text: string, most: number): number | null => {
        const written = text.trim();
        if (written === "") return null;
        const value = /^\d+([.,]\d*)?$/.test(written) ? Number(written.replace(",", ".")) : Number.NaN;
        if (value <= most) return value;
        const remedy = `Write a number from 0 to ${most}, or leave it out.`;
        faults.push({
          where: "visit",
          line: null,
          column: null,
          code: "not-in-range",
          saw: `${what}: “${written}”`,
          remedy,
        });
        return null;
      };
      const notes: NotesSaid = {
        reason: reason.value.trim(),
        hoursPlayed: number("hours played", hours.value, 100_000),
        humidityPercent: number("humidity", humidity.value, 100),
        gauge: gauge.value.trim(),
        rail: rail.value.trim(),
        decisionTaken: taken.value === "" ? null : (taken.value as DecisionTaken),
        workDone: work.value as WorkDone,
        workNotes: workNotes.value.trim(),
        afterVisit: after.value === "" ? null : after.value,
      };
      return { notes, faults };
    },
    tell: (faults) => tellFaults([...ahead, ...fields], faults, others),
  };
}
