/** Sessions on a real store: how long they last, and what of them is kept. */
import { afterEach, beforeEach, expect, test, vi } from "vitest";
import { beginSession, endSession, roleSignedIn } from "../../../../server/http/access/sessions.ts";
import { openStore } from "../../../../server/records/openStore.ts";
import type { Store } from "../../../../server/records/store.ts";

const hourMs = 3_600_000;
const dayMs = 24 * hourMs;
const began = new Date("2026-11-25T09:00:00.000Z");
const after = (ms: number) => new Date(began.getTime() + ms);
let store: Store;

beforeEach(async () => {
  store = await openStore({ memory: true }, { version: "0.0.0-test" });
});
afterEach(() => store.close());

test("a token opens for its role until it is ended", async () => {
  const [owner, bench] = [await beginSession(store, "owner", began), await beginSession(store, "bench", began)];
  expect(owner).toMatch(/^[\w-]{43}$/);
  expect(await roleSignedIn(store, owner, after(1))).toBe("owner");
  expect(await roleSignedIn(store, bench, after(1))).toBe("bench");
  expect(
    await roleSignedIn(
      store,
      bench.replace(/^./, (first) => (first === "A" ? "B" : "A")),
      after(1),
    ),
  ).toBeNull();
  await endSession(store, owner);
  expect(await roleSignedIn(store, owner, after(1))).toBeNull();
  expect(await roleSignedIn(store, bench, after(1))).toBe("bench");
});

test("it ends twelve hours after it was last used", async () => {
  const token = await beginSession(store, "bench", began);
  expect(await roleSignedIn(store, token, after(12 * hourMs))).toBeNull();
  expect(await roleSignedIn(store, token, after(12 * hourMs - 1))).toBe("bench");
  expect(await roleSignedIn(store, token, after(24 * hourMs - 2))).toBe("bench");
  expect(await roleSignedIn(store, token, after(36 * hourMs))).toBeNull();
});

test("it ends after thirty days, however much it is used", async () => {
  const token = await beginSession(store, "owner", began);
  for (let sinceMs = 0; sinceMs < 30 * dayMs; sinceMs += 11 * hourMs) {
    expect(await roleSignedIn(store, token, after(sinceMs))).toBe("owner");
  }
  expect(await roleSignedIn(store, token, after(30 * dayMs - 1))).toBe("owner");
  expect(await roleSignedIn(store, token, after(30 * dayMs))).toBeNull();
});

test("a page that asks often writes once in ten minutes", async () => {
  const token = await beginSession(store, "bench", began);
  const renewals = vi.spyOn(store, "renewSession");
  for (let minute = 0; minute <= 60; minute += 1) await roleSignedIn(store, token, after(minute * 60_000));
  expect(renewals).toHaveBeenCalledTimes(6);
});

test("a clock that is moved back ends no session and lets none live longer than thirty days of its own", async () => {
  const token = await beginSession(store, "owner", began);
  expect(await roleSignedIn(store, token, after(-5 * dayMs))).toBe("owner");
  expect(await roleSignedIn(store, token, after(hourMs))).toBe("owner");
  expect(await roleSignedIn(store, token, after(30 * dayMs))).toBeNull();
});

test("a new password signs its role out, and only that", async () => {
  const [owner, bench] = [await beginSession(store, "owner", began), await beginSession(store, "bench", began)];
  await store.setPasswordHash("owner", "another");
  expect(await roleSignedIn(store, owner, after(1))).toBeNull();
  expect(await roleSignedIn(store, bench, after(1))).toBe("bench");
});
