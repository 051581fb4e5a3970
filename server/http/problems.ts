/**
 * Every refusal the server can give, in one table: kind -> status and title.
 *
 * All of them leave as `application/problem+json` (RFC 9457). `type` is `urn:boardtrue:problem:KIND`; `title` is the
 * same for every case of a kind; `detail` says what to do about this one. Nothing inner leaves: a failure of the
 * program itself says only an id, under which the log has the rest.
 */
import { randomUUID } from "node:crypto";
import type { ErrorRequestHandler, RequestHandler, Response } from "express";
import type { Logger } from "pino";
import type { Fault } from "../core/fault.ts";
import { StoreUnavailable } from "../records/store.ts";
import { discardRest } from "./discardRest.ts";
import { storeTroubles } from "./storeTroubles.ts";

export const problems = {
  "broken-request": { status: 400, title: "The request can't be read" },
  "broken-form": { status: 400, title: "The form can't be read" },
  "missing-part": { status: 400, title: "A part of the form is missing" },
  "unknown-part": { status: 400, title: "The form has a part that is not known here" },
  "repeated-part": { status: 400, title: "A part of the form is there twice" },
  "broken-settings": { status: 400, title: "The settings can't be read" },
  "broken-json": { status: 400, title: "The JSON can't be read" },
  "unknown-page": { status: 400, title: "The address asks for a part of the list that is not known here" },
  "unknown-points": { status: 400, title: "The address asks for points in a way that is not known here" },
  "sign-in-needed": { status: 401, title: "Sign in first" },
  "wrong-password": { status: 401, title: "That is not the password" },
  "owner-only": { status: 403, title: "Only the owner may do this" },
  "foreign-origin": { status: 403, title: "This page belongs to another site" },
  "through-proxy": { status: 403, title: "A server without passwords takes nothing from a proxy" },
  "not-found": { status: 404, title: "There is nothing here" },
  "wrong-method": { status: 405, title: "This address does not take that method" },
  "number-taken": { status: 409, title: "Another instrument has that number" },
  "same-readings": { status: 409, title: "These readings are kept already" },
  "changed-meanwhile": { status: 412, title: "It has been changed meanwhile" },
  "too-slow": { status: 408, title: "The request took too long to arrive" },
  "too-large": { status: 413, title: "The upload is too large" },
  "not-a-form": { status: 415, title: "Readings come as multipart/form-data" },
  "not-a-zip": { status: 415, title: "An archive comes as application/zip" },
  "not-json": { status: 415, title: "This comes as application/json" },
  "foreign-host": { status: 421, title: "This server does not answer to that name" },
  faulty: { status: 422, title: "The files or settings have faults" },
  "not-an-archive": { status: 422, title: "This is no archive of records" },
  "say-which-revision": { status: 428, title: "A change has to say which revision it was made from" },
  "too-often": { status: 429, title: "Too many requests at once" },
  "too-many-tries": { status: 429, title: "Too many wrong passwords" },
  "headers-too-large": { status: 431, title: "The request's headers are too large" },
  failed: { status: 500, title: "The program failed" },
  busy: { status: 503, title: "Too many uploads are under way" },
  "store-unavailable": { status: 503, title: "The records can't be reached or written" },
} as const satisfies Record<string, { status: number; title: string }>;

export type ProblemKind = keyof typeof problems;

/** What a problem carries beyond its kind; `allow` becomes the Allow header, `retryAfterSeconds` Retry-After. */
type Particulars = {
  readonly detail: string;
  readonly faults?: readonly Fault[];
  /** How what was to be changed stands now; null where it is there no more. */
  readonly now?: object | null;
  readonly alreadyKept?: readonly KeptElsewhere[];
  readonly allow?: readonly string[];
  readonly retryAfterSeconds?: number;
};

/** A visit that holds the same readings. */
export type KeptElsewhere = { readonly number: string; readonly date: string; readonly href: string };

/** Throw it in a handler: the last handler of the app turns it into the answer. */
export class Problem extends Error {
  readonly kind: ProblemKind;
  readonly particulars: Particulars;

  constructor(kind: ProblemKind, particulars: Particulars) {
    super(`${kind}: ${particulars.detail}`);
    this.kind = kind;
    this.particulars = particulars;
  }
}

/** The body of a problem, as RFC 9457 has it; `faults`, `now` and `alreadyKept` are extension members. */
export function problemBody(kind: ProblemKind, particulars: Particulars, instance?: string) {
  return {
    type: `urn:boardtrue:problem:${kind}`,
    title: problems[kind].title,
    status: problems[kind].status,
    detail: particulars.detail,
    ...(instance === undefined ? {} : { instance }),
    ...(particulars.faults === undefined ? {} : { faults: particulars.faults }),
    ...(particulars.now === undefined ? {} : { now: particulars.now }),
    ...(particulars.alreadyKept === undefined ? {} : { alreadyKept: particulars.alreadyKept }),
  };
}

/** Nothing else answered. */
export const noSuchAddress: RequestHandler = () => {
  throw new Problem("not-found", { detail: "The API is described at /api/openapi.json." });
};

/** The last entry of a route: whatever method comes this far is not taken there. */
export function onlyMethods(...allow: readonly string[]): RequestHandler {
  return () => {
    throw new Problem("wrong-method", { detail: `Use ${allow.join(" or ")}.`, allow });
  };
}

/** The app's last handler: any error -> a problem. Four parameters, because that is how Express knows it. */
export function answerWithProblem(log: Logger): ErrorRequestHandler {
  return (error: unknown, request, response, _next) => {
    if (response.headersSent || response.destroyed) {
      // Too late for another answer; cutting the connection tells the client that this one is not whole.
      log.error({ err: error }, "failed while answering");
      response.destroy();
      return;
    }
    discardRest(request);
    if (error instanceof Problem) {
      sendProblem(response, error);
      return;
    }
    if (error instanceof StoreUnavailable) {
      log.error({ err: error }, "the store can't be reached or written");
      sendProblem(response, new Problem("store-unavailable", storeTroubles[error.trouble]));
      return;
    }
    const refused = refusalOfLibrary(error);
    if (refused !== null) {
      sendProblem(response, refused);
      return;
    }
    const id = randomUUID();
    log.error({ err: error, failure: id }, "failed");
    const detail = `Nothing was kept or changed. The server's log has the cause under ${id}.`;
    sendProblem(response, new Problem("failed", { detail }), `urn:uuid:${id}`);
  };
}

function sendProblem(response: Response, { kind, particulars }: Problem, instance?: string): void {
  response.status(problems[kind].status);
  if (particulars.allow !== undefined) response.set("Allow", particulars.allow.join(", "));
  if (particulars.retryAfterSeconds !== undefined) response.set("Retry-After", String(particulars.retryAfterSeconds));
  // RFC 9110, 11.6.1: a 401 names a challenge. No browser knows this one, so none asks for a password in a window of its own.
  if (problems[kind].status === 401) response.set("WWW-Authenticate", 'Session realm="Boardtrue"');
  response.set("Cache-Control", "no-store");
  response.type("application/problem+json");
  response.send(JSON.stringify(problemBody(kind, particulars, instance)));
}

/** Express refuses some addresses itself (a broken %-escape, a path outside the page's folder): 4xx, no fault of ours. */
function refusalOfLibrary(error: unknown): Problem | null {
  if (typeof error !== "object" || error === null || !("status" in error)) return null;
  if (error.status === 404 || error.status === 403) {
    return new Problem("not-found", { detail: "The API is described at /api/openapi.json." });
  }
  if (typeof error.status === "number" && error.status >= 400 && error.status < 500) {
    return new Problem("broken-request", { detail: "The address or a header is not well formed." });
  }
  return null;
}
