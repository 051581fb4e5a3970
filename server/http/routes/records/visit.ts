/**
 * One visit: looked at, its notes changed, its files as they were given, its examinations, and examined again by this version.
 *
 * Who withdraws a visit is the owner; everything else the bench may do.
 */
import { type RequestHandler, Router } from "express";
import { outlookOf } from "../../../core/history/historyOf.ts";
import { betweenVisits } from "../../../keeping/between.ts";
import { examineAgain } from "../../../keeping/examineAgain.ts";
import { type NotesSaid, visitNotes } from "../../../keeping/visitNotes.ts";
import { type ExaminationRecord, type FilePart, fileParts } from "../../../records/records.ts";
import { refuseAllButOwner } from "../../access/roles.ts";
import { checkedMembers, jsonBody } from "../../jsonBody.ts";
import { nextPart, pageAsked, pageOf } from "../../paging.ts";
import { onlyMethods, Problem } from "../../problems.ts";
import { changedMeanwhile, revisionSeen, sendJson, sendRevision } from "../../revisions.ts";
import { visitAddress } from "../../wire/addresses.ts";
import { visitChangesSchema } from "../../wire/visits.ts";
import { numberAsked, unknownVisit, visitAsked } from "./asked.ts";
import type { RecordsParts } from "./parts.ts";
import { faultsRefused, unknownEarlierVisit } from "./refused.ts";
import { wholeVisit } from "./visits.ts";

export function visitRoutes(parts: RecordsParts): Router {
  const { store } = parts;
  const router = Router();
  router
    .route("/instruments/:number/visits/:id")
    .get(async (request, response) => {
      sendRevision(response, await wholeVisit(store, await visitAsked(store, request), request.baseUrl));
    })
    .patch(jsonBody, async (request, response) => {
      const now = await visitAsked(store, request);
      const revision = revisionSeen(request);
      const said: NotesSaid = checkedMembers(request.body, visitChangesSchema, "visit");
      if ("withdrawn" in said) refuseAllButOwner(request);
      if (revision !== now.revision) throw changedMeanwhile(await wholeVisit(store, now, request.baseUrl));
      const checked = visitNotes(said);
      if (checked.outcome === "faulty") throw faultsRefused(checked.faults, "was changed");
      const changed = await store.changeVisit(now.instrumentNumber, now.id, revision, checked.notes, outlookOf);
      switch (changed.outcome) {
        case "changed":
          return sendRevision(response, await wholeVisit(store, changed.entry, request.baseUrl));
        case "changed meanwhile":
          throw changedMeanwhile(await wholeVisit(store, changed.now, request.baseUrl));
        case "unknown":
          throw unknownVisit();
        case "unknown visit":
          throw unknownEarlierVisit("was changed");
      }
    })
    .all(onlyMethods("GET", "PATCH"));

  for (const part of fileParts) {
    router.route(`/instruments/:number/visits/:id/${part}.csv`).get(sendGiven(parts, part)).all(onlyMethods("GET"));
  }

  router
    .route("/instruments/:number/visits/:id/since")
    .get(async (request, response) => {
      const later = await visitAsked(store, request);
      const asked = request.query.visit;
      if (asked !== undefined && typeof asked !== "string") throw unknownVisit();
      const compared = await betweenVisits(store, later, asked ?? null);
      if (compared === null) throw unknownVisit();
      sendJson(response, { earlier: compared.earlier?.id ?? null, later: later.id, ...compared.between });
    })
    .all(onlyMethods("GET"));

  router
    .route("/instruments/:number/visits/:id/examinations")
    .get(async (request, response) => {
      const visit = await visitAsked(store, request);
      const path = `${visitAddress(request.baseUrl, visit.instrumentNumber, visit.id)}/examinations`;
      const found = await pageOf(store.examinations(visit.id, pageAsked(request)));
      sendJson(response, {
        examinations: found.entries.map((entry) => examinationEntry(entry, path)),
        next: nextPart(path, found, request, response),
      });
    })
    .post(async (request, response) => {
      const visit = await visitAsked(store, request);
      const again = await examineAgain(parts, numberAsked(request), visit.id);
      if (again.outcome === "unknown") throw unknownVisit();
      if (again.outcome === "faulty") {
        const detail = "This version refuses what is kept here; the examination that stands was not changed.";
        throw new Problem("faulty", { detail, faults: again.faults });
      }
      const { ordinal, version } = again.kept;
      const path = `${visitAddress(request.baseUrl, visit.instrumentNumber, visit.id)}/examinations`;
      response.status(201).set("Location", `${path}/${ordinal}`);
      sendJson(response, { ordinal, version, changes: again.changes });
    })
    .all(onlyMethods("GET", "POST"));

  router
    .route("/instruments/:number/visits/:id/examinations/:ordinal")
    .get(async (request, response) => {
      const visit = await visitAsked(store, request);
      const { ordinal } = request.params;
      const kept = /^\d{1,6}$/.test(ordinal) ? await store.examination(visit.id, Number(ordinal)) : null;
      if (kept === null) throw new Problem("not-found", { detail: "No such examination of this visit." });
      const path = `${visitAddress(request.baseUrl, visit.instrumentNumber, visit.id)}/examinations`;
      sendJson(response, { ...examinationEntry(kept, path), examination: kept.examination });
    })
    .all(onlyMethods("GET"));
  return router;
}

function examinationEntry({ ordinal, version, examinedAt, findings }: ExaminationRecord, path: string) {
  return { ordinal, version, examinedAt, findings, href: `${path}/${ordinal}` };
}

/** Byte for byte; a browser saves it and never shows it as a page. */
function sendGiven({ store }: RecordsParts, part: FilePart): RequestHandler {
  return async (request, response) => {
    const visit = await visitAsked(store, request);
    const file = visit.files.find((one) => one.part === part);
    const bytes = file === undefined ? null : await store.fileBytes(file.sha256);
    if (bytes === null) throw new Problem("not-found", { detail: `No ${part} was given at this visit.` });
    response.type("text/csv").attachment(`${visit.date}-${part}.csv`).end(bytes);
  };
}
