/**
 * Examinations for the server: the answer as JSON in pieces, worked out here or, for long files, on a thread apart.
 *
 * A bench's readings take a fraction of a second and are examined here. A probe's hundred thousand take many: on a
 * thread of its own such an examination leaves the server free to answer, and ends at once if the client leaves.
 */
import { once } from "node:events";
import { Worker } from "node:worker_threads";
import type { SettingEntry } from "./core/board/settings.ts";
import type { Examination, PointsTold } from "./core/examination.ts";
import type { Fault } from "./core/fault.ts";
import type { ChunkTaker, StartExamining } from "./examiner.ts";
import type { Asked, FilePart, Told } from "./examiningThread.ts";
import { examinationAsJson } from "./reports/examinationAsJson.ts";
import { withPoints } from "./reports/toldPoints.ts";

export type Answer =
  | {
      readonly outcome: "examined";
      /** To be sent on. */
      readonly json: Iterable<string> | AsyncIterable<string>;
      /** To be looked at, or kept. */
      readonly examination: () => Promise<Examination>;
    }
  | { readonly outcome: "faulty"; readonly faults: readonly Fault[] };

/** An examination under way, here or on a thread apart. */
export type Answering = {
  readonly readings: ChunkTaker;
  openThickness(): ChunkTaker;
  openRail(): ChunkTaker;
  /** What the readings file says above its header, once the whole file has been taken. */
  settingsInReadings(): Promise<readonly SettingEntry[]>;
  finish(settings: readonly SettingEntry[], points: PointsTold): Promise<Answer>;
  /** Call it when the answer is sent or no longer wanted; more than once does no harm. */
  close(): void;
};

export type StartAnswering = () => Answering;

export function answeringHere(startExamining: StartExamining): StartAnswering {
  return () => {
    const examining = startExamining();
    return {
      readings: examining.readings,
      openThickness: () => examining.openThickness(),
      openRail: () => examining.openRail(),
      settingsInReadings: async () => examining.settingsInReadings(),
      async finish(settings, points) {
        const examined = examining.finish(settings);
        if (examined.outcome === "faulty") return examined;
        const examination = withPoints(examined.examination, points);
        return { outcome: "examined", json: examinationAsJson(examination), examination: async () => examination };
      },
      close: () => undefined,
    };
  };
}

/** Rejects in `finish` if the thread fails; after `close` nothing more comes. */
export const startAnsweringApart: StartAnswering = () => {
  const thread = new Worker(new URL("./examiningThread.mjs", import.meta.url));
  // Without a listener a thread's failure would end the program; whoever waits for an answer is told by `heard`.
  thread.on("error", () => undefined);
  const ask = (asked: Asked) => thread.postMessage(asked);
  const take = (part: FilePart): ChunkTaker => ({
    push(chunk) {
      // A copy of just these bytes, handed over whole: as part of a larger buffer, all of that would be copied.
      const bytes = Uint8Array.from(chunk);
      thread.postMessage({ ask: "take", part, chunk: bytes } satisfies Asked, [bytes.buffer]);
    },
  });
  const heard = async (): Promise<Told> => {
    const left = new AbortController();
    const gone = once(thread, "exit", { signal: left.signal }).then(() => {
      throw new Error("the examining thread ended before its answer");
    });
    try {
      const [told] = await Promise.race([once(thread, "message", { signal: left.signal }), gone]);
      return told as Told;
    } finally {
      gone.catch(() => undefined);
      left.abort();
    }
  };
  async function* pieces(): AsyncGenerator<string> {
    for (;;) {
      ask({ ask: "next" });
      const told = await heard();
      if (told.tell !== "piece") return;
      yield told.text;
    }
  }
  async function examination(): Promise<Examination> {
    ask({ ask: "whole" });
    const told = await heard();
    if (told.tell !== "whole") throw new Error(`asked for an examination, the thread told: ${told.tell}`);
    return told.examination;
  }
  return {
    readings: take("readings"),
    openThickness() {
      ask({ ask: "openThickness" });
      return take("thickness");
    },
    openRail() {
      ask({ ask: "openRail" });
      return take("rail");
    },
    async settingsInReadings() {
      ask({ ask: "settings" });
      const told = await heard();
      if (told.tell !== "settings") throw new Error(`asked for settings, the thread told: ${told.tell}`);
      return told.entries;
    },
    async finish(settings, points) {
      ask({ ask: "finish", settings, points });
      const told = await heard();
      if (told.tell === "faulty") return { outcome: "faulty", faults: told.faults };
      return { outcome: "examined", json: pieces(), examination };
    },
    close: () => void thread.terminate(),
  };
};
