/**
 * The page: bring readings, read the answer. Holds what was brought, what was said, and the last good answer.
 *
 * A faulty file never takes the last good answer away: it stays, marked as the former one, until a better one comes.
 */
import type { Examination } from "../../server/core/examination.ts";
import type { Answer, Example, ExampleFiles, Given, KindEntry, Progress } from "../api.ts";
import { deepestReadingIn } from "../chart/deepestReading.ts";
import { boardHead } from "../views/boardHead.ts";
import { element, fill } from "../views/element.ts";
import { drawFaults } from "../views/faults.ts";
import { drawPlaning } from "../views/planingTable.ts";
import { drawReadings } from "../views/readingsTable.ts";
import { drawShape } from "../views/shapeTables.ts";
import { drawSheetFoot } from "../views/sheetFoot.ts";
import { drawCautions, drawThickness, drawWornPlaces } from "../views/tables.ts";
import { drawVerdict } from "../views/verdict.ts";
import { boardLines, footWords } from "./boardWords.ts";
import { type Brought, nothingBrought, nothingWaits, sortBrought, type Waiting } from "./broughtFiles.ts";
import { drawing } from "./drawing.ts";
import { listenForDrops } from "./drops.ts";
import { type FileSettings, fileSettingsOf } from "./fileSettings.ts";
import { aboutHowMany, busyText } from "./longFile.ts";
import { noticeAbout } from "./notice.ts";
import { settingsDrawer } from "./settingsDrawer.ts";
import { changedByYou, type Said, saidForNewBoard } from "./settingsSaid.ts";

/** What the page asks of the server. */
export type Service = {
  readonly examine: (given: Given, points: "all" | "few", tell: (progress: Progress) => void) => Promise<Answer>;
  readonly kinds: () => Promise<readonly KindEntry[]>;
  readonly examples: () => Promise<readonly Example[]>;
  readonly exampleFiles: (example: Example) => Promise<ExampleFiles | null>;
};

export async function openBench(body: HTMLElement, service: Service): Promise<void> {
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
  const welcome = element("p", { class: "welcome" });
  const notice = element("section", { class: "notice", role: "status" });
  const busy = element("p", { class: "busy", role: "status" });
  const faults = element("section", { class: "faults", role: "alert", "aria-label": "Faults", hidden: true });
  const formerMark = element("p", { class: "former-mark", hidden: true });
  const verdict = element("header", { class: "verdict" });
  const sheet = element("section", { class: "drawing", "aria-label": "Drawing" });
  const places = element("section", { class: "places" });
  const shape = element("section", { class: "shape" });
  const planing = element("section", { class: "planing" });
  const thickness = element("section", { class: "thickness" });
  const readings = element("section", { class: "readings" });
  const cautions = element("section", { class: "cautions" });
  const foot = element("footer", { class: "sheet-foot" });
  const answer = element(
    "div",
    { class: "answer", hidden: true },
    formerMark,
    verdict,
    sheet,
    element("div", { class: "notes" }, places, planing, thickness, shape, readings, cautions),
    foot,
  );
  const dropHere = element("div", { class: "drop-here", hidden: true }, "Drop readings here, and thickness with them");
  body.append(
    element(
      "nav",
      { class: "banner", "aria-label": "Boardtrue" },
      element("p", { class: "wordmark" }, "Boardtrue"),
      element("label", {}, "Example ", exampleSelect),
      element("label", {}, "Instrument ", kindSelect),
      settingsButton,
      bring,
      picker,
    ),
    element("main", {}, welcome, notice, faults, answer, busy),
    dropHere,
  );
  const drawn = drawing(sheet);

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
    const [result, settings] = await Promise.all([
      service.examine({ readings, thickness, rail, settings: said }, about === null ? "all" : "few", tell),
      fileSettingsOf(readings),
    ]);
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
    formerMark.hidden = true;
    answer.hidden = false;
    answer.classList.remove("former");
    const { instrument } = examination;
    const words = { lines: boardLines(examination, brought, opened), changed: changedByYou(said) };
    drawVerdict(
      verdict,
      examination,
      boardHead(words, () => say({})),
    );
    drawn.show(examination);
    drawWornPlaces(places, examination, (place) => {
      const [xMm, yMm] = deepestReadingIn(place, examination);
      drawn.chooseAt(xMm, yMm);
      sheet.scrollIntoView({ block: "nearest" });
    });
    drawShape(shape, examination);
    drawPlaning(planing, examination, (said.aim ?? inFile.get("aim")?.value) === "own");
    drawThickness(thickness, examination);
    drawReadings(readings, examination);
    drawCautions(cautions, examination);
    drawFoot();
    document.title = `${instrument.kind} ${instrument.size} · Boardtrue`;
  }

  function drawFoot(): void {
    if (good !== null) drawSheetFoot(foot, footWords(good, brought, inFile, said), new Date());
  }

  function showFaulty(result: Exclude<Answer, { outcome: "examined" }>): void {
    wasFaulty = true;
    if (result.outcome === "faulty") drawFaults(faults, result.faults, good !== null);
    else {
      faults.hidden = false;
      fill(faults, element("h2", {}, "No answer"), element("p", {}, result.why));
    }
    if (good !== null) {
      answer.classList.add("former");
      formerMark.hidden = false;
      formerMark.textContent = "The former answer, from before what stands in the way above:";
    }
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

  const [kinds, examples] = await Promise.all([service.kinds(), service.examples()]);
  kindSelect.append(...kinds.map((kind) => element("option", { value: kind.instrument }, kind.instrument)));
  exampleSelect.append(
    ...examples.map((example) => element("option", { value: example.id }, `${example.number} ${example.title}`)),
  );
  const openExample = async (example: Example): Promise<void> => {
    brought = (await service.exampleFiles(example)) ?? nothingBrought;
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
