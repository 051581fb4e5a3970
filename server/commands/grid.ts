/** `boardtrue grid`: an empty grid to fill in at the bench (CSV) on standard output. */
import { parseArgs } from "node:util";
import { emptyGrid, gridReadings } from "../core/board/emptyGrid.ts";
import { readSettings } from "../core/board/readSettings.ts";
import { resolveInstrument } from "../core/board/resolveInstrument.ts";
import { loadInstrumentTable } from "../instrumentTable.ts";
import { parsed, settingsFrom } from "./callWords.ts";
import { printHelp } from "./help.ts";
import { print } from "./print.ts";
import { faulty, WrongCall } from "./refusals.ts";

export async function printEmptyGrid(words: readonly string[]): Promise<void> {
  const { values } = parsed(() =>
    parseArgs({
      args: [...words],
      options: {
        instrument: { type: "string" },
        readings: { type: "string", default: "77" },
        set: { type: "string", multiple: true },
        help: { type: "boolean" },
      },
    }),
  );
  if (values.help) return printHelp();
  const readings = Number(values.readings);
  const { fewest, most } = gridReadings;
  if (!/^\d+$/.test(values.readings) || readings < fewest || readings > most) {
    throw new WrongCall(`--readings ${values.readings}: give a whole number from ${fewest} to ${most}, as 77.`);
  }
  const settings = readSettings(settingsFrom(values.instrument, values.set));
  if (settings.outcome === "faulty") throw faulty(settings.faults);
  const resolved = resolveInstrument(loadInstrumentTable(), settings.settings);
  if (resolved.outcome === "faulty") throw faulty(resolved.faults);
  await print([emptyGrid(resolved.instrument, readings).csv]);
}
