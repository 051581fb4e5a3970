/**
 * Each trouble of the store in words for whoever's request met it: what was kept, and what to do.
 *
 * All are 503, also a full disk: 507 belongs to WebDAV (RFC 4918, 11.5), and a client that does not know it must take it as
 * 500 (RFC 9110, 15), a failure of the program. Retry-After only where waiting alone may help.
 */
import type { StoreTrouble } from "../records/store.ts";

type Words = { readonly detail: string; readonly retryAfterSeconds?: number };

export const storeTroubles: Readonly<Record<StoreTrouble, Words>> = {
  full: {
    detail:
      "The disk is full: make some room on it, then send this again. Nothing of this request was kept; what was kept before is safe.",
  },
  locked: {
    detail: "Another program holds the records just now. Nothing of this request was kept: send it again in a moment.",
    retryAfterSeconds: 3,
  },
  unreachable: {
    detail: "The database does not answer. Nothing of this request was kept: send it again once the database is back.",
    retryAfterSeconds: 10,
  },
  "read-only": {
    detail:
      "The records can be read but not written. Nothing of this request was kept: let the program write in their folder, then send it again.",
  },
  damaged: {
    detail:
      "The file of the records is damaged. Nothing of this request was kept: stop the program, keep that file, and put the latest backup in its place.",
  },
};
