/**
 * Takes a body of JSON: `application/json` (RFC 8259, so UTF-8 only), at most 64 kB, left in `request.body` as it was written.
 *
 * `checkedMembers` then holds it against a schema: members that are not known, or not of their kind, are faults that name
 * them, all together. What comes out is the body as written, not as the schema would rebuild it: a schema may pass over a key
 * such as "__proto__", those that follow must see it. Throws a Problem: not-json, too-large, broken-json, faulty.
 */
import express, { type RequestHandler } from "express";
import { nearestWord } from "../core/board/nearestWord.ts";
import type { Fault } from "../core/fault.ts";
import { shownSafely } from "../core/readings/shownSafely.ts";
import { Problem } from "./problems.ts";
import type { z } from "./wire/schema.ts";

const limitBytes = 64 * 1024;
const readWhole = express.raw({ limit: limitBytes, type: () => true, inflate: false });

export const jsonBody: RequestHandler = (request, response, next) => {
  if (!/^application\/json\s*(;|$)/i.test((request.headers["content-type"] ?? "").trim())) {
    throw new Problem("not-json", { detail: "Send one JSON object with Content-Type: application/json." });
  }
  readWhole(request, response, (error?: unknown) => {
    if (error !== undefined) {
      next(
        isTooLarge(error) ? new Problem("too-large", { detail: `At most ${limitBytes} bytes are taken here.` }) : error,
      );
      return;
    }
    try {
      request.body = parsed(request.body);
      next();
    } catch (refusal) {
      next(refusal);
    }
  });
};

/** JSON knows no undefined: what is left out is not there. */
type AsJson<T> = { [K in keyof T]: Exclude<T[K], undefined> };

/** Throws a Problem (`faulty`) that names every member that is not known or not of its kind. */
export function checkedMembers<Schema extends z.ZodObject>(
  body: unknown,
  schema: Schema,
  where: Fault["where"],
): AsJson<z.infer<Schema>> {
  if (typeof body !== "object" || body === null || Array.isArray(body)) {
    throw new Problem("broken-json", { detail: "Send one JSON object: { … }." });
  }
  const checked = schema.safeParse(body);
  if (checked.success) return body as AsJson<z.infer<Schema>>;
  const known = Object.keys(schema.shape);
  const faults = checked.error.issues.flatMap((issue): Fault[] => {
    if (issue.code === "unrecognized_keys" && issue.path.length === 0) {
      return issue.keys.map((key) => unknownMember(key, known, where));
    }
    const member = issue.path.map(String).join(", ");
    return [
      {
        ...{ where, line: null, column: null, code: "not-of-its-kind" },
        saw: `${shownSafely(member)} is ${kindInWords(memberAt(body, issue.path))}`,
        remedy: issue.message,
      },
    ];
  });
  throw new Problem("faulty", { detail: "Mend each of the faults listed here and send it again.", faults });
}

function parsed(body: unknown): unknown {
  try {
    return JSON.parse(new TextDecoder("utf-8", { fatal: true }).decode(body as Uint8Array));
  } catch {
    throw new Problem("broken-json", { detail: "What came is not well-formed JSON in UTF-8." });
  }
}

function isTooLarge(error: unknown): boolean {
  return typeof error === "object" && error !== null && "status" in error && error.status === 413;
}

function unknownMember(key: string, known: readonly string[], where: Fault["where"]): Fault {
  return {
    ...{ where, line: null, column: null, code: "unknown-member" },
    saw: `${shownSafely(key)} is not known here`,
    remedy: `Did you mean \`${nearestWord(key.slice(0, 100), known)}\`? Known are: ${known.join(", ")}.`,
  };
}

function memberAt(body: unknown, path: readonly PropertyKey[]): unknown {
  return path.reduce<unknown>(
    (within, key) => (typeof within === "object" && within !== null ? Reflect.get(within, key) : undefined),
    body,
  );
}

function kindInWords(found: unknown): string {
  if (found === undefined) return "missing";
  if (found === null) return "null";
  if (typeof found === "boolean") return String(found);
  if (typeof found === "number") return `the number ${found}`;
  if (typeof found === "string") return `the text ${shownSafely(found)}`;
  return Array.isArray(found) ? "a list" : "an object";
}
