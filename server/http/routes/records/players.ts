/** What concerns a person, apart from everything else: read, written, and erased alone (by the owner). */
import { type Request, Router } from "express";
import { playerGiven } from "../../../keeping/visitNotes.ts";
import { refuseAllButOwner } from "../../access/roles.ts";
import { checkedMembers, jsonBody } from "../../jsonBody.ts";
import { onlyMethods } from "../../problems.ts";
import { changedMeanwhile, revisionSeen, sendJson, sendRevision } from "../../revisions.ts";
import { playerGivenSchema } from "../../wire/visits.ts";
import { instrumentAsked, unknownVisit, visitAsked } from "./asked.ts";
import type { RecordsParts } from "./parts.ts";
import { faultsRefused } from "./refused.ts";

export function playersRoutes({ store }: RecordsParts): Router {
  const router = Router();
  router
    .route("/instruments/:number/visits/:id/player")
    .get(async (request, response) => {
      const { id } = await visitAsked(store, request);
      const notes = await store.playerNotes(id);
      if (notes === null) sendJson(response, { hand: "", notes: "", revision: null });
      else sendRevision(response, notes);
    })
    .put(jsonBody, async (request, response) => {
      const { id } = await visitAsked(store, request);
      const said = checkedMembers(request.body, playerGivenSchema, "visit");
      const checked = playerGiven(said);
      if (checked.outcome === "faulty") throw faultsRefused(checked.faults, "was changed");
      const changed = await store.setPlayerNotes(id, revisionIfAny(request), checked.player);
      if (changed.outcome === "unknown") throw unknownVisit();
      if (changed.outcome === "changed meanwhile") throw changedMeanwhile(changed.now);
      if (changed.entry !== null) sendRevision(response, changed.entry);
    })
    .delete(async (request, response) => {
      refuseAllButOwner(request);
      const { id } = await visitAsked(store, request);
      sendJson(response, { erased: await store.erasePlayerNotes({ visitId: id }) });
    })
    .all(onlyMethods("GET", "PUT", "DELETE"));
  router
    .route("/instruments/:number/players")
    .delete(async (request, response) => {
      refuseAllButOwner(request);
      const { number } = await instrumentAsked(store, request);
      sendJson(response, { erased: await store.erasePlayerNotes({ instrumentNumber: number }) });
    })
    .all(onlyMethods("DELETE"));
  return router;
}

/** Null: none were there yet. */
function revisionIfAny(request: Request): number | null {
  return request.headers["if-match"] === undefined ? null : revisionSeen(request);
}
