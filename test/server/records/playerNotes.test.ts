/** What concerns a person: separate, changed in turn, and gone without a trace once it is erased. */
import { readdirSync, readFileSync } from "node:fs";
import { join } from "node:path";
import { expect, test } from "vitest";
import type { Where } from "../../../server/records/openStore.ts";
import type { Store } from "../../../server/records/store.ts";
import { instrumentGiven, newVisit, outlookOf } from "../../support/recordsForTests.ts";
import { askDatabase, describeOnBothStores } from "../../support/storesForTests.ts";

const nobody = "00000000-0000-4000-8000-000000000000";

async function withVisit(store: Store, number: string, says: string, notes: string | null): Promise<string> {
  await store.addInstrument(instrumentGiven(number));
  const player = notes === null ? null : { hand: "left", notes };
  const answer = await store.keepVisit(number, newVisit("2026-11-24", says, { player }), outlookOf);
  if (answer.outcome !== "kept") throw new Error(answer.outcome);
  return answer.visit.id;
}

/** Files of the store that hold these letters anywhere. */
async function filesHolding(where: Where, letters: string): Promise<string[]> {
  let folder: string;
  if ("folder" in where) {
    folder = where.folder;
  } else {
    await askDatabase(where, "checkpoint");
    const [{ path }] = await askDatabase(
      where,
      "select setting || '/base/' || oid as path from pg_settings, pg_database where name = 'data_directory' and datname = current_database()",
    );
    folder = String(path);
  }
  return readdirSync(folder).filter((name) => readFileSync(join(folder, name)).includes(letters));
}

describeOnBothStores("a player's notes", (stores) => {
  test("are set where none were, and changed by whoever knows how they stand", async () => {
    const store = await stores.open();
    const id = await withVisit(store, "C-07", "", null);
    expect(await store.playerNotes(id)).toBeNull();
    const first = { hand: "left", notes: "presses hard", revision: 1 };
    expect(await store.setPlayerNotes(id, null, first)).toEqual({ outcome: "changed", entry: first });
    expect(await store.playerNotes(id)).toEqual(first);
    expect(await store.setPlayerNotes(id, null, { hand: "", notes: "other" })).toEqual({
      outcome: "changed meanwhile",
      now: first,
    });
    expect(await store.setPlayerNotes(id, 1, { hand: "right", notes: "" })).toMatchObject({
      outcome: "changed",
      entry: { revision: 2 },
    });
    expect(await store.setPlayerNotes(nobody, null, first)).toEqual({ outcome: "unknown" });
  });

  test("that were erased meanwhile are not brought back by who saw them before, nor taken for those written since", async () => {
    const store = await stores.open();
    const id = await withVisit(store, "C-07", "", "presses hard");
    expect(await store.erasePlayerNotes({ visitId: id })).toBe(1);
    expect(await store.setPlayerNotes(id, 1, { hand: "", notes: "presses hard" })).toEqual({
      outcome: "changed meanwhile",
      now: null,
    });
    await store.setPlayerNotes(id, null, { hand: "", notes: "another's" });
    expect(await store.setPlayerNotes(id, 1, { hand: "", notes: "presses hard" })).toMatchObject({
      outcome: "changed meanwhile",
    });
    expect(await store.playerNotes(id)).toEqual({ hand: "", notes: "another's", revision: 2 });
  });

  test("are changed by one of two at the same moment through two servers", async () => {
    const where = await stores.newPlace();
    const [one, other] = [await stores.open({ where }), await stores.open({ where })];
    const id = await withVisit(one, "C-07", "", null);
    const answers = await Promise.all(
      [one, other].map((store, i) => store.setPlayerNotes(id, null, { hand: `${i}`, notes: "" })),
    );
    expect(answers.map(({ outcome }) => outcome).toSorted()).toEqual(["changed", "changed meanwhile"]);
  });

  test("leave nothing in the store's files once they are erased, in the log neither; the visit stays", async () => {
    const where = await stores.newPlace();
    const store = await stores.open({ where });
    const secret = "Zwergfellatmung";
    // Long enough for pages of their own.
    const id = await withVisit(store, "C-07", "", `${secret} ${"presses hard ".repeat(700)}`);
    await store.setPlayerNotes(id, 1, { hand: secret, notes: `again ${secret}` });
    const other = await withVisit(store, "C-08", "other", "stays here");
    expect(await filesHolding(where, secret)).not.toEqual([]);
    expect(await store.erasePlayerNotes({ visitId: id })).toBe(1);
    expect(await filesHolding(where, secret)).toEqual([]);
    expect(await filesHolding(where, "stays here")).not.toEqual([]);
    expect(await store.playerNotes(id)).toBeNull();
    expect(await store.playerNotes(other)).toMatchObject({ notes: "stays here" });
    expect(await store.visit("C-07", id)).not.toBeNull();
    expect(await store.check()).toEqual([]);
  });

  test("of all visits of an instrument are erased together, and no other's", async () => {
    const store = await stores.open();
    await withVisit(store, "C-07", "1", "a");
    await store.keepVisit("C-07", newVisit("2026-11-25", "2", { player: { hand: "", notes: "b" } }), outlookOf);
    const other = await withVisit(store, "C-08", "3", "c");
    expect(await store.erasePlayerNotes({ instrumentNumber: "c-07" })).toBe(2);
    expect(await store.erasePlayerNotes({ instrumentNumber: "C-07" })).toBe(0);
    expect(await store.erasePlayerNotes({ instrumentNumber: "C-99" })).toBe(0);
    expect(await store.playerNotes(other)).not.toBeNull();
  });
});
