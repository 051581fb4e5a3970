/** An instrument's story, its history as CSV, and the due list. */
import { Router } from "express";
import type { z } from "zod";
import { pairOf } from "../../../core/history/pairOf.ts";
import { kindAndSize } from "../../../keeping/kindAndSize.ts";
import { storyOf } from "../../../keeping/story.ts";
import { visitsOldestFirst } from "../../../keeping/visitsOldestFirst.ts";
import { instrumentCsv } from "../../../reports/instrumentCsv.ts";
import { nextPart, pageAsked, pageOf } from "../../paging.ts";
import { onlyMethods } from "../../problems.ts";
import { sendJson } from "../../revisions.ts";
import { instrumentOnWire } from "../../wire/instruments.ts";
import type { dueSchema } from "../../wire/story.ts";
import { visitSummary } from "../../wire/visits.ts";
import { instrumentAsked, numberAsked, unknownInstrument } from "./asked.ts";
import type { RecordsParts } from "./parts.ts";

export function storyRoutes({ store, table }: RecordsParts): Router {
  const router = Router();
  router
    .route("/instruments/:number/story")
    .get(async (request, response) => {
      const story = await storyOf(store, numberAsked(request));
      if (story === null) throw unknownInstrument();
      const { baseUrl } = request;
      sendJson(response, {
        instrument: instrumentOnWire(story.instrument, baseUrl, table),
        visits: story.visits.map((visit) => visitSummary(visit, baseUrl)),
        history: story.history,
        pairs: story.pairs.map(({ before, after }) => ({
          before: before.id,
          after: after.id,
          achieved: pairOf(before.findings, after.findings),
        })),
      });
    })
    .all(onlyMethods("GET"));
  router
    .route("/instruments/:number/history.csv")
    .get(async (request, response) => {
      const { number } = await instrumentAsked(store, request);
      const visits = await visitsOldestFirst(store, number);
      response.type("text/csv").attachment("history.csv").end(instrumentCsv(visits));
    })
    .all(onlyMethods("GET"));
  router
    .route("/due")
    .get(async (request, response) => {
      const found = await pageOf(store.due(pageAsked(request)));
      const due = found.entries.map(({ instrumentNumber, instrument, label, lastVisit, outlook }) => {
        const known = kindAndSize(table, instrument, null);
        const { kind, size } = known.outcome === "known" ? known : { kind: instrument, size: "" };
        return { number: instrumentNumber, kind, size, label, lastVisit, outlook };
      });
      const next = nextPart(`${request.baseUrl}/due`, found, request, response);
      sendJson(response, { due, next } satisfies z.infer<typeof dueSchema>);
    })
    .all(onlyMethods("GET"));
  return router;
}
