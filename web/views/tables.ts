/**
 * The examination in tables: worn places, thickness, and what was read. Shape and planing: shapeTables.ts, planingTable.ts.
 *
 * Examination -> HTML. mm; every measured figure with its expanded uncertainty.
 */
import type { Examination, WornPlace } from "../../server/core/examination.ts";
import { depthText, depthWords, measuredText, placeRangeText, placeText, scatterText } from "../chart/format.ts";
import { element, fill, list, row, table } from "./element.ts";

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

export function drawReadings(target: HTMLElement, examination: Examination): void {
  const { readings, surface } = examination;
  fill(
    target,
    element("h2", {}, "What was read"),
    list([
      ["readings", readingsText(readings)],
      ["rail set up", readings.setups === 1 ? "once" : `${readings.setups} times`],
      [
        "noise",
        `${surface.noiseMm === null ? "–" : scatterText(surface.noiseMm)}: how far readings scatter where nothing is worn${readings.repeatSdMm === null ? "" : `; the same place read again, ${scatterText(readings.repeatSdMm)}`}`,
      ],
      [
        "still unworn",
        surface.unwornShare === null ? "not told" : `${placeText(surface.unwornShare * 100)} % of the readings`,
      ],
      ["enough for", readings.enoughFor.length === 0 ? "nothing yet" : readings.enoughFor.join(", ")],
    ]),
  );
}

function readingsText({ count, condensedTo, crosslines, lines }: Examination["readings"]): string {
  if (condensedTo === null) return `${count}, on ${crosslines} crosslines and ${lines} lines`;
  return `${count}, brought together at ${condensedTo} places: each the mean of those within a millimetre or two`;
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
