/**
 * Under which number a visit is to be kept: one that is known, found as one types, or a new one.
 *
 * Text typed -> the instrument of that number, whatever its case and spaces; null where none is known by it.
 */
import type { Base } from "../api/addresses.ts";
import { findInstruments, type Instrument } from "../api/instruments.ts";
import { element, fill } from "../views/element.ts";
import { type Field, fieldOf, textInput } from "../views/formFields.ts";
import { bdi, kindText } from "../views/recordWords.ts";

export type NumberField = {
  readonly field: Field;
  readonly element: HTMLElement;
  readonly typed: () => string;
  readonly known: () => Instrument | null;
};

const mostOffered = 6;

/** `newWords`: what becomes of a number that is not known yet. */
export function numberField(
  base: Base,
  newWords: string,
  onKnown: (instrument: Instrument | null) => void,
): NumberField {
  const input = textInput("", { maxlength: "40", spellcheck: false });
  const field = fieldOf(input, { name: "Number", about: ["the number", "number-missing", "number-taken"] });
  const offered = element("div", { class: "offered" });
  const said = element("p", { class: "origin", role: "status" });
  let known: Instrument | null = null;
  let under = new AbortController();

  async function find(): Promise<void> {
    under.abort();
    under = new AbortController();
    const typed = input.value.trim();
    if (typed === "") {
      fill(offered);
      fill(said);
      return settle(null);
    }
    const reply = await findInstruments(base, typed, mostOffered, under.signal);
    if (reply.outcome === "refused") return fill(said, reply.why);
    const { instruments } = reply.body;
    settle(instruments.find((one) => plain(one.number) === plain(typed)) ?? null);
    fill(said, ...(known === null ? [newWords] : [bdi(known.number), `: ${kindText(known)}. `, bdi(known.label)]));
    fill(offered, ...instruments.filter((one) => one !== known).map(offer));
  }

  function offer(instrument: Instrument): HTMLButtonElement {
    const button = element("button", { type: "button" }, bdi(instrument.number), ` ${kindText(instrument)}`);
    button.addEventListener("click", () => {
      input.value = instrument.number;
      void find();
    });
    return button;
  }

  function settle(instrument: Instrument | null): void {
    const isOther = instrument?.number !== known?.number;
    known = instrument;
    if (isOther) onKnown(instrument);
  }

  input.addEventListener("input", () => void find());
  return {
    field,
    element: element("div", { class: "under-number" }, field.element, said, offered),
    typed: () => input.value.trim(),
    known: () => known,
  };
}

/** As the records compare numbers. */
const plain = (number: string): string => number.normalize("NFC").toLowerCase().replace(/\s+/g, "");
