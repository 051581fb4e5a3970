/**
 * Which page an address means. Pathname and query -> base and page; an address that means none is told as such.
 *
 * `base` is "" for the workshop's own records and "/invented" for the invented loan store.
 */
import type { Base } from "../api/addresses.ts";

export type Place =
  | { readonly page: "bench"; readonly number: string | null }
  | { readonly page: "instruments" }
  | { readonly page: "story"; readonly number: string }
  | { readonly page: "visit"; readonly number: string; readonly id: string }
  | { readonly page: "due" }
  | { readonly page: "sign-in" }
  | { readonly page: "none" };

export function placeOf(pathname: string, query: string): { readonly base: Base; readonly place: Place } {
  const parts = pathname.split("/").filter((part) => part !== "");
  const isInvented = parts[0] === "invented";
  const place = placeIn(isInvented ? parts.slice(1) : parts, new URLSearchParams(query));
  return { base: isInvented ? "/invented" : "", place };
}

function placeIn(parts: readonly string[], query: URLSearchParams): Place {
  const [first, second, third, fourth] = parts.map(decoded);
  if (parts.length === 0) return { page: "bench", number: query.get("instrument") };
  if (parts.length === 1 && first === "due") return { page: "due" };
  if (parts.length === 1 && first === "sign-in") return { page: "sign-in" };
  if (first !== "instruments") return { page: "none" };
  if (parts.length === 1) return { page: "instruments" };
  if (parts.length === 2) return { page: "story", number: second! };
  if (parts.length === 4 && third === "visits") return { page: "visit", number: second!, id: fourth! };
  return { page: "none" };
}

function decoded(part: string): string {
  try {
    return decodeURIComponent(part);
  } catch {
    return part;
  }
}
