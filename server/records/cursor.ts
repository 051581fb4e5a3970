/**
 * A place in a list as a short text for the outside: which list, and the key of the last entry that was handed out.
 *
 * Opaque, with a few digits of a hash, so that a mistyped or made-up one is refused instead of leading somewhere (BadCursor). There is
 * nothing secret in it, and its parts only ever become bound parameters.
 */
import { createHash } from "node:crypto";
import { BadCursor } from "./store.ts";

type Part = string | number;

export function cursorAt(list: string, parts: readonly Part[]): string {
  const text = JSON.stringify(parts);
  return `${Buffer.from(text).toString("base64url")}.${sealOf(list, text)}`;
}

/** As many parts, of the same types, as `like` has. */
export function placeOf<Parts extends readonly Part[]>(list: string, cursor: string, like: Parts): Parts {
  const [packed, seal, ...rest] = cursor.split(".");
  const text = Buffer.from(packed, "base64url").toString();
  if (rest.length > 0 || seal !== sealOf(list, text)) throw new BadCursor();
  const parts: unknown = JSON.parse(text);
  if (!isLike(parts, like)) throw new BadCursor();
  return parts;
}

function isLike<Parts extends readonly Part[]>(parts: unknown, like: Parts): parts is Parts {
  return (
    Array.isArray(parts) &&
    parts.length === like.length &&
    like.every((part, index) => typeof parts[index] === typeof part)
  );
}

function sealOf(list: string, text: string): string {
  return createHash("sha256").update(`${list}\n${text}`).digest("base64url").slice(0, 8);
}
