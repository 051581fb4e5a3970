/**
 * The instruments: found by number as fast as one types, opened by key or finger, and added.
 *
 * The list stands as it is until the answer to the last key has come; an overtaken question is called off. Arrow keys go through the list,
 * Enter opens the first, or the one that is gone to.
 */
import { kinds as askKinds, faultsIn } from "../api/bench.ts";
import { addInstrument, findInstruments, further, type Instrument, type InstrumentList } from "../api/instruments.ts";
import { storyPage } from "../views/addresses.ts";
import { element, fill } from "../views/element.ts";
import { textInput } from "../views/formFields.ts";
import { bdi, decisionText, kindText, shortDayText } from "../views/recordWords.ts";
import { refusal } from "../views/refusal.ts";
import { instrumentForm } from "./instrumentForm.ts";
import type { Shell } from "./shell.ts";

const rowsAtOnce = 25;

export async function openInstruments({ base, main }: Shell): Promise<void> {
  document.title = "Instruments · Boardtrue";
  const field = textInput("", { id: "number", spellcheck: false, maxlength: "80", "aria-controls": "found" });
  const said = element("p", { class: "said", role: "status" });
  const rows = element("tbody");
  const list = element(
    "table",
    { class: "found", id: "found", hidden: true },
    element("caption", { class: "hidden-input" }, "Instruments found"),
    element(
      "thead",
      {},
      element(
        "tr",
        {},
        ...["number", "instrument", "label", "last visit", "found then"].map((head) =>
          element("th", { scope: "col" }, head),
        ),
      ),
    ),
    rows,
  );
  const more = element("button", { type: "button", hidden: true }, "More of them");
  const add = element("details", { class: "add" }, element("summary", {}, "Add an instrument"));
  fill(
    main,
    element("h1", { class: "page-name" }, "Instruments"),
    element("label", { class: "find", for: "number" }, "Number ", field),
    said,
    list,
    more,
    add,
  );
  field.focus();

  let under = new AbortController();
  let next: string | null = null;

  async function find(): Promise<void> {
    under.abort();
    under = new AbortController();
    const typed = field.value.trim();
    const reply = await findInstruments(base, typed, rowsAtOnce, under.signal);
    if (reply.outcome === "refused") return fill(said, ...refusal(reply));
    const { instruments } = reply.body;
    fill(rows, ...instruments.map(row));
    sayNext(reply.body);
    list.hidden = instruments.length === 0;
    fill(
      said,
      ...(instruments.length > 0 ? [] : typed === "" ? nothingYet(base) : [`No number holds “`, bdi(typed), `”.`]),
    );
    if (instruments.length === 0 && typed === "") add.open = true;
  }

  const row = (instrument: Instrument): HTMLTableRowElement =>
    element(
      "tr",
      {},
      element(
        "td",
        { class: "number" },
        element("a", { href: storyPage(base, instrument.number) }, bdi(instrument.number)),
      ),
      element("td", {}, kindText(instrument)),
      element("td", { class: "label" }, bdi(instrument.label)),
      element("td", {}, instrument.lastVisit === null ? "no visit yet" : shortDayText(instrument.lastVisit)),
      element("td", {}, instrument.lastDecision == null ? "" : decisionText(instrument.lastDecision)),
    );

  function sayNext(body: InstrumentList): void {
    next = body.next;
    more.hidden = next === null;
  }

  const links = () => [...rows.querySelectorAll("a")];
  const step = (by: number): void => {
    const all = links();
    const at = all.indexOf(document.activeElement as HTMLAnchorElement) + by;
    if (at < 0) field.focus();
    else all[Math.min(at, all.length - 1)]?.focus();
  };
  field.addEventListener("input", () => void find());
  field.addEventListener("keydown", (event) => {
    if (event.key === "Enter") links()[0]?.click();
    else if (event.key === "ArrowDown") step(1);
    else return;
    event.preventDefault();
  });
  rows.addEventListener("keydown", (event) => {
    if (event.key === "ArrowDown") step(1);
    else if (event.key === "ArrowUp") step(-1);
    else if (event.key.length === 1 && !event.ctrlKey && !event.metaKey && !event.altKey && event.key !== " ")
      return field.focus();
    else return;
    event.preventDefault();
  });
  more.addEventListener("click", () => {
    if (next === null) return;
    void further<InstrumentList>(next).then((reply) => {
      if (reply.outcome === "refused") return fill(said, ...refusal(reply));
      rows.append(...reply.body.instruments.map(row));
      sayNext(reply.body);
    });
  });

  const [kinds] = await Promise.all([askKinds(), find()]);
  const form = instrumentForm(kinds, null);
  const trouble = element("div", { class: "trouble", role: "alert" });
  const make = element("button", { type: "submit", class: "bring" }, "Add it");
  const sheet = element("form", { novalidate: true }, form.element, trouble, make);
  add.append(sheet);
  add.addEventListener("toggle", () => {
    if (!add.open) return;
    if (form.number.value === "" && links().length === 0) form.number.value = field.value.trim();
    if (document.activeElement?.tagName === "SUMMARY") form.number.focus();
  });
  sheet.addEventListener("submit", (event) => {
    event.preventDefault();
    make.disabled = true;
    void addInstrument(base, form.said()).then((reply) => {
      make.disabled = false;
      if (reply.outcome === "answered") return location.assign(storyPage(base, reply.body.number));
      const faults = faultsIn(reply.problem);
      form.tell(faults);
      fill(trouble, ...(faults.length > 0 ? [] : refusal(reply)));
    });
  });
}

const nothingYet = (base: string): readonly (Node | string)[] =>
  base !== ""
    ? ["The loan store is being made: look again in a few seconds."]
    : [
        "No instrument stands here yet: add the first below, with the number your workshop knows it by. ",
        "Or look round in ",
        element("a", { href: "/invented/instruments" }, "an invented loan store"),
        " first, where nothing is kept.",
      ];
