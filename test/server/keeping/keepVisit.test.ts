/**
 * A visit on its way into the records: what is kept, what is recognised, what is refused. The boards are the program's examples.
 */
import { readFileSync } from "node:fs";
import { describe, expect, test } from "vitest";
import { keepVisit, type VisitKept, type VisitSaid } from "../../../server/keeping/keepVisit.ts";
import type { SettingTexts, VisitRecord } from "../../../server/records/records.ts";
import type { Store } from "../../../server/records/store.ts";
import { addInstrument, examineHere, inPieces, keepingOn } from "../../support/keepingForTests.ts";
import { describeOnBothStores, storesForTests } from "../../support/storesForTests.ts";

const example = (name: string) => readFileSync(new URL(`../../../data/examples/${name}`, import.meta.url), "utf8");
const readings = example("cello-to-dress.csv");
const thickness = example("cello-to-dress.thickness.csv");
/** The same board in a file that says nothing about the instrument. */
const bareReadings = readings.replace(/^# (?!tip_radius|resolution|tension).*\n/gm, "");

function visit(others: Partial<VisitSaid> = {}, csv = readings): VisitSaid {
  return {
    instrumentNumber: "C-07",
    date: "2025-10-06",
    files: { readings: inPieces(csv), thickness: inPieces(thickness), rail: null },
    settings: {},
    notes: { reason: "buzzes on A" },
    player: null,
    same: "keep",
    ...others,
  };
}

async function withCello(store: Store): Promise<Store> {
  await addInstrument(store, { number: "C-07", kind: "cello" });
  return store;
}

function keptVisit(kept: VisitKept): VisitRecord {
  if (kept.outcome !== "kept" && kept.outcome !== "there already") throw new Error(JSON.stringify(kept));
  return kept.visit;
}

function faultsOf(kept: VisitKept) {
  return kept.outcome === "faulty" ? kept.faults : [];
}

const visitsOf = async (store: Store, number = "C-07") =>
  (await store.visits(number, { after: null, limit: 50 })).entries;

describeOnBothStores("a visit", (stores) => {
  test("is kept with its examination, its notes, and its files byte for byte", async () => {
    const store = await withCello(await stores.open());
    const odd = `\ufeff${readings.replaceAll("\n", "\r\n")}\r\n`;
    const player = { hand: "small hand", notes: "" };
    const kept = await keepVisit(keepingOn(store), visit({ settings: { loose: "no" }, player }, odd));
    const record = keptVisit(kept);
    expect(kept.outcome).toBe("kept");
    expect(record).toMatchObject({ date: "2025-10-06", reason: "buzzes on A", settings: { loose: "no" }, revision: 1 });
    expect(record.findings).toMatchObject({ decision: "dress", deepest: { string: "A", note: "B" } });
    expect((await store.examination(record.id))?.examination.verdict.decision).toBe("dress");
    expect(await store.playerNotes(record.id)).toMatchObject(player);
    for (const [part, given] of [
      ["readings", odd],
      ["thickness", thickness],
    ]) {
      const file = record.files.find((one) => one.part === part);
      expect(Buffer.from((await store.fileBytes(file?.sha256 ?? "")) ?? [])).toEqual(Buffer.from(given));
    }
  });

  test("is recognised when it is sent again, in whatever pieces, and not examined again", async () => {
    const store = await withCello(await stores.open());
    const first = keptVisit(await keepVisit(keepingOn(store), visit()));
    let examined = 0;
    const counting = () => {
      examined++;
      return examineHere();
    };
    const files = { readings: inPieces(readings, 17), thickness: inPieces(thickness, 3), rail: null };
    const again = await keepVisit(
      keepingOn(store, { examineHere: counting }),
      visit({ files, instrumentNumber: " c-07" }),
    );
    expect(again).toMatchObject({ outcome: "there already", visit: { id: first.id }, alreadyKept: [] });
    expect(examined).toBe(0);
    expect(await visitsOf(store)).toHaveLength(1);
  });

  test("is kept once when it is sent eight times at once", async () => {
    const store = await withCello(await stores.open());
    const all = await Promise.all(Array.from({ length: 8 }, () => keepVisit(keepingOn(store), visit())));
    expect(new Set(all.map((kept) => keptVisit(kept).id)).size).toBe(1);
    expect(all.filter(({ outcome }) => outcome === "kept")).toHaveLength(1);
    expect(await visitsOf(store)).toHaveLength(1);
  });

  test.each([
    ["on another day", { date: "2025-10-07" }],
    ["with other settings", { settings: { loose: "yes" } }],
    ["without its thicknesses", { files: { readings: inPieces(readings), thickness: null, rail: null } }],
  ])("is another one %s: kept, and told where the same readings are", async (_, others) => {
    const store = await withCello(await stores.open());
    const first = keptVisit(await keepVisit(keepingOn(store), visit()));
    const kept = await keepVisit(keepingOn(store), visit(others));
    const there = { instrumentNumber: "C-07", visitId: first.id, date: "2025-10-06" };
    expect(kept).toMatchObject({ outcome: "kept", alreadyKept: [there] });
    expect(await visitsOf(store)).toHaveLength(2);
  });

  test("of readings that another instrument has is asked about first where that is wanted, and then not kept", async () => {
    const store = await withCello(await stores.open());
    await addInstrument(store, { number: "C-08", kind: "cello" });
    const first = keptVisit(await keepVisit(keepingOn(store), visit()));
    const asked = await keepVisit(keepingOn(store), visit({ instrumentNumber: "C-08", same: "ask" }));
    const there = { instrumentNumber: "C-07", visitId: first.id, date: "2025-10-06" };
    expect(asked).toEqual({ outcome: "same readings", alreadyKept: [there] });
    expect(await visitsOf(store, "C-08")).toEqual([]);
  });

  test("that measures again belongs to a visit of the same instrument", async () => {
    const store = await withCello(await stores.open());
    const before = keptVisit(await keepVisit(keepingOn(store), visit({ notes: { workDone: "dressed" } })));
    const after = { date: "2025-10-13", notes: { afterVisit: before.id } };
    expect(keptVisit(await keepVisit(keepingOn(store), visit(after))).afterVisit).toBe(before.id);
    const strange = { date: "2025-10-14", notes: { afterVisit: "00000000-0000-4000-8000-000000000000" } };
    expect((await keepVisit(keepingOn(store), visit(strange))).outcome).toBe("unknown visit");
    expect(await visitsOf(store)).toHaveLength(2);
  });

  test("of an instrument that nobody recorded is not kept", async () => {
    const store = await stores.open();
    expect(await keepVisit(keepingOn(store), visit())).toEqual({ outcome: "unknown instrument" });
  });

  test("is refused with every fault at once, and nothing of it is kept", async () => {
    const store = await withCello(await stores.open());
    const said = visit(
      {
        date: "2025-02-30",
        notes: { humidityPercent: "wet", reason: "\u0000" },
        player: { notes: "\u202e" },
        settings: { rail_error: "rail\u0000.csv" },
      },
      readings.replace("14.77", "O.77"),
    );
    const faults = faultsOf(await keepVisit(keepingOn(store), said));
    expect(faults.map(({ where, code }) => `${where} ${code}`)).toEqual(
      expect.arrayContaining([
        "visit not-a-date",
        "visit not-in-range",
        "visit unprintable",
        "settings unprintable",
        "readings letter-in-number",
      ]),
    );
    expect(await visitsOf(store)).toEqual([]);
    expect((await store.instrument("C-07"))?.visits).toBe(0);
  });
});

describe("a visit and the clock", () => {
  const stores = storesForTests("SQLite");
  const yearBefore = () => new Date("2024-11-25T12:00:00Z");

  test("a day that lies ahead is refused", async () => {
    const store = await withCello(await stores.open());
    const faults = faultsOf(await keepVisit(keepingOn(store), visit({ date: "2025-11-27" })));
    expect(faults.map(({ code }) => code)).toEqual(["date-ahead"]);
  });

  test("with the clock moved back, a visit that is kept already is recognised, and stays", async () => {
    const store = await withCello(await stores.open());
    const first = keptVisit(await keepVisit(keepingOn(store), visit()));
    const again = await keepVisit(keepingOn(store, { now: yearBefore }), visit());
    expect(again).toMatchObject({ outcome: "there already", visit: { id: first.id } });
    const earlier = await keepVisit(keepingOn(store, { now: yearBefore }), visit({ date: "2024-11-20" }));
    expect(earlier.outcome).toBe("kept");
  });
});

describe("what form, file and record say of an instrument", () => {
  const stores = storesForTests("SQLite");

  async function figures(csv: string, settings: SettingTexts) {
    const store = await stores.open();
    await addInstrument(store, {
      number: "C-07",
      kind: "cello",
      build: "solid",
      dimensions: { board_length: 590, edge_limit: 5.1, dress_at: 0.3 },
    });
    const { id } = keptVisit(await keepVisit(keepingOn(store), visit({ settings }, csv)));
    const { boardLengthMm, edgeLimitMm, dressAtMm } = (await store.examination(id))!.examination.instrument;
    return [boardLengthMm.value, edgeLimitMm.value, dressAtMm.value];
  }

  test("counts in this order: form, file, record", async () => {
    // The file says 580 and 5.4, and nothing of the depth that calls for a dressing.
    expect(await figures(readings, { edge_limit: "5.2" })).toEqual([580, 5.2, 0.3]);
    expect(await figures(readings, {})).toEqual([580, 5.4, 0.3]);
    expect(await figures(bareReadings, {})).toEqual([590, 5.1, 0.3]);
    expect(await figures(bareReadings, { "Dress at": "0,35" })).toEqual([590, 5.1, 0.35]);
  });

  test("a key that stands blank in the file says nothing, and the record is asked", async () => {
    expect(await figures(`# edge_limit:\n${bareReadings}`, {})).toEqual([590, 5.1, 0.3]);
  });

  test("a file of another kind is refused where it says so, with what to do", async () => {
    const store = await withCello(await stores.open());
    const kept = await keepVisit(keepingOn(store), visit({}, example("violin-to-leave.csv")));
    const fault = faultsOf(kept).find(({ code }) => code === "another-instrument");
    expect(fault).toMatchObject({ where: "readings", line: 1 });
    expect(fault?.saw).toContain('"C-07" is recorded as cello 4/4');
    expect(fault?.remedy).toContain("Give the visit to the instrument that was read");
  });

  test.each([["violin"], ["cello 3/4"]])("a form that says %s is refused, too", async (instrument) => {
    const store = await withCello(await stores.open());
    const kept = await keepVisit(keepingOn(store), visit({ settings: { instrument } }, bareReadings));
    expect(faultsOf(kept)[0]).toMatchObject({ where: "settings", line: null, code: "another-instrument" });
  });

  test("a file that says cello and no size means the size that the record knows", async () => {
    const store = await stores.open();
    await addInstrument(store, { number: "C-34", kind: "cello", size: "3/4" });
    const csv = example("cello-bent-neck.csv").replace("instrument: cello 3/4", "instrument: Cello");
    const files = { readings: inPieces(csv), thickness: null, rail: null };
    const { id } = keptVisit(await keepVisit(keepingOn(store), visit({ instrumentNumber: "C-34", files })));
    expect((await store.examination(id))?.examination.instrument.size).toBe("3/4");
  });
});

describe("a long file", () => {
  const stores = storesForTests("SQLite");

  test("waits for its turn and is examined apart; a short one is not", async () => {
    const store = await withCello(await stores.open());
    const seen: string[] = [];
    const keeping = keepingOn(store, {
      examineApart: () => {
        seen.push("apart");
        return examineHere();
      },
      inTurn: (work) => {
        seen.push("turn");
        return work();
      },
    });
    await keepVisit(keeping, visit());
    expect(seen).toEqual([]);
    const long = `${readings}${"\n".repeat(64 * 1024)}`;
    keptVisit(await keepVisit(keeping, visit({ date: "2025-10-07" }, long)));
    expect(seen).toEqual(["turn", "apart"]);
  });
});
