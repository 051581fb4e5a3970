/**
 * The examination in tables: worn places, shape, planing, thickness, and what was read.
 *
 * Examination -> HTML. mm; every measured figure with its expanded uncertainty.
 */
import type { Examination, WornPlace } from "../../server/core/examination.ts";
import {
  depthRangeText,
  depthText,
  measuredRadiusText,
  measuredText,
  micrometreText,
  placeRangeText,
  placeText,
  radiusText,
  volumeText,
} from "../chart/format.ts";
import { element, fill, table } from "./element.ts";

const row = (...cells: readonly (string | Node)[]): HTMLTableRowElement =>
  element("tr", {}, ...cells.map((cell) => element("td", {}, cell)));

export function drawWornPlaces(
  target: HTMLElement,
  examination: Examination,
  choose: (place: WornPlace) => void,
): void {
  const places = examination.wornPlaces;
  if (places.length === 0) {
    fill(target, element("h2", {}, "Worn places"), element("p", {}, "None beyond the noise of the readings."));
    return;
  }
  const rows = places.map((place) => {
    const button = element(
      "button",
      { type: "button", class: "place" },
      `${place.kind}, ${place.string} string, ${place.note}`,
    );
    const depth = place.atLeast ? `at least ${depthText(place.depthMm)}` : measuredText(place.depthMm, place.u);
    const made = row(
      button,
      depth,
      placeRangeText(place.xMm[0], place.xMm[1]),
      place.costMm === null ? "–" : depthText(place.costMm),
      `${place.readings}`,
    );
    made.addEventListener("click", () => choose(place));
    return made;
  });
  fill(target, table("Worn places, mm", ["place", "depth", "from nut", "costs", "readings"], rows));
}

export function drawShape(target: HTMLElement, examination: Examination): void {
  const { surface } = examination;
  const hollows = surface.hollows.map((hollow) =>
    row(
      hollow.string,
      measuredText(hollow.hollowMm.value, hollow.hollowMm.u),
      depthRangeText(hollow.withinMm[0], hollow.withinMm[1]),
      hollow.state === "within" ? "within" : hollow.state,
      hollow.measuredMm === null ? "–" : depthText(hollow.measuredMm),
    ),
  );
  const { nut, middle, end } = surface.camberRadiusMm;
  const { radiusNutMm, radiusMiddleMm, radiusEndMm } = examination.instrument;
  const radii = [
    row("nut", measuredRadiusText(nut.value, nut.u), radiusText(radiusNutMm.value)),
    row("middle", measuredRadiusText(middle.value, middle.u), radiusText(radiusMiddleMm.value)),
    row("bridge end", measuredRadiusText(end.value, end.u), radiusText(radiusEndMm.value)),
  ];
  fill(
    target,
    table(
      "Hollow under a straightedge, mm",
      ["string", "unworn", "should be", "state", "with wear"],
      hollows.reverse(),
    ),
    table("Camber radius, mm", ["at", "unworn", "should be"], radii),
    element(
      "p",
      {},
      `Twist ${measuredText(surface.twistMm.value, surface.twistMm.u)} mm, positive where the treble side rises towards the bridge.`,
    ),
  );
}

export function drawPlaning(target: HTMLElement, examination: Examination): void {
  const { planing } = examination;
  if (planing === null) {
    fill(target, element("h2", {}, "Planing"), element("p", {}, "These readings can’t carry a planing map."));
    return;
  }
  const { radiusMm, hollowMm } = planing.target;
  const cone = radiusMm.nut === radiusMm.end && radiusMm.nut === radiusMm.middle;
  const radius = cone
    ? radiusText(radiusMm.nut)
    : [radiusMm.nut, radiusMm.middle, radiusMm.end].map(radiusText).join(", ");
  const names = examination.instrument.strings;
  const templates = planing.templates.map((template) =>
    row(
      `R ${radiusText(template.radiusMm)}`,
      depthText(template.planeOffMm),
      template.dressingsLeft === null ? "–" : placeText(template.dressingsLeft),
    ),
  );
  fill(
    target,
    element("h2", {}, "Planing to"),
    list([
      ["radius", `${radius} mm`],
      ["hollow", `${names[0]} ${depthText(hollowMm.lowest)}, ${names.at(-1)} ${depthText(hollowMm.highest)} mm`],
      [
        "deepest cut",
        `${planing.atLeast ? "at least " : ""}${measuredText(planing.planeOffMm.value, planing.planeOffMm.u)} mm`,
      ],
      ["at the nut, at the end", `${depthText(planing.cutAtNutMm)}, ${depthText(planing.cutAtEndMm)} mm`],
      ["on average", `${depthText(planing.meanCutMm)} mm, ${volumeText(planing.volumeMm3)} of wood`],
      ["plane stops", `${depthText(planing.finishAllowanceMm)} mm above the target; then scraper and paper`],
      ["keeps small", planing.spares === "deepest cut" ? "the deepest cut" : "the loss where the board is thinnest"],
    ]),
    templates.length === 0
      ? null
      : table("With a template of your own, mm", ["template", "deepest cut", "dressings left"], templates),
  );
}

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
      ["readings", `${readings.count}, on ${readings.crosslines} crosslines and ${readings.lines} lines`],
      ["set-ups", `${readings.setups}`],
      [
        "noise",
        `${micrometreText(surface.noiseMm)}${readings.repeatSdMm === null ? "" : `; repeats ${micrometreText(readings.repeatSdMm)}`}`,
      ],
      ["still unworn", `${placeText(surface.unwornShare * 100)} % of the readings`],
      ["enough for", readings.enoughFor.length === 0 ? "nothing yet" : readings.enoughFor.join(", ")],
    ]),
  );
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

function list(entries: readonly (readonly [string, string])[]): HTMLDListElement {
  return element("dl", {}, ...entries.flatMap(([name, text]) => [element("dt", {}, name), element("dd", {}, text)]));
}
