/**
 * POST /api/examinations: a form with readings in, the examination out, written piece by piece.
 *
 * The examination can be a hundred megabytes (a digital probe's million readings), more than one text can hold.
 */
import { Readable } from "node:stream";
import { pipeline } from "node:stream/promises";
import { Router } from "express";
import { rateLimit } from "express-rate-limit";
import type { StartExamining } from "../../examiner.ts";
import { examinationAsJson } from "../../reports/examinationAsJson.ts";
import { receiveExaminationForm } from "../examinationForm.ts";
import { onlyMethods, Problem } from "../problems.ts";

export function examinationsRoute(
  startExamining: StartExamining,
  { uploadLimitBytes, examinationsPerMinute }: { uploadLimitBytes: number; examinationsPerMinute: number },
): Router {
  const router = Router();
  router
    .route("/api/examinations")
    .post(atMost(examinationsPerMinute), async (request, response) => {
      const examining = startExamining();
      const settings = await receiveExaminationForm(request, examining, uploadLimitBytes);
      if (settings === null) return;
      const examined = examining.finish(settings);
      if (examined.outcome === "faulty") {
        const detail = "Mend each of the faults listed here and send the files again.";
        throw new Problem("faulty", { detail, faults: examined.faults });
      }
      response.type("application/json").set("Cache-Control", "no-store");
      await answered(
        pipeline(Readable.from(examinationAsJson(examined.examination)), response),
        () => request.socket.destroyed,
      );
    })
    .all(onlyMethods("POST"));
  return router;
}

/** A client that leaves while the answer is on its way is no failure. */
async function answered(sending: Promise<void>, clientLeft: () => boolean): Promise<void> {
  try {
    await sending;
  } catch (error) {
    if (!clientLeft()) throw error;
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
