/**
 * Where each section across stands on the sheet, and at which scale.
 *
 * Sections in mm, room in px -> cells. Two ways to lay them: stacked beside the plan, or in rows under it, as many in a row as stand
 * clear (a tablet, a telephone, paper): all are seen at once. All share one scale across and one rounded factor for
 * departures from the unworn arc.
 */
import type { Examination, Section } from "../../server/core/examination.ts";
import { levelOf } from "./sectionLevel.ts";

export type SectionsWay = "stack" | "rows";

export type SectionCell = {
  readonly section: Section;
  /** Place in the examination's list. */
  readonly index: number;
  readonly leftPx: number;
  readonly topPx: number;
  readonly widthPx: number;
  readonly heightPx: number;
};

export type SectionsLayout = {
  readonly cells: readonly SectionCell[];
  readonly pxPerMm: number;
  readonly factor: number;
  readonly widthPx: number;
  readonly heightPx: number;
};

/** Room above the cells for the words that state the scale. */
const sectionsHeadPx = 44;
/** Room in a cell right of the arc for the crossline's distance. */
export const sectionLabelPx = 58;
/** From the top of a cell to the crown of its arc. */
export const crownPx = 14;

/** Least width of a cell in a row: an arc of some 90 px and the crossline's distance. */
const leastCellPx = 145;
/** No more sections than a page has room for; the chosen one is always among them. */
const mostSections = 14;

export function laySections(
  examination: Examination,
  chosen: number,
  roomPx: number,
  way: SectionsWay,
): SectionsLayout {
  const shown = shownSections(examination.sections, chosen);
  const cellsInRow = way === "stack" ? 1 : Math.max(1, Math.min(shown.length, Math.floor(roomPx / leastCellPx)));
  const widthPx = roomPx / cellsInRow;
  const pxPerMm = (widthPx - sectionLabelPx) / examination.instrument.widthEndMm.value;
  const factor = departureFactor(
    shown.map(({ section }) => section),
    pxPerMm,
  );
  const needed = shown.map(({ section }) =>
    Math.max(44, crownPx + 12 + (riseMm(section) + wornMm(section) * factor) * pxPerMm),
  );
  const tallest = Math.max(0, ...needed);
  let stackedPx = sectionsHeadPx;
  const cells = shown.map(({ section, index }, i): SectionCell => {
    if (way === "stack") {
      const cell = { section, index, leftPx: 0, topPx: stackedPx, widthPx, heightPx: needed[i]! };
      stackedPx += needed[i]!;
      return cell;
    }
    return {
      section,
      index,
      leftPx: (i % cellsInRow) * widthPx,
      topPx: sectionsHeadPx + Math.floor(i / cellsInRow) * tallest,
      widthPx,
      heightPx: tallest,
    };
  });
  return {
    cells,
    pxPerMm,
    factor,
    widthPx: roomPx,
    heightPx: Math.max(sectionsHeadPx, ...cells.map((cell) => cell.topPx + cell.heightPx)) + 8,
  };
}

function shownSections(sections: readonly Section[], chosen: number): readonly { section: Section; index: number }[] {
  const stride = Math.ceil(sections.length / mostSections);
  return sections
    .map((section, index) => ({ section, index }))
    .filter(({ index }) => index % stride === chosen % stride);
}

/** Rounded so that the largest wear fills no more than some 26 px, and what is laid on no more than 60. */
function departureFactor(sections: readonly Section[], pxPerMm: number): number {
  const worn = Math.max(...sections.map(wornMm));
  const laidOn = Math.max(...sections.map(laidOnMm));
  const fits = [1, 2, 4, 5, 6, 8, 10, 12].filter(
    (factor) => worn * factor * pxPerMm <= 26 && laidOn * factor * pxPerMm <= 60,
  );
  return fits.at(-1) ?? 1;
}

function riseMm(section: Section): number {
  const level = levelOf(section);
  return -Math.min(...section.unwornMm.map((z, k) => z - level(k)));
}

/** How far below the unworn arc the board is worn, at least a hair so that rows never close up. */
const wornMm = (section: Section): number =>
  Math.max(0.05, ...section.measuredMm.map((z, k) => section.unwornMm[k]! - z));

/** How far target or template stand from the unworn arc, either way: a template hangs far over a flat facet. */
const laidOnMm = (section: Section): number =>
  Math.max(
    0,
    ...[section.targetMm ?? [], section.templateMm].flatMap((heightsMm) =>
      heightsMm.map((z, k) => Math.abs(z - section.unwornMm[k]!)),
    ),
  );
