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
      ...(readings.setups === 1 ? [] : [line("rail set up", `${readings.setups} times`)]),
      ...driftLine(readings),
      ...noiseLine(examination),
      ...(surface.unwornShare === null
        ? []
        : [line("still unworn", `${placeText(surface.unwornShare * 100)} % of the readings`)]),
      ["enough for", readings.enoughFor.length === 0 ? "nothing yet" : readings.enoughFor.join(", ")],
    ]),
  );
}

function readingsText({ count, condensedTo, crosslines, lines }: ReadingsSummary): string {
  if (condensedTo === null) return `${count}, on ${crosslines} crosslines and ${lines} lines`;
  return `${count}, brought together at ${condensedTo} places: each the mean of those within a millimetre or two`;
}

type Line = readonly [name: string, text: string];

const line = (name: string, text: string): Line => [name, text];

function driftLine({ drift }: ReadingsSummary): readonly Line[] {
  if (drift === null) return [];
  const again = `${drift.checks} taken again`;
  const text = drift.corrected
    ? `${depthText(Math.abs(drift.mm))} mm from first to last, taken out (${again})`
    : `none beyond the readings’ scatter (${again})`;
  return [line("gauge drift", text)];
}

function noiseLine({ readings: { repeatSdMm }, surface: { noiseMm } }: Examination): readonly Line[] {
  const again = repeatSdMm === null ? "" : `the same place read again, ${scatterText(repeatSdMm)}`;
  if (noiseMm === null) return again === "" ? [] : [line("noise", again)];
  const text = `${scatterText(noiseMm)}: how far readings scatter where nothing is worn`;
  return [line("noise", again === "" ? text : `${text}; ${again}`)];
}
