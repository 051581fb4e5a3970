/**
 * POST /api/examinations: a form with readings in, the examination out, written piece by piece.
 *
 * A bench's readings are examined here, at once. Long ones are examined apart, a few at a time, so that the server goes on
 * answering; if the client leaves, they stop. A turn is held only while somebody's readings are examined: neither an upload that
 * stalls nor a client that is slow to read its answer keeps others waiting. The answer can be tens of megabytes, so it goes out in pieces.
 */
import { type Response, Router } from "express";
import type { SettingEntry } from "../../core/board/settings.ts";
import type { Fault } from "../../core/fault.ts";
import type { Answer, Answering, StartAnswering } from "../../examinerApart.ts";
import { areLong } from "../../longFiles.ts";
import { settingsFromOutside } from "../../settingsFromOutside.ts";
import { atMost } from "../access/requestLimits.ts";
import { onlyMethods, Problem } from "../problems.ts";
import type { ReceivedForm } from "../receiveForm.ts";
import { sendPieces } from "../sendPieces.ts";
import type { ShareOfRoom } from "../uploadRoom.ts";
import type { Uploads } from "../uploads.ts";
import { pointsAsked } from "../wire/points.ts";
import { settingsFromJson, settingsLimitBytes } from "../wire/settings.ts";

const takes = {
  parts: { readings: null, thickness: null, rail: null, settings: settingsLimitBytes },
  needed: { part: "readings", says: "the CSV of height readings" },
} as const;
type PartName = keyof typeof takes.parts;

export type ExaminationsParts = {
  readonly answerHere: StartAnswering;
  readonly answerApart: StartAnswering;
  readonly uploads: Uploads;
  readonly examinationsPerMinute: number;
};

export function examinationsRoute(parts: ExaminationsParts): Router {
  const router = Router();
  router
    .route("/api/examinations")
    .post(atMost(parts.examinationsPerMinute, "examinations"), async (request, response) => {
      const points = pointsAsked(request);
      const answered = await parts.uploads.take(
        request,
        response,
        takes,
        async (form, share): Promise<Sendable | null> => {
          const settings = settingsOf(form);
          const examine = (answering: Answering) => {
            handOver(form, answering);
            return answering.finish(settings, points);
          };
          if (!areLong(filesOf(form))) return examine(parts.answerHere());
          return parts.uploads.inTurn(() => examinedApart(response, parts.answerApart, examine, share));
        },
      );
      if (answered !== null) await send(response, answered);
    })
    .all(onlyMethods("POST"));
  return router;
}

type Sendable =
  | { readonly outcome: "examined"; readonly json: Iterable<string | Buffer> | AsyncIterable<string> }
  | { readonly outcome: "faulty"; readonly faults: readonly Fault[] };

/** The whole answer in memory, so that the thread can go; it counts as room taken until it is sent. Null: the client left. */
async function examinedApart(
  response: Response,
  start: StartAnswering,
  examine: (answering: Answering) => Promise<Answer>,
  share: ShareOfRoom,
): Promise<Sendable | null> {
  if (response.destroyed) return null;
  const answering = start();
  response.once("close", answering.close);
  try {
    const answered = await examine(answering);
    if (answered.outcome === "faulty") return answered;
    const pieces: Buffer[] = [];
    for await (const text of answered.json) {
      const piece = Buffer.from(text);
      share.growAnyhow(piece.length);
      pieces.push(piece);
    }
    return { outcome: "examined", json: pieces };
  } catch (error) {
    // The thread ended because the client left.
    if (response.destroyed) return null;
    throw error;
  } finally {
    answering.close();
  }
}

async function send(response: Response, answered: Sendable): Promise<void> {
  if (answered.outcome === "faulty") {
    const detail = "Mend each of the faults listed here and send the files again.";
    throw new Problem("faulty", { detail, faults: answered.faults });
  }
  response.type("application/json");
  await sendPieces(response, answered.json);
}

function settingsOf(form: ReceivedForm<PartName>): readonly SettingEntry[] {
  const settings = form.get("settings");
  return settings === undefined ? [] : settingsFromOutside(settingsFromJson(Buffer.concat(settings)));
}

function handOver(form: ReceivedForm<PartName>, answering: Answering): void {
  for (const [part, chunks] of form) {
    if (part === "settings") continue;
    const taker =
      part === "readings"
        ? answering.readings
        : part === "thickness"
          ? answering.openThickness()
          : answering.openRail();
    for (const chunk of chunks) taker.push(chunk);
  }
}

/** All that is there but the settings. */
function filesOf(form: ReceivedForm<PartName>): readonly (readonly Uint8Array[])[] {
  return [...form].flatMap(([part, pieces]) => (part === "settings" ? [] : [pieces]));
}
