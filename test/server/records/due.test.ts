/** The due list: reached, then the soonest, then not told yet; and outlooks worked out anew by another version of the program. */
import { expect, test } from "vitest";
import type { Outlook, When } from "../../../server/core/history/history.ts";
import type { Store } from "../../../server/records/store.ts";
import { instrumentGiven, newVisit, outlookOf } from "../../support/recordsForTests.ts";
import { describeOnBothStores } from "../../support/storesForTests.ts";

const reached = (since: string): When => ({ told: "reached", since, says: "" });
const range = (from: string): When => ({ told: "range", from, to: null, says: "" });
const notYet: When = { told: "not yet", why: "one visit only" };

const outlooks: Readonly<Record<string, Outlook>> = {
  "C-1": { dressing: range("2028-01-01"), end: notYet },
  "C-2": { dressing: reached("2026-06-01"), end: range("2026-01-01") },
  "C-3": { dressing: notYet, end: notYet },
  "C-4": { dressing: notYet, end: range("2027-01-01") },
  "C-5": { dressing: range("2030-01-01"), end: reached("2025-01-01") },
  "C-6": { dressing: range("2028-01-01"), end: range("2040-01-01") },
};
const inOrder = ["C-5", "C-2", "C-4", "C-1", "C-6", "C-3", "C-9"];

async function loanStore(store: Store): Promise<Store> {
  await store.addInstrument(instrumentGiven("C-9", { label: "never looked at" }));
  for (const [number, outlook] of Object.entries(outlooks)) {
    await store.addInstrument(instrumentGiven(number));
    await store.keepVisit(number, newVisit("2026-11-24", number), () => outlook);
  }
  return store;
}

async function wholeList(store: Store, limit: number) {
  const whole = [];
  for (let after: string | null = null; ; ) {
    const page = await store.due({ after, limit });
    whole.push(...page.entries);
    if (page.next === null) return whole;
    after = page.next;
  }
}

describeOnBothStores("the due list", (stores) => {
  test("tells those reached first, then the soonest, then those not told yet, page by page", async () => {
    const store = await loanStore(await stores.open());
    for (const limit of [1, 2, 3, 7, 50]) {
      expect((await wholeList(store, limit)).map(({ instrumentNumber }) => instrumentNumber)).toEqual(inOrder);
    }
  });

  test("tells each with its last visit and outlook", async () => {
    const [first, ...others] = await wholeList(await loanStore(await stores.open()), 50);
    expect(first).toEqual({
      instrumentNumber: "C-5",
      instrument: "cello",
      label: "",
      lastVisit: "2026-11-24",
      outlook: outlooks["C-5"],
    });
    expect(others.at(-1)).toMatchObject({ instrumentNumber: "C-9", label: "never looked at", lastVisit: null });
  });

  test("works outlooks out anew for another version of the program, once", async () => {
    const store = await loanStore(await stores.open());
    expect(await store.renewOutlooks(outlookOf, "2.0")).toBe(6);
    expect((await wholeList(store, 50))[0].outlook.dressing).toMatchObject({ says: "of 1 visits" });
    expect(await store.renewOutlooks(() => outlooks["C-2"], "2.0")).toBe(0);
    expect((await wholeList(store, 50))[0].outlook.dressing).toMatchObject({ says: "of 1 visits" });
    expect(await store.renewOutlooks(() => outlooks["C-2"], "2.1")).toBe(6);
    expect((await wholeList(store, 50))[0].outlook).toEqual(outlooks["C-2"]);
  });
});
