/**
 * Keeping a visit: the day, the instrument where the bench has none, what is to be written down, and the player's notes apart.
 *
 * What was examined -> a visit on disk, told by its address. Whatever happens, what was typed stays until it is kept: the drawer may be
 * closed and opened again. The same readings again are told, with where they are.
 */
import type { Examination } from "../../server/core/examination.ts";
import type { Base } from "../api/addresses.ts";
import { faultsIn, type Given } from "../api/bench.ts";
import { addInstrument, type Instrument } from "../api/instruments.ts";
import type { Progress, Refused } from "../api/reach.ts";
import { type KeptElsewhere, keepVisit, visitsOf } from "../api/visits.ts";
import { storyPage } from "../views/addresses.ts";
import { element, fill } from "../views/element.ts";
import { fieldOf, textArea, textInput } from "../views/formFields.ts";
import { bdi, dayText, kindText } from "../views/recordWords.ts";
import { refusal } from "../views/refusal.ts";
import { numberField } from "./numberField.ts";
import { visitForm } from "./visitForm.ts";

export type ToBeKept = {
  readonly given: Given;
  readonly examination: Examination;
  /** Null: the number is asked for. */
  readonly instrument: Instrument | null;
};

export type Kept = { readonly number: string; readonly id: string; readonly date: string; readonly isNew: boolean };

export type KeepDrawer = { readonly show: (toBeKept: ToBeKept) => void };

export function keepDrawer(parent: HTMLElement, base: Base, onKept: (kept: Kept) => void): KeepDrawer {
  const dialog = element("dialog", { class: "settings keeping", "aria-labelledby": "keep-title" });
  parent.append(dialog);
  let now: ToBeKept | null = null;
  return {
    show: (toBeKept) => {
      const isSameBoard = now !== null && now.given.readings === toBeKept.given.readings;
      now = toBeKept;
      if (!isSameBoard) fill(dialog, ...sheetFor(() => now!, base, dialog, onKept));
      dialog.showModal();
    },
  };
}

/** A new form; `now` tells what is on the bench when it is sent. */
function sheetFor(
  now: () => ToBeKept,
  base: Base,
  dialog: HTMLDialogElement,
  onKept: (kept: Kept) => void,
): readonly HTMLElement[] {
  const { instrument: fixed, examination } = now();
  const date = textInput(today(), { type: "date", required: true });
  const dateField = fieldOf(date, { name: "Day of the visit", about: ["the day", "the date", "date"] });
  const board = examination.instrument;
  const number =
    fixed === null
      ? numberField(
          base,
          `Not on record yet: it is added as a ${kindText(board).toLowerCase()}.`,
          (known) => void ofEarlier(known),
        )
      : null;
  const form = visitForm(null, [...(number === null ? [] : [number.field]), dateField]);
  const hand = textInput("");
  const playerNotes = textArea("");
  const trouble = element("div", { class: "trouble", role: "alert" });
  const busy = element("p", { class: "origin", role: "status" });
  const keep = element("button", { type: "submit", class: "bring" }, "Keep");
  const leave = element("button", { type: "button" }, "Not now");
  leave.addEventListener("click", () => dialog.close());

  async function ofEarlier(instrument: Instrument | null): Promise<void> {
    if (instrument === null || instrument.visits === 0) return form.setEarlier([]);
    const reply = await visitsOf(base, instrument.number, 50);
    if (reply.outcome === "answered") form.setEarlier(reply.body.visits.filter((one) => one.withdrawn === null));
  }
  void ofEarlier(fixed);

  async function send(same: "ask" | "keep"): Promise<void> {
    fill(trouble);
    const { notes, faults } = form.said();
    form.tell(faults);
    if (faults.length > 0) return;
    keep.disabled = true;
    const under = await numberToKeepUnder();
    const reply =
      under === null
        ? null
        : await keepVisit(
            base,
            under,
            {
              given: now().given,
              date: date.value,
              notes,
              player: { hand: hand.value.trim(), notes: playerNotes.value.trim() },
              same,
            },
            (progress) => fill(busy, busyWords(progress)),
          );
    keep.disabled = false;
    fill(busy);
    if (reply === null) return;
    if (reply.outcome === "refused") return tell(reply);
    dialog.close();
    onKept({ number: reply.body.number, id: reply.body.id, date: reply.body.date, isNew: reply.status === 201 });
  }

  /** A new number is added to the records first; null where that was refused, and told. */
  async function numberToKeepUnder(): Promise<string | null> {
    if (fixed !== null) return fixed.number;
    const known = number?.known() ?? null;
    if (known !== null) return known.number;
    const { kind, size } = board;
    const added = await addInstrument(base, {
      ...{ number: number?.typed() ?? "", kind, size, label: "", strings: null },
      ...{ build: "unknown" as const, valuable: false, dimensions: {} },
    });
    if (added.outcome === "answered") return added.body.number;
    // Added a moment ago, before what came next went wrong: then it is there.
    if (added.status === 409) return number?.typed() ?? null;
    tell(added);
    return null;
  }

  function tell(reply: Refused): void {
    const faults = faultsIn(reply.problem);
    const elsewhere = (reply.problem.alreadyKept ?? []) as readonly KeptElsewhere[];
    form.tell(faults);
    if (elsewhere.length > 0) {
      fill(trouble, ...sameReadings(base, elsewhere, () => void send("keep")));
      return;
    }
    const others = faults.length > 0 ? ["Not kept yet: see above."] : ["Not kept. ", ...refusal(reply)];
    fill(trouble, element("p", {}, ...others));
  }

  const sheet = element(
    "form",
    { novalidate: true },
    number?.element ?? null,
    element("div", { class: "fields" }, dateField.element),
    form.element,
    element(
      "details",
      { class: "more" },
      element("summary", {}, "The player, kept apart from the board"),
      element("p", { class: "origin" }, "These notes can be erased alone; the readings stay."),
      element(
        "div",
        { class: "fields" },
        fieldOf(hand, { name: "Hand and habits" }).element,
        fieldOf(playerNotes, { name: "Notes" }).element,
      ),
    ),
    element("div", { class: "buttons" }, keep, leave, busy, trouble),
  );
  sheet.addEventListener("submit", (event) => {
    event.preventDefault();
    void send("ask");
  });
  return [
    element("h1", { id: "keep-title" }, "Keep this visit"),
    element(
      "p",
      { class: "origin" },
      ...(fixed === null ? [] : ["Under ", bdi(fixed.number), `, ${kindText(fixed)}. `]),
      "The readings are kept as they were given, for ever.",
    ),
    sheet,
  ];
}

const sameReadings = (
  base: Base,
  elsewhere: readonly KeptElsewhere[],
  keepThem: () => void,
): readonly HTMLElement[] => {
  const button = element("button", { type: "button" }, "Keep them here as well");
  button.addEventListener("click", keepThem);
  return [
    element(
      "p",
      {},
      "The same readings are on record already: ",
      ...elsewhere.flatMap(({ number, date }, i) => [
        i === 0 ? "" : "; ",
        element("a", { href: storyPage(base, number) }, bdi(number)),
        `, ${dayText(date)}`,
      ]),
      ". Are they this board’s?",
    ),
    button,
  ];
};

const busyWords = (progress: Progress): string =>
  progress.stage === "sending"
    ? `Sending: ${Math.floor(progress.share * 10) * 10} %`
    : "Examining and writing to disk…";

/** The day on this desk's calendar, not that of Greenwich. */
function today(): string {
  const now = new Date();
  const two = (part: number) => String(part).padStart(2, "0");
  return `${now.getFullYear()}-${two(now.getMonth() + 1)}-${two(now.getDate())}`;
}
