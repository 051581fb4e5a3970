/**
 * POST /api/examinations: a form with readings in, the examination out, written piece by piece.
 *
 * The examination can be a hundred megabytes (a digital probe's million readings), more than one text can hold. Long
 * uploads are examined apart, a few at a time, so that the server goes on answering; if the client leaves, they stop.
 */
import { Readable } from "node:stream";
import { pipeline } from "node:stream/promises";
import { type Request, type Response, Router } from "express";
import { rateLimit } from "express-rate-limit";
import { receiveExaminationForm } from "../examinationForm.ts";
import type { Answering, StartAnswering } from "../../examinerApart.ts";
import { onlyMethods, Problem } from "../problems.ts";
import { turns } from "../turns.ts";
import { pointsAsked } from "../wire/points.ts";

/** About three thousand readings: what takes half a second. A request that does not say its size counts as long. */
const longFromBytes = 64 * 1024;
const longAtOnce = 2;

export type ExaminationsParts = {
  readonly answerHere: StartAnswering;
  readonly answerApart: StartAnswering;
  readonly uploadLimitBytes: number;
  readonly examinationsPerMinute: number;
};

export function examinationsRoute(parts: ExaminationsParts): Router {
  const turnOfLong = turns(longAtOnce);
  const router = Router();
  router
    .route("/api/examinations")
    .post(atMost(parts.examinationsPerMinute), async (request, response) => {
      if (!isLong(request)) return answer(request, response, parts.answerHere(), parts.uploadLimitBytes);
      const { socket } = request;
      const patienceMs = socket.timeout ?? 0;
      // While it waits for its turn, the silence is ours.
      socket.setTimeout(0);
      await turnOfLong(() => {
        socket.setTimeout(patienceMs);
        return answer(request, response, parts.answerApart(), parts.uploadLimitBytes);
      });
    })
    .all(onlyMethods("POST"));
  return router;
}

function isLong(request: Request): boolean {
  const declaredBytes = request.headers["content-length"];
  return declaredBytes === undefined || Number(declaredBytes) >= longFromBytes;
}

async function answer(request: Request, response: Response, answering: Answering, limitBytes: number): Promise<void> {
  let clientLeft = response.destroyed;
  response.on("close", () => {
    clientLeft = !response.writableFinished;
    answering.close();
  });
  try {
    const points = pointsAsked(request);
    const settings = await receiveExaminationForm(request, answering, limitBytes);
    if (settings === null) return;
    // While it is worked out, the silence is ours too.
    request.socket.setTimeout(0);
    const answered = await answering.finish(settings, points);
    if (answered.outcome === "faulty") {
      const detail = "Mend each of the faults listed here and send the files again.";
      throw new Problem("faulty", { detail, faults: answered.faults });
    }
    response.type("application/json").set("Cache-Control", "no-store");
    await pipeline(Readable.from(answered.json), response);
  } catch (error) {
    // A client that leaves while it is being answered is no failure.
    if (!clientLeft) throw error;
  } finally {
    answering.close();
  }
}

function atMost(perMinute: number) {
  return rateLimit({
    windowMs: 60_000,
    limit: perMinute,
    standardHeaders: "draft-8",
    legacyHeaders: false,
    handler: () => {
      throw new Problem("too-often", { detail: `At most ${perMinute} examinations a minute: wait a little.` });
    },
  });
}
