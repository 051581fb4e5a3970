/**
 * An examination on the page: headline, drawing, tables, foot; the same on the bench and for a visit that was kept.
 *
 * Examination and the words for which board it is -> the sheet. Holds what is drawn; a former answer stays, marked as such.
 */
import type { Examination } from "../../server/core/examination.ts";
import { deepestReadingIn } from "../chart/deepestReading.ts";
import { element } from "../views/element.ts";
import { drawPlaning } from "../views/planingTable.ts";
import { drawReadings } from "../views/readingsTable.ts";
import { drawShape } from "../views/shapeTables.ts";
import { drawSheetFoot } from "../views/sheetFoot.ts";
import { drawCautions, drawThickness, drawWornPlaces } from "../views/tables.ts";
import { drawVerdict } from "../views/verdict.ts";
import { drawing } from "./drawing.ts";

export type AnswerSheet = {
  readonly element: HTMLElement;
  /** `isOwnAim`: towards the board's own shape, renewed. */
  readonly show: (examination: Examination, head: HTMLElement, isOwnAim: boolean) => void;
  readonly markFormer: (words: string | null) => void;
  readonly foot: (words: readonly string[]) => void;
};

export function answerSheet(): AnswerSheet {
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
  const drawn = drawing(sheet);
  return {
    element: answer,
    show: (examination, head, isOwnAim) => {
      answer.hidden = false;
      drawVerdict(verdict, examination, head);
      drawn.show(examination);
      drawWornPlaces(places, examination, (place) => {
        const [xMm, yMm] = deepestReadingIn(place, examination);
        drawn.chooseAt(xMm, yMm);
        sheet.scrollIntoView({ block: "nearest" });
      });
      drawShape(shape, examination);
      drawPlaning(planing, examination, isOwnAim);
      drawThickness(thickness, examination);
      drawReadings(readings, examination);
      drawCautions(cautions, examination);
    },
    markFormer: (words) => {
      answer.classList.toggle("former", words !== null);
      formerMark.hidden = words === null;
      formerMark.textContent = words ?? "";
    },
    foot: (words) => drawSheetFoot(foot, words, new Date()),
  };
}
