/**
 * What is on record about an instrument, as settings of an examination, and a file that is about another kind.
 *
 * Record and the file's own settings -> settings to send. The file's lines win over the record; what is said on the page wins over both.
 */
import type { Fault } from "../../server/core/fault.ts";
import type { Instrument } from "../api/instruments.ts";
import { kindText } from "../views/recordWords.ts";
import type { FileSettings } from "./fileSettings.ts";
import type { Said } from "./settingsSaid.ts";

export function settingsOnRecord(instrument: Instrument | null, file: FileSettings): Said {
  if (instrument === null) return {};
  const recorded: Readonly<Record<string, string | null>> = {
    instrument: `${instrument.kind} ${instrument.size}`,
    strings: instrument.strings,
    build: instrument.build === "unknown" ? null : instrument.build,
    valuable: instrument.valuable ? "yes" : null,
    ...instrument.dimensions,
  };
  return Object.fromEntries(
    Object.entries(recorded).flatMap(([key, value]) =>
      value === null || (file.has(key) && key !== "instrument") ? [] : [[key, value] as const],
    ),
  );
}

const kinds = ["violin", "viola", "cello", "bass"];

/** Null where the file says the record's kind, or none. */
export function otherKindFault(instrument: Instrument, file: FileSettings): Fault | null {
  const inFile = file.get("instrument");
  const kind = kinds.find((one) => inFile?.value.toLowerCase().startsWith(one));
  if (inFile === undefined || kind === undefined || kind === instrument.kind) return null;
  return {
    where: "readings",
    line: inFile.line,
    column: null,
    code: "other-kind",
    saw: `the file is about a ${kind}, the record about a ${kindText(instrument).toLowerCase()}`,
    remedy: `Bring the readings of ${instrument.number}, or start the visit from the other instrument’s page.`,
  };
}
