/**
 * Passwords: what makes one fit, the text kept in its place, and whether a password is the one behind that text.
 *
 * scrypt (RFC 7914) with N = 2^17, r = 8, p = 1: what OWASP's Password Storage Cheat Sheet asks of scrypt at least. One hash takes
 * 128 MiB (128 · N · r) and some tenths of a second, which is what makes guessing dear; it runs beside the event loop. The text names
 * its own parameters and salt, `$scrypt$ln=17,r=8,p=1$SALT$HASH` (base64), so that dearer ones can be chosen later without locking
 * anybody out.
 *
 * A password is taken as RFC 8265 (OpaqueString) says, as far as it matters here: Unicode NFC, nothing trimmed.
 */
import { randomBytes, scrypt, timingSafeEqual } from "node:crypto";
import type { Role } from "./records/records.ts";

const cost = { log2N: 17, r: 8, p: 1 } as const;
const saltBytes = 16;
const hashBytes = 32;

const passwordLength = { least: 10, most: 200 } as const;

/** Why a password won't do, and what would, for whoever chose it; null where it is fit. */
export function passwordFault(role: Role, password: string): string | null {
  const { least, most } = passwordLength;
  const characters = [...password.normalize("NFC")];
  if (/\p{Cc}|\p{Cs}/u.test(password)) return "A password has no line breaks and no control characters.";
  if (characters.length < least) return `At least ${least} characters; three or four words are easy to remember.`;
  if (characters.length > most) return `At most ${most} characters.`;
  if (isPlain(characters)) return "Its characters repeat or follow one another: anybody would try that soon.";
  if (beyondUsualWords(role, password) < 6) return "That is too near to the role's name or a usual word.";
  return null;
}

/** Three of four steps from a character to the next lead to itself or to its neighbour: "1234567890", "aaaaaaaaaa". */
function isPlain(characters: readonly string[]): boolean {
  const codes = characters.map((character) => character.codePointAt(0) ?? 0);
  const steps = codes.slice(1).map((code, index) => Math.abs(code - codes[index]));
  return steps.filter((step) => step <= 1).length >= 0.75 * steps.length;
}

/** How many letters and digits are left without the words that stand nearest. */
function beyondUsualWords(role: Role, password: string): number {
  let rest = password.toLowerCase().replace(/[^\p{L}\p{N}]/gu, "");
  for (const word of [role, "owner", "bench", "boardtrue", "password", "workshop", "fingerboard", "qwertyuiop"]) {
    rest = rest.replaceAll(word, "");
  }
  return [...rest].length;
}

/** With a salt of its own each time: two hashes of one password differ. */
export async function hashPassword(password: string): Promise<string> {
  const salt = randomBytes(saltBytes);
  const hash = await derive(password, salt, hashBytes, cost);
  const { log2N, r, p } = cost;
  return `$scrypt$ln=${log2N},r=${r},p=${p}$${salt.toString("base64")}$${hash.toString("base64")}`;
}

/** Throws where `kept` is no text of hashPassword: the store is damaged. */
export async function passwordMatches(password: string, kept: string): Promise<boolean> {
  const parts = /^\$scrypt\$ln=(\d{1,2}),r=(\d{1,2}),p=(\d)\$([\w+/=]{8,})\$([\w+/=]{22,})$/.exec(kept);
  if (parts === null) throw new Error("what is kept in a password's place can't be read");
  const [log2N, r, p] = parts.slice(1, 4).map(Number);
  const expected = Buffer.from(parts[5], "base64");
  const hash = await derive(password, Buffer.from(parts[4], "base64"), expected.length, { log2N, r, p });
  return timingSafeEqual(hash, expected);
}

type Cost = { readonly log2N: number; readonly r: number; readonly p: number };

function derive(password: string, salt: Buffer, bytes: number, { log2N, r, p }: Cost): Promise<Buffer> {
  const N = 2 ** log2N;
  // Node refuses more than 32 MiB unless told; twice what the algorithm itself needs leaves room for its own blocks.
  const options = { N, r, p, maxmem: 256 * N * r };
  return new Promise((resolve, reject) => {
    scrypt(password.normalize("NFC"), salt, bytes, options, (error, hash) =>
      error === null ? resolve(hash) : reject(error),
    );
  });
}
