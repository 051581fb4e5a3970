/**
 * What the board is planed to, how much that takes, and what the workshop's own templates would take.
 *
 * Examination -> HTML. mm; the deepest cut with its expanded uncertainty.
 */
import type { Examination, Planing } from "../../server/core/examination.ts";
import { depthText, depthWords, placeText, radiusText, settingText, volumeText } from "../chart/format.ts";
import { element, fill, list, row, table } from "./element.ts";

/** `isOwnShape`: the aim is the board's own shape, renewed, not the workshop's. */
export function drawPlaning(target: HTMLElement, examination: Examination, isOwnShape: boolean): void {
  const { planing, instrument } = examination;
  if (planing === null) {
    fill(target, element("h2", {}, "Planing"), element("p", {}, "These readings can’t carry a planing map."));
    return;
  }
  const { hollowMm } = planing.target;
  const { planeOffMm } = planing;
  const names = instrument.strings;
  fill(
    target,
    element("h2", {}, isOwnShape ? "Planing to the board’s own shape, renewed" : "Planing to"),
    list([
      ["radius", radiusWords(examination, planing, isOwnShape)],
      ...oneRadiusWords(planing),
      ["hollow", `${names[0]} ${depthText(hollowMm.lowest)}, ${names.at(-1)} ${depthText(hollowMm.highest)} mm`],
      ["deepest cut", `${depthWords(planeOffMm.value, planeOffMm.u, planing.atLeast)} mm`],
      ["cut at the nut", `${depthText(planing.cutAtNutMm)} mm`],
      ["cut at the end", `${depthText(planing.cutAtEndMm)} mm`],
      ["on average", `${depthText(planing.meanCutMm)} mm, ${volumeText(planing.volumeMm3)} of wood`],
      ["plane stops", `${depthText(planing.finishAllowanceMm)} mm above the target; then scraper and paper`],
      [
        "laid so that",
        planing.spares === "deepest cut"
          ? "the deepest cut is as small as can be"
          : "the thinnest edge loses as little as can be",
      ],
    ]),
    ...[...planing.boundBy.slice(0, 2), ...planing.widening].map(({ says }) => element("p", {}, says)),
    templatesTable(planing),
    isOwnShape
      ? null
      : element(
          "p",
          { class: "origin screen-only" },
          "To renew the board’s own shape instead of the workshop’s, choose so under Settings, The right shape.",
        ),
  );
}

/** The target's radii, and by how much they were let float. */
function radiusWords({ instrument }: Examination, { target }: Planing, isOwnShape: boolean): string {
  const { nut, middle, end } = target.radiusMm;
  const said = [radiusText(nut), radiusText(middle), radiusText(end)];
  const radii = new Set(said).size === 1 ? `${said[0]} mm` : `${said.join(", ")} mm at nut, middle, bridge end`;
  const asked = [instrument.radiusNutMm, instrument.radiusMiddleMm, instrument.radiusEndMm];
  const floats = [nut, middle, end].some((radius, i) => radiusText(radius) !== radiusText(asked[i]!.value));
  const band = instrument.radiusBandMm;
  if (isOwnShape || !floats || band.value === 0) return radii;
  return `${radii}, within ${band.source === "given" ? "your " : ""}± ${settingText(band.value)} of the radius asked for`;
}

/** What a single template would cost, where the target is not one radius already. */
function oneRadiusWords({ target: { arc, oneRadiusCostsMm } }: Planing): [string, string][] {
  if (arc === "one radius" || oneRadiusCostsMm === null) return [];
  return [["one radius all along", `would cost ${depthText(oneRadiusCostsMm)} mm more`]];
}

/** The workshop's own templates, the one that costs least first. */
function templatesTable({ templates }: Planing): HTMLTableElement | null {
  if (templates.length === 0) return null;
  const rows = [...templates]
    .sort((a, b) => a.planeOffMm - b.planeOffMm)
    .map((template) =>
      row(
        `on your ${settingText(template.radiusMm)} template`,
        depthText(template.planeOffMm),
        template.dressingsLeft === null ? "–" : placeText(template.dressingsLeft),
      ),
    );
  return table("With a template of your own, mm", ["planed to", "deepest cut", "dressings left"], rows);
}
