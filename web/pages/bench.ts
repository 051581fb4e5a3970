/**
 * The bench: bring readings, read the answer, keep it. Holds what was brought, what was said, and the last good answer.
 *
 * A faulty file never takes the last good answer away: it stays, marked as the former one, until a better one comes. With an instrument
 * of the records the bench begins a visit of it: what is on record about it holds where neither file nor bench says otherwise.
 */
import type { Examination } from "../../server/core/examination.ts";
import {
  type Answer,
  examples as askExamples,
  kinds as askKinds,
  type Example,
  examine,
  exampleFiles,
} from "../api/bench.ts";
import { instrument as askInstrument, type Instrument } from "../api/instruments.ts";
import type { Progress } from "../api/reach.ts";
import { instrumentsPage, storyPage, visitPage } from "../views/addresses.ts";
import { boardHead } from "../views/boardHead.ts";
import { element, fill } from "../views/element.ts";
import { drawFaults } from "../views/faults.ts";
import { bdi, dayText, kindText } from "../views/recordWords.ts";
import { refusal } from "../views/refusal.ts";
import { answerSheet } from "./answerSheet.ts";
import { boardLines, footWords } from "./boardWords.ts";
import { type Brought, nothingBrought, nothingWaits, sortBrought, type Waiting } from "./broughtFiles.ts";
import { listenForDrops } from "./drops.ts";
import { type FileSettings, fileSettingsOf } from "./fileSettings.ts";
import { keepDrawer } from "./keepDrawer.ts";
import { aboutHowMany, busyText } from "./longFile.ts";
import { noticeAbout } from "./notice.ts";
import { otherKindFault, settingsOnRecord } from "./onRecord.ts";
import { settingsDrawer } from "./settingsDrawer.ts";
import { changedByYou, type Said, saidForNewBoard } from "./settingsSaid.ts";
import type { Shell } from "./shell.ts";

export async function openBench({ base, tools, main }: Shell, number: string | null): Promise<void> {
  const body = document.body;
  const picker = element("input", {
    type: "file",
    id: "pick-files",
    class: "hidden-input",
    multiple: true,
    accept: ".csv,.tsv,.txt,text/csv",
    tabindex: "-1",
    "aria-label": "Files of readings, thickness and rail",
  });
  const bring = element("button", { type: "button", class: "bring" }, "Bring readings…");
  const exampleSelect = element("select", { id: "example" }, element("option", { value: "" }, "your own"));
  const kindSelect = element("select", { id: "instrument" }, element("option", { value: "" }, "as the file says"));
  const settingsButton = element("button", { type: "button" }, "Settings");
  const keepButton = element("button", { type: "button", class: "keep", hidden: true }, "Keep this visit…");
  const welcome = element("p", { class: "welcome" });
  const notice = element("section", { class: "notice", role: "status" });
  const busy = element("p", { class: "busy", role: "status" });
  const faults = element("section", { class: "faults", role: "alert", "aria-label": "Faults", hidden: true });
  const sheet = answerSheet();
  const dropHere = element("div", { class: "drop-here", hidden: true }, "Drop readings here, and thickness with them");
  const found = number === null ? null : await askInstrument(base, number);
  const fixed: Instrument | null = found?.outcome === "answered" ? found.body : null;
  tools.append(
    ...(fixed === null
      ? [element("label", {}, "Example ", exampleSelect), element("label", {}, "Instrument ", kindSelect)]
      : [visitOf(base, fixed)]),
    settingsButton,
    bring,
    keepButton,
    picker,
  );
  main.append(welcome, notice, faults, sheet.element, busy);
  body.append(dropHere);

  let brought: Brought = nothingBrought;
  let waiting: Waiting = nothingWaits;
  let inFile: FileSettings = new Map();
  let said: Said = {};
  let good: Examination | null = null;
  let wasFaulty = false;
  let opened: Example | null = null;
  let turn = 0;

  async function examineBrought(): Promise<void> {
    const { readings, thickness, rail } = brought;
    if (readings === null) return;
    const mine = ++turn;
    kindSelect.value = said.instrument ?? "";
    body.setAttribute("aria-busy", "true");
    const about = await aboutHowMany(readings);
    if (mine !== turn) return;
    const tell = (progress: Progress) => {
      const text = busyText(readings.name, about, progress);
      if (mine === turn && busy.textContent !== text) busy.textContent = text;
    };
    tell({ stage: "sending", share: 0 });
    const settings = await fileSettingsOf(readings);
    const otherKind = fixed === null ? null : otherKindFault(fixed, settings);
    const given = { readings, thickness, rail, settings: { ...settingsOnRecord(fixed, settings), ...said } };
    const result: Answer =
      otherKind === null
        ? await examine(given, about === null ? "all" : "few", tell)
        : { outcome: "faulty", faults: [otherKind] };
    if (mine !== turn) return;
    body.removeAttribute("aria-busy");
    busy.textContent = "";
    inFile = settings;
    if (result.outcome === "examined") showGood(result.examination);
    else showFaulty(result);
  }

  function showGood(examination: Examination): void {
    good = examination;
    wasFaulty = false;
    drawFaults(faults, [], false);
    sheet.markFormer(null);
    const { instrument } = examination;
    const words = { lines: boardLines(examination, brought, opened), changed: changedByYou(said) };
    const isOwnAim = (said.aim ?? inFile.get("aim")?.value) === "own";
    sheet.show(
      examination,
      boardHead(words, () => say({})),
      isOwnAim,
    );
    // An example is nobody's board: it is kept in the invented loan store only.
    keepButton.hidden = opened !== null && base === "";
    drawFoot();
    document.title = `${instrument.kind} ${instrument.size} · Boardtrue`;
  }

  function drawFoot(): void {
    if (good !== null) sheet.foot(footWords(good, brought, inFile, said));
  }

  function showFaulty(result: Exclude<Answer, { outcome: "examined" }>): void {
    wasFaulty = true;
    keepButton.hidden = true;
    if (result.outcome === "faulty") drawFaults(faults, result.faults, good !== null);
    else {
      faults.hidden = false;
      fill(faults, element("h2", {}, "No answer"), element("p", {}, result.why));
    }
    if (good !== null) sheet.markFormer("The former answer, from before what stands in the way above:");
    faults.scrollIntoView({ block: "nearest" });
  }

  async function take(files: readonly File[]): Promise<void> {
    if (files.length === 0) return;
    const before = { onSheet: brought, isExample: opened !== null, waiting, isMending: wasFaulty };
    const sorted = await sortBrought(files, before);
    waiting = sorted.waiting;
    fill(welcome);
    const isNewBoard = sorted.board !== null && sorted.board.readings !== brought.readings && !wasFaulty;
    const { kept, letGo } = isNewBoard ? saidForNewBoard(said) : { kept: {}, letGo: {} };
    const keptRail = isNewBoard && opened === null && sorted.board?.rail === brought.rail ? brought.rail : null;
    fill(notice, ...noticeAbout(sorted, kept, letGo, keptRail).map((line) => element("p", {}, line)));
    if (sorted.board === null) {
      notice.scrollIntoView({ block: "nearest" });
      return;
    }
    brought = sorted.board;
    if (isNewBoard) said = kept;
    exampleSelect.value = "";
    opened = null;
    await examineBrought();
  }

  function say(next: Said): void {
    said = next;
    void examineBrought();
  }

  const keep = keepDrawer(body, base, (kept) => {
    keepButton.hidden = true;
    const address = visitPage(base, kept.number, kept.id);
    fill(
      notice,
      element(
        "p",
        { class: "kept" },
        kept.isNew ? "Kept: " : "Kept already, so not twice: ",
        element("a", { href: address }, bdi(kept.number), `, visit of ${dayText(kept.date)}`),
        ". ",
        element("a", { href: storyPage(base, kept.number) }, "Its story"),
      ),
    );
    notice.scrollIntoView({ block: "nearest" });
  });
  keepButton.addEventListener("click", () => {
    if (good === null || brought.readings === null) return;
    keep.show({
      given: { ...brought, readings: brought.readings, settings: said },
      examination: good,
      instrument: fixed,
    });
  });
  const settings = settingsDrawer(body, (next, rail) => {
    brought = { ...brought, rail };
    say(next);
  });
  settingsButton.addEventListener("click", () => settings.show(good, inFile, said, brought.rail));
  bring.addEventListener("click", () => picker.click());
  picker.addEventListener("change", () => {
    void take([...(picker.files ?? [])]);
    picker.value = "";
  });
  kindSelect.addEventListener("change", () => {
    const { instrument: _, ...others } = said;
    say(kindSelect.value === "" ? others : { ...others, instrument: kindSelect.value });
  });
  listenForDrops(dropHere, (files) => void take(files));
  addEventListener("beforeprint", drawFoot);

  if (fixed !== null) {
    document.title = `${fixed.number} at the bench · Boardtrue`;
    fill(
      welcome,
      "Drop this instrument’s readings anywhere on this page, and thickness with them, or bring them with the button. What is on record about it holds, unless the file says otherwise.",
    );
    return;
  }
  const [{ kinds }, examples] = await Promise.all([askKinds(), askExamples()]);
  kindSelect.append(...kinds.map((kind) => element("option", { value: kind.instrument }, kind.instrument)));
  exampleSelect.append(
    ...examples.map((example) => element("option", { value: example.id }, `${example.number} ${example.title}`)),
  );
  const openExample = async (example: Example): Promise<void> => {
    brought = (await exampleFiles(example)) ?? nothingBrought;
    waiting = nothingWaits;
    said = {};
    wasFaulty = false;
    exampleSelect.value = example.id;
    opened = example;
    fill(welcome, example.story);
    fill(notice);
    await examineBrought();
  };
  exampleSelect.addEventListener("change", () => {
    const chosen = examples.find((example) => example.id === exampleSelect.value);
    if (chosen !== undefined) void openExample(chosen);
  });
  if (found?.outcome === "refused") {
    fill(
      notice,
      element("p", {}, ...refusal(found), " ", element("a", { href: instrumentsPage(base) }, "To the instruments")),
    );
    return;
  }
  const first = examples[0];
  if (first === undefined) {
    fill(
      welcome,
      "Drop a file of height readings anywhere on this page, and thickness readings with it if you have them.",
    );
    return;
  }
  await openExample(first);
  if (brought.readings !== null && exampleSelect.value === first.id) {
    fill(
      welcome,
      `The example here is ${first.number}, “${first.title}”: the chart shows how much wood is gone, and where. `,
      "Every figure carries its uncertainty, and the headline says what to do. ",
      "Drop your own readings (CSV) anywhere on this page, or bring them with the button.",
    );
  }
}

const visitOf = (base: string, instrument: Instrument): HTMLElement =>
  element(
    "p",
    { class: "visit-of" },
    "A visit of ",
    element("a", { href: storyPage(base, instrument.number) }, bdi(instrument.number)),
    `, ${kindText(instrument)}`,
  );
