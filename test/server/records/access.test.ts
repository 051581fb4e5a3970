/** Passwords and sessions, as the store holds them: hashes only, ended at once where they should be. */
import { expect, test } from "vitest";
import { describeOnBothStores } from "../../support/storesForTests.ts";

const session = { role: "bench", beganAt: "2026-11-25T08:00:00.000Z", expiresAt: "2026-11-25T20:00:00.000Z" } as const;

describeOnBothStores("a session", (stores) => {
  test("opens until it expires, and not after", async () => {
    const store = await stores.open();
    await store.addSession("a", session);
    expect(await store.session("a", "2026-11-25T19:59:59.999Z")).toEqual(session);
    expect(await store.session("a", session.expiresAt)).toBeNull();
    expect(await store.session("b", session.beganAt)).toBeNull();
  });

  test("that is renewed lasts longer; one that ended stays so", async () => {
    const store = await stores.open();
    await store.addSession("a", session);
    await store.renewSession("a", "2026-11-26T20:00:00.000Z");
    expect(await store.session("a", session.expiresAt)).toMatchObject({ expiresAt: "2026-11-26T20:00:00.000Z" });
    await store.endSession("a");
    await store.renewSession("a", "2026-11-27T20:00:00.000Z");
    expect(await store.session("a", session.beganAt)).toBeNull();
  });

  test("that has expired is dropped when another begins", async () => {
    const store = await stores.open();
    await store.addSession("a", session);
    await store.addSession("b", { ...session, beganAt: session.expiresAt, expiresAt: "2026-11-26T20:00:00.000Z" });
    expect(await store.session("a", session.beganAt)).toBeNull();
  });
});

describeOnBothStores("a new password", (stores) => {
  test("is kept as its hash, and signs its role out, no other", async () => {
    const store = await stores.open();
    expect(await store.passwordHash("owner")).toBeNull();
    await store.setPasswordHash("owner", "hash 1");
    await store.addSession("owner's", { ...session, role: "owner" });
    await store.addSession("bench's", session);
    await store.setPasswordHash("owner", "hash 2");
    expect(await store.passwordHash("owner")).toBe("hash 2");
    expect(await store.passwordHash("bench")).toBeNull();
    expect(await store.session("owner's", session.beganAt)).toBeNull();
    expect(await store.session("bench's", session.beganAt)).toEqual(session);
  });
});
