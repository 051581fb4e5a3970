/** A visit examined again: by a newer version, with a record put right, or refused; what was there stays there. */
import { readFileSync } from "node:fs";
import { expect, test } from "vitest";
import { examinerFor } from "../../../server/examiner.ts";
import { answeringHere } from "../../../server/examinerApart.ts";
import { loadInstrumentTable } from "../../../server/instrumentTable.ts";
import { examineAgain } from "../../../server/keeping/examineAgain.ts";
import { keepVisit } from "../../../server/keeping/keepVisit.ts";
import type { Store } from "../../../server/records/store.ts";
import { addInstrument, inPieces, keepingOn } from "../../support/keepingForTests.ts";
import { describeOnBothStores } from "../../support/storesForTests.ts";

const example = (name: string) => readFileSync(new URL(`../../../data/examples/${name}`, import.meta.url), "utf8");

/** A violin read slack, with thicknesses and the rail's profile: all the files that a visit can have. */
async function keepViolin(store: Store): Promise<string> {
  await addInstrument(store, { number: "V-27", kind: "violin" });
  const kept = await keepVisit(keepingOn(store), {
    instrumentNumber: "V-27",
    date: "2025-11-10",
    files: {
      readings: inPieces(example("violin-slack.csv")),
      thickness: inPieces(example("violin-slack.thickness.csv")),
      rail: inPieces(example("violin-slack.rail.csv")),
    },
    settings: { hollow_band: "0.12" },
    notes: {},
    player: null,
    same: "keep",
  });
  if (kept.outcome !== "kept") throw new Error(JSON.stringify(kept));
  return kept.visit.id;
}

const examinationsOf = async (store: Store, id: string) =>
  (await store.examinations(id, { after: null, limit: 10 })).entries.map(({ ordinal, version }) => [ordinal, version]);

describeOnBothStores("a visit examined again", (stores) => {
  test("by a newer version that thinks the same says so, and both examinations stay", async () => {
    const store = await stores.open();
    const id = await keepViolin(store);
    const newer = answeringHere(examinerFor(loadInstrumentTable(), "newer"));
    const again = await examineAgain(keepingOn(store, { examineHere: newer }), "V-27", id);
    expect(again).toMatchObject({ outcome: "examined again", kept: { ordinal: 2, version: "newer" }, changes: [] });
    const ordinals = (await examinationsOf(store, id)).sort();
    expect(ordinals).toEqual([
      [1, "test"],
      [2, "newer"],
    ]);
    expect((await store.visit("V-27", id))?.version).toBe("newer");
    // Said beside the files when they were kept.
    expect((await store.examination(id))?.examination.instrument.hollowBandMm.value).toBe(0.12);
  });

  test("after the record was put right says what that changes, and the latest examination counts", async () => {
    const store = await stores.open();
    const id = await keepViolin(store);
    const dimensions = { dress_at: "0.6", hollow_tolerance: "0.5" };
    expect((await store.changeInstrument("V-27", 1, { dimensions })).outcome).toBe("changed");
    const again = await examineAgain(keepingOn(store), "V-27", id);
    const changes = again.outcome === "examined again" ? again.changes : [];
    expect(changes).toContainEqual(
      expect.objectContaining({ what: "the decision", before: "dress", after: "leave as it is" }),
    );
    expect((await store.visit("V-27", id))?.findings).toMatchObject({ decision: "leave", dressAtMm: 0.6 });
    expect((await store.examination(id, 1))?.examination.verdict.decision).toBe("dress");
  });

  test("that is refused now keeps the examination that it has", async () => {
    const store = await stores.open();
    const id = await keepViolin(store);
    await store.changeInstrument("V-27", 1, { instrument: "viola" });
    const again = await examineAgain(keepingOn(store), "V-27", id);
    expect(again).toMatchObject({ outcome: "faulty", faults: [{ code: "another-instrument" }] });
    expect(await examinationsOf(store, id)).toEqual([[1, "test"]]);
  });

  test("is told as unknown where the instrument has no such visit", async () => {
    const store = await stores.open();
    const id = await keepViolin(store);
    await addInstrument(store, { number: "V-28", kind: "violin" });
    expect(await examineAgain(keepingOn(store), "V-28", id)).toEqual({ outcome: "unknown" });
    expect(await examineAgain(keepingOn(store), "V-29", id)).toEqual({ outcome: "unknown" });
  });
});
