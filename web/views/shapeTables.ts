/**
 * The unworn shape in tables: hollow under each string, camber along the board, twist; each with the range it should have. Then
 * what the plane left on it (workmanship.ts).
 *
 * Examination -> HTML. mm; every measured figure with its expanded uncertainty.
 */
import type { Examination, HollowState } from "../../server/core/examination.ts";
import type { Quantity } from "../../server/core/units.ts";
import { depthRangeText, depthText, measuredRadiusText, measuredText, radiusRangeText } from "../chart/format.ts";
import { element, fill, row, table } from "./element.ts";
import { workmanshipNotes } from "./workmanship.ts";

const hollowWords: Readonly<Record<HollowState, string>> = {
  within: "right",
  shallow: "shallow",
  deep: "deep",
  humped: "humped",
};

export function drawShape(target: HTMLElement, examination: Examination): void {
  const { surface, instrument, planing } = examination;
  const isOwnShape = planing?.aim === "own";
  const hollows = surface.hollows.map((hollow) =>
    row(
      hollow.string,
      measuredText(hollow.hollowMm.value, hollow.hollowMm.u),
      isOwnShape ? "as it is" : depthRangeText(hollow.withinMm[0], hollow.withinMm[1]),
      isOwnShape ? "own shape" : hollowWords[hollow.state],
      hollow.measuredMm === null ? "–" : depthText(hollow.measuredMm),
    ),
  );
  const { nut, middle, end } = surface.camberRadiusMm;
  const toleranceMm = instrument.radiusToleranceMm.value;
  const camber = (at: string, measured: Quantity | null, targetMm: number) =>
    row(
      at,
      measured === null ? "not read" : measuredRadiusText(measured.value, measured.u),
      isOwnShape ? "as it is" : radiusRangeText(targetMm - toleranceMm, targetMm + toleranceMm),
      measured === null ? "–" : isOwnShape ? "own shape" : camberState(measured.value - targetMm, toleranceMm),
    );
  fill(
    target,
    table(
      "Hollow under a straightedge, mm",
      ["string", "unworn", "should be", "state", "with wear"],
      hollows.reverse(),
    ),
    table(
      "Camber radius, mm",
      ["at", "unworn", "should be", "state"],
      [
        camber("nut", nut, instrument.radiusNutMm.value),
        camber("middle", middle, instrument.radiusMiddleMm.value),
        camber("bridge end", end, instrument.radiusEndMm.value),
      ],
    ),
    element(
      "p",
      {},
      surface.twistMm === null
        ? "Twist was not read."
        : `Twist ${measuredText(surface.twistMm.value, surface.twistMm.u)} mm, positive where the treble side rises towards the bridge.`,
    ),
    ...workmanshipNotes(examination),
  );
}

/** A larger radius is a flatter board. */
function camberState(offMm: number, toleranceMm: number): string {
  if (Math.abs(offMm) <= toleranceMm) return "right";
  return offMm > 0 ? "too flat" : "too round";
}
