/**
 * Sessions: somebody signed in, known by a random token of 256 bits. The store holds only its SHA-256, so that whoever reads the store
 * can't sign in with what stands there.
 *
 * A session ends 12 hours after it was last used, and after 30 days in any case. Its end is moved in the store only once it would move by ten
 * minutes: a page that asks often writes seldom.
 */
import { createHash, randomBytes } from "node:crypto";
import type { Role } from "../../records/records.ts";
import type { Store } from "../../records/store.ts";

/** What access needs of the store. */
export type AccessStore = Pick<Store, "passwordHash" | "addSession" | "session" | "renewSession" | "endSession">;

const minuteMs = 60_000;
const idleMs = 12 * 60 * minuteMs;
const renewedAfterMs = 10 * minuteMs;
export const longestSessionMs = 30 * 24 * 60 * minuteMs;

/** Out: the token, for the cookie. */
export async function beginSession(store: AccessStore, role: Role, now: Date): Promise<string> {
  const token = randomBytes(32).toString("base64url");
  const beganAt = now.toISOString();
  await store.addSession(sha256Of(token), { role, beganAt, expiresAt: endOf(beganAt, now) });
  return token;
}

/** Null for a token that nobody is signed in by, any more or ever. */
export async function roleSignedIn(store: AccessStore, token: string, now: Date): Promise<Role | null> {
  const tokenSha256 = sha256Of(token);
  const session = await store.session(tokenSha256, now.toISOString());
  if (session === null) return null;
  const expiresAt = endOf(session.beganAt, now);
  if (Date.parse(expiresAt) - Date.parse(session.expiresAt) >= renewedAfterMs) {
    await store.renewSession(tokenSha256, expiresAt);
  }
  return session.role;
}

export async function endSession(store: AccessStore, token: string): Promise<void> {
  await store.endSession(sha256Of(token));
}

function endOf(beganAt: string, now: Date): string {
  return new Date(Math.min(now.getTime() + idleMs, Date.parse(beganAt) + longestSessionMs)).toISOString();
}

const sha256Of = (token: string) => createHash("sha256").update(token).digest("hex");
