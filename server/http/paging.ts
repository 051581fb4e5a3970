/**
 * Lists in parts: `?limit=50&after=PLACE`; the answer says where the next part begins, in its body (`next`) and as a link (RFC 8288).
 *
 * The place is the store's own word for it, to be handed back as it was given. Throws a Problem (`unknown-page`) for a limit or a
 * place that can't be; the store refuses a place that it never gave (`BadCursor`), which answers the same.
 */
import type { Request, Response } from "express";
import type { Page, PageAsked } from "../records/records.ts";
import { BadCursor } from "../records/store.ts";
import { Problem } from "./problems.ts";

export const pageLimits = { most: 200, usual: 50 } as const;

export function pageAsked({ query }: Pick<Request, "query">): PageAsked {
  const { limit = String(pageLimits.usual), after } = query;
  if (typeof limit !== "string" || !/^\d{1,3}$/.test(limit) || Number(limit) < 1 || Number(limit) > pageLimits.most) {
    throw new Problem("unknown-page", { detail: `Ask for limit=1 to ${pageLimits.most}.` });
  }
  if (after === undefined) return { after: null, limit: Number(limit) };
  if (typeof after !== "string" || !/^[\x21-\x7e]{1,2000}$/.test(after)) throw unknownPlace();
  return { after, limit: Number(limit) };
}

/** What the store answers to `pageAsked`; a place it never gave becomes a refusal. */
export async function pageOf<Entry>(found: Promise<Page<Entry>>): Promise<Page<Entry>> {
  try {
    return await found;
  } catch (error) {
    throw error instanceof BadCursor ? unknownPlace() : error;
  }
}

/** The address of the part that follows, or null; tells it as a link, too. `path`: where the list lies. */
export function nextPart(
  path: string,
  { next }: Page<unknown>,
  request: Pick<Request, "query">,
  response: Response,
): string | null {
  if (next === null) return null;
  const words = new URLSearchParams();
  for (const [key, text] of Object.entries(request.query)) if (typeof text === "string") words.set(key, text);
  words.set("after", next);
  const address = `${path}?${words}`;
  response.set("Link", `<${address}>; rel="next"`);
  return address;
}

function unknownPlace(): Problem {
  return new Problem("unknown-page", { detail: "Take `after` from the `next` of the part before, or leave it out." });
}
