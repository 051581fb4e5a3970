/**
 * The limit on tries of a password: waits that grow.
 *
 * Per address and role: five tries are free, then each wrong one doubles the wait, from 2 s to 15 min. Per role, over all addresses: fifty are
 * free, then the wait doubles from 1 s to 1 min; from an address that has signed in to the role before, this one does not count, so that somebody
 * who guesses from many addresses can't keep the workshop out. A day (an hour, per role) without a try and all is forgotten.
 *
 * A try counts when it begins, before anything is hashed: of many at once no more pass than one after another. A right one is forgiven.
 * In memory, and bounded: the oldest address gives way, and the role's own count stands.
 */
import type { Role } from "../../records/records.ts";

export type Try =
  | { readonly outcome: "may try"; right(): void; withdraw(): void }
  | { readonly outcome: "wait"; readonly seconds: number };

export type Tries = { begin(address: string, role: Role): Try };

type Pace = { readonly free: number; readonly firstMs: number; readonly mostMs: number; readonly forgottenMs: number };
type Count = { readonly tries: number; readonly lastMs: number };

const perAddress: Pace = { free: 5, firstMs: 2_000, mostMs: 15 * 60_000, forgottenMs: 24 * 3_600_000 };
const perRole: Pace = { free: 50, firstMs: 1_000, mostMs: 60_000, forgottenMs: 3_600_000 };
const mostAddresses = 10_000;

/** `nowMs` is a clock that only goes forward. */
export function countTries(nowMs: () => number = () => performance.now()): Tries {
  const ofAddress = new Map<string, Count>();
  const ofRole = new Map<string, Count>();
  /** Addresses that have signed in, with their role. */
  const known = new Map<string, true>();

  return {
    begin(address, role) {
      const now = nowMs();
      const key = `${role} ${address}`;
      const waitMs = Math.max(
        waitLeft(ofAddress.get(key), perAddress, now),
        known.has(key) ? 0 : waitLeft(ofRole.get(role), perRole, now),
      );
      if (waitMs > 0) return { outcome: "wait", seconds: Math.ceil(waitMs / 1000) };
      keep(ofAddress, key, oneMore(ofAddress.get(key), perAddress, now));
      keep(ofRole, role, oneMore(ofRole.get(role), perRole, now));
      return {
        outcome: "may try",
        right() {
          ofAddress.delete(key);
          oneLess(ofRole, role);
          keep(known, key, true);
        },
        withdraw() {
          oneLess(ofAddress, key);
          oneLess(ofRole, role);
        },
      };
    },
  };
}

function waitLeft(count: Count | undefined, pace: Pace, now: number): number {
  if (count === undefined || count.tries < pace.free) return 0;
  const waitMs = Math.min(pace.firstMs * 2 ** (count.tries - pace.free), pace.mostMs);
  return Math.max(0, count.lastMs + waitMs - now);
}

function oneMore(count: Count | undefined, pace: Pace, now: number): Count {
  const stands = count !== undefined && now - count.lastMs < pace.forgottenMs;
  return { tries: (stands ? count.tries : 0) + 1, lastMs: now };
}

function oneLess(counts: Map<string, Count>, key: string): void {
  const count = counts.get(key);
  if (count !== undefined) counts.set(key, { ...count, tries: Math.max(0, count.tries - 1) });
}

/** A Map keeps the order of insertion: what was used last stands last, and the first gives way. */
function keep<Kept>(entries: Map<string, Kept>, key: string, entry: Kept): void {
  entries.delete(key);
  entries.set(key, entry);
  const [oldest] = entries.keys();
  if (entries.size > mostAddresses && oldest !== undefined) entries.delete(oldest);
}
