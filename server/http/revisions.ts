/**
 * Revisions over HTTP: an answer's ETag is its record's revision, and whoever changes it sends that back as If-Match (RFC 9110, 13.1.1).
 *
 * So the later of two writers is told (412) and nothing is overwritten unseen; a change without If-Match is asked for it (428, RFC 6585).
 * `If-Match: *` would overwrite whatever is there, so it counts as saying nothing. The ETag stands for the record's own words, which is
 * what a change is made from; counts beside them may have moved on, so it is never used to answer 304.
 */
import type { Request, Response } from "express";
import { Problem } from "./problems.ts";

/** Throws a Problem (`say-which-revision`); null where what was seen is no revision that ever was. */
export function revisionSeen(request: Request): number | null {
  const said = (request.headers["if-match"] ?? "").trim();
  if (said === "" || said === "*") {
    const detail = 'Send If-Match with the ETag of what you saw, such as If-Match: "3".';
    throw new Problem("say-which-revision", { detail });
  }
  const revision = /^"(\d{1,9})"$/.exec(said)?.[1];
  return revision === undefined ? null : Number(revision);
}

/** JSON with its revision as the ETag; `no-store`, as all of the records. */
export function sendRevision(response: Response, record: { readonly revision: number }, status = 200): void {
  response.status(status).set("ETag", `"${record.revision}"`);
  sendJson(response, record);
}

/** Not by Express's own `json`, which would make an ETag of its own and answer 304 by it. */
export function sendJson(response: Response, answer: object): void {
  response.type("application/json").end(JSON.stringify(answer));
}

/** The refusal of a change to something that stands otherwise now. */
export function changedMeanwhile(now: object | null): Problem {
  const detail =
    "Somebody else changed it since you saw it. Look at how it stands now and decide anew; nothing was changed.";
  return new Problem("changed-meanwhile", { detail, now });
}
