/**
 * A form's lines: a name, where it is written, and room for what stands in the way of it.
 *
 * Fields -> HTML; faults -> beside the field they are about, those about none at the form's head. A fault is about the field whose words
 * (`about`) its text or code holds.
 */
import type { Fault } from "../../server/core/fault.ts";
import { element, fill } from "./element.ts";

export type Field = {
  readonly element: HTMLLabelElement;
  readonly input: HTMLInputElement | HTMLSelectElement | HTMLTextAreaElement;
  readonly about: readonly string[];
  readonly room: HTMLElement;
};

export type FieldWords = { readonly name: string; readonly about?: readonly string[]; readonly hint?: string };

let fieldCount = 0;

export function fieldOf(input: Field["input"], { name, about = [], hint = "" }: FieldWords): Field {
  fieldCount += 1;
  const room = element("span", { class: "in-the-way", id: `in-the-way-${fieldCount}` });
  input.setAttribute("aria-describedby", room.id);
  return {
    element: element(
      "label",
      {},
      element("span", { class: "field-name" }, name),
      input,
      hint === "" ? null : element("span", { class: "origin" }, hint),
      room,
    ),
    input,
    about,
    room,
  };
}

/** A line of text as it is typed; nothing is completed or corrected by the browser. */
export const textInput = (
  value: string,
  attributes: Readonly<Record<string, string | boolean>> = {},
): HTMLInputElement => {
  const input = element("input", { type: "text", autocomplete: "off", ...attributes });
  input.value = value;
  return input;
};

export const textArea = (value: string): HTMLTextAreaElement => {
  const area = element("textarea", { rows: 3, autocomplete: "off" });
  area.value = value;
  return area;
};

export function choiceInput(
  choices: readonly (readonly [value: string, words: string])[],
  value: string,
): HTMLSelectElement {
  const select = element("select", {}, ...choices.map(([one, words]) => element("option", { value: one }, words)));
  select.value = value;
  return select;
}

/** Puts each fault beside its field; those about no field go to `others`. The first field at fault is gone to. */
export function tellFaults(fields: readonly Field[], faults: readonly Fault[], others: HTMLElement): void {
  const left = new Set(faults);
  let first: Field | null = null;
  for (const field of fields) {
    const own = faults.filter((fault) => left.has(fault) && field.about.some((words) => isAbout(fault, words)));
    for (const fault of own) left.delete(fault);
    fill(field.room, own.map(sentenceOf).join(" "));
    if (own.length > 0) field.input.setAttribute("aria-invalid", "true");
    else field.input.removeAttribute("aria-invalid");
    if (own.length > 0 && first === null) first = field;
  }
  fill(others, ...[...left].map((fault) => element("p", {}, sentenceOf(fault))));
  if (first !== null) first.input.focus();
  else if (left.size > 0) others.scrollIntoView({ block: "nearest" });
}

const isAbout = ({ saw, code }: Fault, words: string): boolean => code === words || saw.includes(words);

function sentenceOf({ where, line, column, saw, remedy }: Fault): string {
  const at = [
    where === "instrument" || where === "visit" || where === "settings" ? null : where,
    line === null ? null : `line ${line}`,
    column === null ? null : `column ${column}`,
  ].filter((part) => part !== null);
  const seen = saw.charAt(0).toUpperCase() + saw.slice(1);
  return `${at.length === 0 ? "" : `${at.join(", ")}: `}${seen}. ${remedy}`;
}
