/**
 * The instruments of the records: find, add, look at, change.
 *
 * A number in an address is percent-encoded. A change is merged into the record (RFC 7396) and says by If-Match which revision it
 * was made from.
 */
import { Router } from "express";
import type { z } from "zod";
import { plainKey } from "../../../core/board/readSettings.ts";
import { type CheckedInstrument, instrumentChanged, instrumentGiven } from "../../../keeping/instrumentGiven.ts";
import type { InstrumentRecord, SettingTexts } from "../../../records/records.ts";
import { checkedMembers, jsonBody } from "../../jsonBody.ts";
import { nextPart, pageAsked, pageOf } from "../../paging.ts";
import { onlyMethods, Problem } from "../../problems.ts";
import { changedMeanwhile, revisionSeen, sendJson, sendRevision } from "../../revisions.ts";
import {
  instrumentChangesSchema,
  instrumentOnWire,
  type instrumentsSchema,
  newInstrumentSchema,
} from "../../wire/instruments.ts";
import { instrumentAsked } from "./asked.ts";
import type { RecordsParts } from "./parts.ts";
import { faultsRefused } from "./refused.ts";

export function instrumentsRoutes({ store, table }: RecordsParts): Router {
  const router = Router();
  router
    .route("/instruments")
    .get(async (request, response) => {
      const { baseUrl } = request;
      const asked = pageAsked(request);
      const found = await pageOf(store.findInstruments(typedIn(request.query.find), asked));
      const answer: z.infer<typeof instrumentsSchema> = {
        instruments: found.entries.map((record) => instrumentOnWire(record, baseUrl, table)),
        next: nextPart(`${baseUrl}/instruments`, found, request, response),
      };
      sendJson(response, answer);
    })
    .post(jsonBody, async (request, response) => {
      const said = checkedMembers(request.body, newInstrumentSchema, "instrument");
      const { outcome, instrument } = await store.addInstrument(givenOrRefused(instrumentGiven(said, table)));
      if (outcome === "number taken") throw numberTaken(instrument.number);
      const onWire = instrumentOnWire(instrument, request.baseUrl, table);
      response.set("Location", onWire.href);
      sendRevision(response, onWire, 201);
    })
    .all(onlyMethods("GET", "POST"));

  router
    .route("/instruments/:number")
    .get(async (request, response) => {
      sendRevision(response, instrumentOnWire(await instrumentAsked(store, request), request.baseUrl, table));
    })
    .patch(jsonBody, async (request, response) => {
      const now = await instrumentAsked(store, request);
      const revision = revisionSeen(request);
      const said = checkedMembers(request.body, instrumentChangesSchema, "instrument");
      if (revision !== now.revision) throw changedMeanwhile(instrumentOnWire(now, request.baseUrl, table));
      const dimensions = merged(now.dimensions, said.dimensions);
      const given = givenOrRefused(instrumentChanged(now, { ...said, dimensions }, table));
      const changed = await store.changeInstrument(now.number, revision, given);
      switch (changed.outcome) {
        case "changed":
          return sendRevision(response, instrumentOnWire(changed.entry, request.baseUrl, table));
        case "changed meanwhile":
          throw changedMeanwhile(instrumentOnWire(changed.now, request.baseUrl, table));
        case "number taken":
          throw numberTaken(given.number);
        case "unknown":
          throw new Problem("not-found", { detail: "The instrument has gone from the records." });
      }
    })
    .all(onlyMethods("GET", "PATCH"));
  return router;
}

/** As somebody types it; what no number can hold finds nothing. */
function typedIn(find: unknown): string {
  if (find === undefined) return "";
  if (typeof find !== "string" || find.length > 200) {
    throw new Problem("unknown-page", { detail: "Ask with one `find` of at most 200 characters." });
  }
  return find.replace(/\p{Cc}/gu, " ");
}

function givenOrRefused(checked: CheckedInstrument): (CheckedInstrument & { outcome: "checked" })["given"] {
  if (checked.outcome === "checked") return checked.given;
  throw faultsRefused(checked.faults, "was changed");
}

/** Null takes one back; null for all of them takes back all; by plain key, so that "Board length" is `board_length`. */
function merged(
  record: SettingTexts,
  said: Readonly<Record<string, string | number | null>> | null | undefined,
): Readonly<Record<string, string | number>> {
  if (said === undefined) return record;
  const after = new Map<string, string | number>(said === null ? [] : Object.entries(record));
  for (const [written, value] of Object.entries(said ?? {})) {
    const key = plainKey(written);
    if (value === null) after.delete(key);
    else after.set(key, value);
  }
  return Object.fromEntries(after);
}

function numberTaken(number: InstrumentRecord["number"]): Problem {
  const detail = `The instrument ${number} is in the records already: give another number, or look at that one.`;
  return new Problem("number-taken", { detail });
}
