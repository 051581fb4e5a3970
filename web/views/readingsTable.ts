/**
 * What was read, and how well: how many, from how many set-ups, how far the gauge drifted, how much the readings scatter.
 *
 * Examination -> HTML. mm; a line only where there is something to say.
 */
import type { Examination, ReadingsSummary } from "../../server/core/examination.ts";
import { depthText, placeText, scatterText } from "../chart/format.ts";
import { element, fill, list } from "./element.ts";

export function drawReadings(target: HTMLElement, examination: Examination): void {
  const { readings, surface } = examination;
  fill(
    target,
    element("h2", {}, "What was read"),
    list([
      ["readings", readingsText(readings)],
      ["rail set up", readings.setups === 1 ? "once" : `${readings.setups} times`],
      ...driftLine(readings),
      ["noise", noiseText(examination)],
      [
        "still unworn",
        surface.unwornShare === null ? "not told" : `${placeText(surface.unwornShare * 100)} % of the readings`,
      ],
      ["enough for", readings.enoughFor.length === 0 ? "nothing yet" : readings.enoughFor.join(", ")],
    ]),
  );
}

function readingsText({ count, condensedTo, crosslines, lines }: ReadingsSummary): string {
  if (condensedTo === null) return `${count}, on ${crosslines} crosslines and ${lines} lines`;
  return `${count}, brought together at ${condensedTo} places: each the mean of those within a millimetre or two`;
}

function driftLine({ drift }: ReadingsSummary): readonly (readonly [string, string])[] {
  if (drift === null) return [];
  const again = `${drift.checks} taken again`;
  const text = drift.corrected
    ? `${depthText(Math.abs(drift.mm))} mm from first to last, taken out (${again})`
    : `none beyond the readings’ scatter (${again})`;
  return [["gauge drift", text]];
}

function noiseText({ readings: { repeatSdMm }, surface: { noiseMm } }: Examination): string {
  const noise = noiseMm === null ? "–" : scatterText(noiseMm);
  const repeats = repeatSdMm === null ? "" : `; the same place read again, ${scatterText(repeatSdMm)}`;
  return `${noise}: how far readings scatter where nothing is worn${repeats}`;
}
