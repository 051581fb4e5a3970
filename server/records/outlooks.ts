/**
 * An instrument's outlook, kept beside it: worked out anew whenever its visits change, and brought down to what the due list sorts by.
 *
 * How it is worked out is not the store's business (`OutlookOf` is given); that it is never older than the visits is.
 */
import type { Outlook, When } from "../core/history/history.ts";
import type { Changing, Database } from "./database.ts";
import { historyVisitsOf } from "./historyVisits.ts";
import type { OutlookOf } from "./records.ts";
import type { Store } from "./store.ts";

const notYet: When = { told: "not yet", why: "There is no visit of it yet." };
export const outlookWithoutVisits: Outlook = { dressing: notYet, end: notYet };

/** Reached before a range before not told; of two the sooner; "" for a day that is not told, so that days compare. */
export function outlookColumns(outlook: Outlook) {
  const [soonest] = [outlook.dressing, outlook.end]
    .map(rankAndDay)
    .sort((one, other) => one.due_rank - other.due_rank || (one.due_day < other.due_day ? -1 : 1));
  return { ...soonest, outlook: JSON.stringify(outlook) };
}

function rankAndDay(when: When) {
  switch (when.told) {
    case "reached":
      return { due_rank: 0, due_day: when.since };
    case "range":
      return { due_rank: 1, due_day: when.from };
    case "not yet":
      return { due_rank: 2, due_day: "" };
  }
}

/** Within the transaction that changed the visits, the instrument's row locked (see lockInstrument). */
export async function renewOutlook(changing: Changing, instrumentId: string, outlookOf: OutlookOf): Promise<void> {
  const visits = await historyVisitsOf(changing, instrumentId);
  const last = visits.at(-1);
  await changing
    .updateTable("instruments")
    .set({
      visits: visits.length,
      last_visit: last?.date ?? null,
      last_decision: last?.findings.decision ?? null,
      ...outlookColumns(last === undefined ? outlookWithoutVisits : outlookOf(visits)),
    })
    .where("id", "=", instrumentId)
    .execute();
}

const workedOutBy = "outlooks worked out by version";

export function renewingOutlooks(database: Database, lock: (changing: Changing, id: string) => Promise<unknown>) {
  const renewOutlooks: Store["renewOutlooks"] = async (outlookOf, version) => {
    const before = await database.read((asking) =>
      asking.selectFrom("remarks").select("says").where("name", "=", workedOutBy).executeTakeFirst(),
    );
    if (before?.says === version) return 0;
    const ids = await database.read((asking) =>
      asking.selectFrom("instruments").select("id").where("visits", ">", 0).orderBy("id").execute(),
    );
    // One by one, so that nobody waits for long meanwhile; where this ends half-way, it is begun again the next time.
    for (const { id } of ids) {
      await database.change(async (changing) => {
        await lock(changing, id);
        await renewOutlook(changing, id, outlookOf);
      });
    }
    await database.change((changing) =>
      changing
        .insertInto("remarks")
        .values({ name: workedOutBy, says: version })
        .onConflict((conflict) => conflict.column("name").doUpdateSet({ says: version }))
        .execute(),
    );
    return ids.length;
  };
  return { renewOutlooks };
}
