/**
 * One examination on a thread of its own (see examinerApart.ts, which starts it and speaks to it).
 *
 * In, by message: chunks of the files, then the settings. Out: the faults, or that it is examined; and then the whole
 * examination, or each time it is asked the next piece of its JSON, so that no more than one piece waits anywhere.
 */
import { parentPort } from "node:worker_threads";
import type { SettingEntry } from "./core/board/settings.ts";
import type { Examination, PointsTold } from "./core/examination.ts";
import type { Fault } from "./core/fault.ts";
import { type ChunkTaker, examinerFor } from "./examiner.ts";
import { loadInstrumentTable } from "./instrumentTable.ts";
import { examinationAsJson } from "./reports/examinationAsJson.ts";
import { withPoints } from "./reports/toldPoints.ts";
import { version } from "./version.ts";

export type FilePart = "readings" | "thickness" | "rail";

export type Asked =
  | { readonly ask: "take"; readonly part: FilePart; readonly chunk: Uint8Array }
  | { readonly ask: "openThickness" }
  | { readonly ask: "openRail" }
  | { readonly ask: "settings" }
  | { readonly ask: "finish"; readonly settings: readonly SettingEntry[]; readonly points: PointsTold }
  | { readonly ask: "whole" }
  | { readonly ask: "next" };

export type Told =
  | { readonly tell: "settings"; readonly entries: readonly SettingEntry[] }
  | { readonly tell: "examined" }
  | { readonly tell: "whole"; readonly examination: Examination }
  | { readonly tell: "faulty"; readonly faults: readonly Fault[] }
  | { readonly tell: "piece"; readonly text: string }
  | { readonly tell: "end" };

const examining = examinerFor(loadInstrumentTable(), version)();
const takers: Partial<Record<FilePart, ChunkTaker>> = { readings: examining.readings };
let examination: Examination | null = null;
let pieces: Iterator<string> = [][Symbol.iterator]();

parentPort?.on("message", (asked: Asked) => {
  const told = answerTo(asked);
  if (told !== null) parentPort?.postMessage(told);
});

function answerTo(asked: Asked): Told | null {
  switch (asked.ask) {
    case "take":
      takers[asked.part]?.push(asked.chunk);
      return null;
    case "openThickness":
      takers.thickness = examining.openThickness();
      return null;
    case "openRail":
      takers.rail = examining.openRail();
      return null;
    case "settings":
      return { tell: "settings", entries: examining.settingsInReadings() };
    case "finish": {
      const examined = examining.finish(asked.settings);
      if (examined.outcome === "faulty") return { tell: "faulty", faults: examined.faults };
      examination = withPoints(examined.examination, asked.points);
      pieces = examinationAsJson(examination);
      return { tell: "examined" };
    }
    case "whole":
      if (examination === null) throw new Error("asked for an examination before it was finished");
      return { tell: "whole", examination };
    case "next": {
      const next = pieces.next();
      return next.done === true ? { tell: "end" } : { tell: "piece", text: next.value };
    }
  }
}
