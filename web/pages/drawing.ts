/**
 * The drawing: plan, profiles and sections on the sheet, and the one choice that runs through them.
 *
 * Holds what is in view (map, nearness, choice, width) and redraws. Views get everything as arguments and only draw. The expensive ground is
 * redrawn when the examination, the map or the room changes; a change of choice redraws only what depends on it.
 */
import { pointer } from "d3";
import type { Examination } from "../../server/core/examination.ts";
import { type Choice, choiceAt, firstChoice, step } from "../chart/choice.ts";
import { type MapKind, rampOf, type Scheme } from "../chart/palette.ts";
import { type Margins, type Nearness, type PlanScales, planScales, wholeBoard } from "../chart/scales.ts";
import { laySections } from "../chart/sectionCells.ts";
import { type Sheet, sheetOf } from "../chart/sheet.ts";
import { element, fill } from "../views/element.ts";
import { legendPlace } from "../views/legend.ts";
import { drawPlanChoice } from "../views/planChoice.ts";
import { planNoteText } from "../views/planNote.ts";
import { drawProfileChoice } from "../views/profileChoice.ts";
import { drawProfiles, layProfiles, type ProfileSheet } from "../views/profiles.ts";
import { readoutText } from "../views/readout.ts";
import { drawSections } from "../views/sections.ts";
import { drawShading } from "../views/shading.ts";
import { drawWearMap } from "../views/wearMap.ts";

const maps: readonly { readonly kind: MapKind; readonly name: string }[] = [
  { kind: "wear", name: "Wear" },
  { kind: "cut", name: "Planing map" },
  { kind: "humps", name: "Humps" },
];

const nearest = 6;
/** Width of the printed drawing in its own px; the sheet scales it to the paper. */
const sheetPx = 1040;

export type Drawing = {
  readonly show: (examination: Examination) => void;
  readonly chooseAt: (xMm: number, yMm: number) => void;
};

export function drawing(parent: HTMLElement): Drawing {
  const canvas = element("canvas", { "aria-hidden": "true" });
  const plan = svgElement("Plan of the board: chart of depths");
  const profiles = svgElement("Profiles along each string");
  const sections = svgElement("Sections across the board");
  const readout = element("p", { class: "readout", id: "readout", role: "status", "aria-live": "polite" });
  const planNote = element("p", { class: "plan-note origin" });
  const mapButtons = maps.map(({ kind, name }) => {
    const button = element("button", { type: "button", "aria-pressed": "false", "data-map": kind }, name);
    button.addEventListener("click", () => showMap(kind));
    return button;
  });
  const stepButton = (label: string, name: string, strings: number, crosslines: number) =>
    toolButton(label, name, () => {
      if (examination !== null) choose(step(examination, choice, strings, crosslines));
    });
  const trueWidths = toolButton("true widths", "Draw widths to the same scale as lengths", () => {
    hasTrueWidths = !hasTrueWidths;
    redraw();
  });
  const lengthwise = element(
    "div",
    {
      class: "lengthwise",
      tabindex: "0",
      role: "application",
      "aria-label":
        "Drawing of the board. Up and down choose the string, left and right the crossline; plus and minus draw it larger and smaller, 0 whole.",
      "aria-describedby": "readout",
    },
    element("div", { class: "plan" }, canvas, plan),
    planNote,
    element("p", { class: "keys origin" }, "Keys: ← → crossline, ↑ ↓ string, + − larger and smaller, 0 whole board."),
    profiles,
  );
  const tools = element(
    "div",
    { class: "tools", role: "toolbar", "aria-label": "Map and view" },
    ...mapButtons,
    element("span", { class: "spring" }),
    element(
      "span",
      { class: "steps" },
      element("span", { class: "name", "aria-hidden": "true" }, "crossline"),
      stepButton("◂", "Crossline nearer the nut", 0, -1),
      stepButton("▸", "Crossline nearer the bridge", 0, 1),
      element("span", { class: "name", "aria-hidden": "true" }, "string"),
      stepButton("▴", "Next higher string", 1, 0),
      stepButton("▾", "Next lower string", -1, 0),
      element("span", { class: "name view", "aria-hidden": "true" }, "view"),
    ),
    toolButton("−", "Draw the board smaller", () => approach(nearness.times / 1.5)),
    toolButton("+", "Draw the board larger", () => approach(nearness.times * 1.5)),
    toolButton("whole", "Whole board", () => approach(1)),
    trueWidths,
  );
  const across = element("div", { class: "across" }, sections);
  fill(parent, element("div", {}, tools, readout, lengthwise), across);

  let examination: Examination | null = null;
  let kind: MapKind = "wear";
  let nearness: Nearness = wholeBoard;
  let hasTrueWidths = false;
  let choice: Choice = { string: 0, crossline: 0, readAtMm: null };
  let scales: PlanScales | null = null;
  let sheet: Sheet | null = null;
  let rows: ProfileSheet | null = null;
  let isPrinting = false;
  const printing = () => isPrinting || matchMedia("print").matches;

  function redraw(): void {
    if (examination === null) return;
    const widthPx = printing() ? sheetPx : Math.max(320, Math.floor(lengthwise.clientWidth));
    const near = printing() ? wholeBoard : nearness;
    scales = planScales(examination.instrument, widthPx, marginsFor(widthPx), near, hasTrueWidths);
    sheet = sheetOf(examination, kind);
    const ramp = rampOf(printing() ? "print" : scheme(), kind);
    drawWearMap(plan, examination, sheet, scales, ramp);
    drawShading(canvas, examination.instrument, sheet, ramp, scales, legendPlace(scales));
    rows = layProfiles(examination, scales, printing() ? printedRowPx(examination) : widthPx < 900 ? 84 : 76);
    drawProfiles(profiles, examination, scales, rows);
    // Few readings carry no profiles and no sections: what would be empty is not shown.
    parent.classList.toggle("bare", examination.profiles.length === 0);
    planNote.textContent = planNoteText(examination, sheet, scales);
    for (const button of mapButtons) button.setAttribute("aria-pressed", String(button.dataset.map === kind));
    trueWidths.setAttribute("aria-pressed", String(hasTrueWidths));
    redrawChoice();
  }

  function redrawChoice(): void {
    if (examination === null || scales === null || rows === null) return;
    drawPlanChoice(plan, examination, scales, choice);
    drawProfileChoice(profiles, examination, scales, rows, choice);
    const roomPx = printing() ? sheetPx : Math.max(240, across.clientWidth);
    const way = !printing() && roomPx < 420 ? "stack" : "rows";
    drawSections(sections, examination, laySections(examination, choice.crossline, roomPx, way), choice);
    readout.textContent = readoutText(examination, choice);
  }

  function choose(next: Choice): void {
    choice = next;
    redrawChoice();
  }

  function showMap(next: MapKind): void {
    kind = next;
    redraw();
  }

  /** Draws nearer or farther, keeping the chosen crossline in view. */
  function approach(times: number): void {
    if (examination === null) return;
    const lengthMm = examination.instrument.boardLengthMm.value;
    const near = Math.min(nearest, Math.max(1, times));
    const centreMm = examination.sections[choice.crossline]?.xMm ?? lengthMm / 2;
    nearness = { times: near, fromMm: centreMm - lengthMm / near / 2 };
    redraw();
  }

  lengthwise.addEventListener("keydown", (event) => {
    if (examination === null) return;
    const steps: Readonly<Record<string, readonly [number, number]>> = {
      ArrowUp: [1, 0],
      ArrowDown: [-1, 0],
      ArrowLeft: [0, -1],
      ArrowRight: [0, 1],
    };
    const move = steps[event.key];
    if (move !== undefined) choose(step(examination, choice, move[0], move[1]));
    else if (event.key === "+" || event.key === "=") approach(nearness.times * 1.5);
    else if (event.key === "-") approach(nearness.times / 1.5);
    else if (event.key === "0") approach(1);
    else return;
    event.preventDefault();
  });
  plan.addEventListener("pointerdown", (event) => {
    if (examination === null || scales === null) return;
    const [x, y] = pointer(event, plan);
    choose(choiceAt(examination, [scales.x.invert(x), scales.y.invert(y)]));
  });
  profiles.addEventListener("pointerdown", (event) => {
    if (examination === null || scales === null || rows === null) return;
    const [x, y] = pointer(event, profiles);
    const distances = rows.rows.map((row) => Math.abs(row.topPx + row.heightPx / 2 - y));
    const { crossline } = choiceAt(examination, [scales.x.invert(x), 0]);
    choose({ string: distances.indexOf(Math.min(...distances)), crossline, readAtMm: null });
  });
  sections.addEventListener("click", (event) => {
    const index = (event.target as Element).closest("[data-crossline]")?.getAttribute("data-crossline");
    if (index !== null && index !== undefined) choose({ ...choice, crossline: Number(index), readAtMm: null });
  });
  let lastWidth = 0;
  new ResizeObserver(() => {
    if (lengthwise.clientWidth === lastWidth) return;
    lastWidth = lengthwise.clientWidth;
    redraw();
  }).observe(lengthwise);
  matchMedia("(prefers-color-scheme: dark)").addEventListener("change", redraw);
  matchMedia("print").addEventListener("change", redraw);
  addEventListener("beforeprint", () => {
    isPrinting = true;
    redraw();
  });
  addEventListener("afterprint", () => {
    isPrinting = false;
    redraw();
  });

  return {
    show: (next) => {
      const isSameBoard =
        examination !== null &&
        examination.sections.length === next.sections.length &&
        examination.instrument.kind === next.instrument.kind;
      examination = next;
      if (!isSameBoard) {
        choice = firstChoice(next);
        nearness = wholeBoard;
      }
      redraw();
    },
    chooseAt: (xMm, yMm) => {
      if (examination !== null) choose(choiceAt(examination, [xMm, yMm]));
    },
  };
}

const scheme = (): Scheme => (matchMedia("(prefers-color-scheme: dark)").matches ? "lamp" : "paper");

/** Room about the board: string names left, hollows and legend right, the deepest place's words above, positions below. */
const marginsFor = (widthPx: number): Margins => ({ left: 40, right: widthPx < 900 ? 124 : 136, top: 46, bottom: 34 });

/** Paper is short: a row is as high as the words beside it, three lines where a hollow is not right. */
const printedRowPx = ({ surface }: Examination): number =>
  surface.hollows.every((hollow) => hollow.state === "within") ? 45 : 54;

function svgElement(label: string): SVGSVGElement {
  const svg = document.createElementNS("http://www.w3.org/2000/svg", "svg");
  svg.setAttribute("role", "img");
  svg.setAttribute("aria-label", label);
  return svg;
}

function toolButton(label: string, name: string, act: () => void): HTMLButtonElement {
  const button = element("button", { type: "button", class: "step", "aria-label": name, title: name }, label);
  button.addEventListener("click", act);
  return button;
}
