/**
 * The visits of an instrument: the list, and keeping a new one.
 *
 * A visit comes as a form: the files of an examination, the settings, the date, and what is written down about it. It is answered 201 once it
 * is safe in the store; 200 with the same address where exactly this visit is there already.
 */
import { type Request, Router } from "express";
import { keepVisit, type VisitKept, type VisitSaid } from "../../../keeping/keepVisit.ts";
import type { NotesSaid } from "../../../keeping/visitNotes.ts";
import type { VisitRecord } from "../../../records/records.ts";
import type { Store } from "../../../records/store.ts";
import { nextPart, pageAsked, pageOf } from "../../paging.ts";
import { onlyMethods, Problem } from "../../problems.ts";
import type { ReceivedForm } from "../../receiveForm.ts";
import { sendJson, sendRevision } from "../../revisions.ts";
import { instrumentAddress } from "../../wire/addresses.ts";
import { settingsFromJson, settingsLimitBytes } from "../../wire/settings.ts";
import { keptElsewhere, visitOnWire, visitSummary } from "../../wire/visits.ts";
import { instrumentAsked, numberAsked, unknownInstrument } from "./asked.ts";
import type { RecordsParts } from "./parts.ts";
import { faultsRefused, unknownEarlierVisit } from "./refused.ts";

/** A text of 4,000 characters may have four bytes each. */
const textBytes = 16 * 1024;

const takes = {
  parts: {
    ...{ readings: null, thickness: null, rail: null, settings: settingsLimitBytes, date: textBytes },
    ...{ reason: textBytes, gauge: textBytes, rail_used: textBytes, humidity: textBytes, hours_played: textBytes },
    ...{ decision_taken: textBytes, work_done: textBytes, work_notes: textBytes, after_visit: textBytes },
    ...{ player_hand: textBytes, player_notes: textBytes, same: textBytes },
  },
  needed: { part: "readings", says: "the CSV of readings" },
} as const;
type PartName = keyof typeof takes.parts;
type Form = ReceivedForm<PartName>;

const noteParts = {
  ...{ reason: "reason", gauge: "gauge", rail_used: "rail", humidity: "humidityPercent", hours_played: "hoursPlayed" },
  ...{ decision_taken: "decisionTaken", work_done: "workDone", work_notes: "workNotes", after_visit: "afterVisit" },
} as const;

export function visitsRoutes(parts: RecordsParts): Router {
  const { store, uploads } = parts;
  const router = Router();
  router
    .route("/instruments/:number/visits")
    .get(async (request, response) => {
      const { number } = await instrumentAsked(store, request);
      const found = await pageOf(store.visits(number, pageAsked(request)));
      const { baseUrl } = request;
      sendJson(response, {
        visits: found.entries.map((visit) => visitSummary(visit, baseUrl)),
        next: nextPart(`${instrumentAddress(baseUrl, number)}/visits`, found, request, response),
      });
    })
    .post(async (request, response) => {
      await instrumentAsked(store, request);
      const kept = await uploads.take(request, response, takes, (form) =>
        keepVisit(parts, visitSaid(numberAsked(request), form)),
      );
      if (kept === null) return;
      const { visit, status } = visitOrRefused(kept, request);
      const onWire = {
        ...(await wholeVisit(store, visit, request.baseUrl)),
        alreadyKept: "alreadyKept" in kept ? keptElsewhere(kept.alreadyKept, request.baseUrl) : [],
      };
      response.set("Location", onWire.href);
      sendRevision(response, onWire, status);
    })
    .all(onlyMethods("GET", "POST"));
  return router;
}

/** The visit with the examination that counts now. */
export async function wholeVisit(store: Store, visit: VisitRecord, base: string) {
  const kept = await store.examination(visit.id);
  if (kept === null) throw new Error("a visit without an examination");
  return visitOnWire(visit, kept, base);
}

function visitOrRefused(kept: VisitKept, { baseUrl }: Request): { visit: VisitRecord; status: number } {
  switch (kept.outcome) {
    case "kept":
      return { visit: kept.visit, status: 201 };
    case "there already":
      return { visit: kept.visit, status: 200 };
    case "same readings": {
      const detail = "These readings are kept already under another visit. Send same=keep to keep them here as well.";
      throw new Problem("same-readings", { detail, alreadyKept: keptElsewhere(kept.alreadyKept, baseUrl) });
    }
    case "faulty":
      throw faultsRefused(kept.faults, "was kept");
    case "unknown instrument":
      throw unknownInstrument();
    case "unknown visit":
      throw unknownEarlierVisit("was kept");
  }
}

function visitSaid(instrumentNumber: string, form: Form): VisitSaid {
  const settings = form.get("settings");
  const hand = textOf(form, "player_hand");
  const notes = textOf(form, "player_notes");
  return {
    instrumentNumber,
    date: textOf(form, "date") ?? "",
    files: {
      readings: form.get("readings") ?? [],
      thickness: form.get("thickness") ?? null,
      rail: form.get("rail") ?? null,
    },
    settings: settings === undefined ? {} : Object.fromEntries(settingsFromJson(Buffer.concat(settings))),
    notes: notesIn(form),
    player: hand === null && notes === null ? null : { hand, notes },
    same: sameAsked(textOf(form, "same")),
  };
}

function notesIn(form: Form): NotesSaid {
  const said = Object.entries(noteParts).flatMap(([part, note]) => {
    const text = textOf(form, part as keyof typeof noteParts);
    return text === null ? [] : [[note, text] as const];
  });
  return Object.fromEntries(said);
}

/** Null where the part is not there. */
function textOf(form: Form, part: PartName): string | null {
  const pieces = form.get(part);
  if (pieces === undefined) return null;
  try {
    return new TextDecoder("utf-8", { fatal: true }).decode(Buffer.concat(pieces));
  } catch {
    throw new Problem("broken-form", { detail: `The part "${part}" is not text in UTF-8.` });
  }
}

function sameAsked(said: string | null): "keep" | "ask" {
  if (said === null || said === "keep") return "keep";
  if (said === "ask") return "ask";
  throw new Problem("broken-form", { detail: 'The part "same" is "keep" or "ask".' });
}
