/**
 * The examination in tables: worn places, thickness, cautions. What was read, shape and planing: readingsTable.ts, shapeTables.ts, planingTable.ts.
 *
 * Examination -> HTML. mm; every measured figure with its expanded uncertainty.
 */
import type { Examination, WornPlace } from "../../server/core/examination.ts";
import { depthText, depthWords, measuredText, placeRangeText, placeText } from "../chart/format.ts";
import { element, fill, row, table } from "./element.ts";

export function drawWornPlaces(
  target: HTMLElement,
  examination: Examination,
  choose: (place: WornPlace) => void,
): void {
  const places = examination.wornPlaces;
  if (places.length === 0) {
    const none =
      examination.verdict.quickLook === null
        ? "None beyond the noise of the readings."
        : "A quick look maps none: survey the board for them.";
    fill(target, element("h2", {}, "Worn places"), element("p", {}, none));
    return;
  }
  const rows = places.map((place) => {
    const button = element(
      "button",
      { type: "button", class: "place" },
      `${place.kind}, ${place.string} string, ${place.note}`,
    );
    const depth = depthWords(place.depthMm, place.u, place.atLeast);
    const made = row(
      element("span", {}, button, element("span", { class: "origin" }, readAt(place.readings))),
      depth,
      placeRangeText(place.xMm[0], place.xMm[1]),
      place.costMm === null ? "–" : depthText(place.costMm),
    );
    made.addEventListener("click", () => choose(place));
    return made;
  });
  fill(
    target,
    table("Worn places, mm", ["place", "depth", "from nut", "adds to cut"], rows),
    element(
      "p",
      { class: "origin screen-only" },
      "“Adds to cut”: by how much the deepest cut would be less if this place alone were not worn.",
    ),
  );
}

const readAt = (readings: number): string => (readings === 1 ? " at 1 reading" : ` at ${readings} readings`);

export function drawThickness(target: HTMLElement, examination: Examination): void {
  const { thickness } = examination;
  if (thickness === null) {
    fill(
      target,
      element("h2", {}, "Thickness"),
      element("p", {}, "Not measured. A second file with x, side, thickness says how much is left."),
    );
    return;
  }
  const rows = thickness.places.map((place) =>
    row(
      placeText(place.xMm),
      place.side,
      measuredText(place.beforeMm, place.u),
      place.afterMm === null ? "–" : depthText(place.afterMm),
      depthText(place.limitMm),
    ),
  );
  const left = thickness.dressingsLeft;
  fill(
    target,
    table("Thickness, mm", ["from nut", "side", "now", "planed", "limit"], rows),
    left === null ? null : element("p", {}, dressingsText(left)),
  );
}

function dressingsText(left: number): string {
  if (left <= 0) return "After this dressing there is no wood for another.";
  return left === 1
    ? "After this dressing, wood for about one more."
    : `After this dressing, wood for about ${placeText(left)} more.`;
}

export function drawCautions(target: HTMLElement, examination: Examination): void {
  if (examination.cautions.length === 0) {
    fill(target);
    return;
  }
  fill(
    target,
    element("h2", {}, "Mind"),
    element("ul", {}, ...examination.cautions.map((caution) => element("li", {}, caution))),
  );
}
