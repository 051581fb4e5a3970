/**
 * Instruments: added, found by what one types, changed by whoever knows how they stand.
 *
 * In and out: `InstrumentRecord`; a number is looked up by its key, so case and spaces don't matter.
 */
import { randomUUID } from "node:crypto";
import { type Selectable, sql } from "kysely";
import type { Decision } from "../core/examination.ts";
import { cursorAt, placeOf } from "./cursor.ts";
import type { Asking, Changing, Database } from "./database.ts";
import { findKey, numberKey } from "./numberKeys.ts";
import { outlookColumns, outlookWithoutVisits } from "./outlooks.ts";
import type { InstrumentBrought, InstrumentGiven, InstrumentRecord, Page, PageAsked } from "./records.ts";
import type { Store } from "./store.ts";
import type { InstrumentsTable } from "./tables.ts";

type InstrumentQueries = Pick<
  Store,
  "addInstrument" | "importInstrument" | "instrument" | "findInstruments" | "changeInstrument"
>;

export function instrumentQueries(database: Database, now: () => string): InstrumentQueries {
  return {
    addInstrument: (given) =>
      database.change(async (changing) => {
        const added = await insert(changing, { ...given, id: randomUUID(), revision: 1, recordedAt: now() });
        if (added !== null) return { outcome: "added", instrument: added };
        const holder = await rowOf(changing, given.number).executeTakeFirstOrThrow();
        return { outcome: "number taken", instrument: recordOf(holder) };
      }),

    importInstrument: (brought) =>
      database.change(async (changing) => {
        const added = await insert(changing, brought);
        if (added !== null) return { outcome: "added", instrument: added };
        const same = changing.selectFrom("instruments").selectAll().where("id", "=", brought.id);
        const there = await same.executeTakeFirst();
        if (there !== undefined) return { outcome: "there already", instrument: recordOf(there) };
        const holder = await rowOf(changing, brought.number).executeTakeFirstOrThrow();
        return { outcome: "number taken", instrument: recordOf(holder) };
      }),

    instrument: (number) =>
      database.read(async (asking) => {
        const row = await rowOf(asking, number).executeTakeFirst();
        return row === undefined ? null : recordOf(row);
      }),

    findInstruments: (typed, asked) => database.read((asking) => found(asking, findKey(typed), asked)),

    async changeInstrument(number, revision, changes) {
      try {
        return await database.change((changing) => changed(changing, number, revision, changes));
      } catch (error) {
        // Someone took the number between our look and our change.
        if (database.isTaken(error)) return { outcome: "number taken" };
        throw error;
      }
    },
  };
}

/** Null where its id or its number is taken. */
async function insert(changing: Changing, brought: InstrumentBrought): Promise<InstrumentRecord | null> {
  const added = await changing
    .insertInto("instruments")
    .values({
      id: brought.id,
      ...columnsOf(brought),
      revision: brought.revision,
      recorded_at: brought.recordedAt,
      kept_visits: 0,
      visits: 0,
      last_visit: null,
      last_decision: null,
      ...outlookColumns(outlookWithoutVisits),
    })
    .onConflict((conflict) => conflict.doNothing())
    .returningAll()
    .executeTakeFirst();
  return added === undefined ? null : recordOf(added);
}

function rowOf(asking: Asking, number: string) {
  return asking.selectFrom("instruments").selectAll().where("number_key", "=", numberKey(number));
}

/**
 * Locks the instrument's row until the transaction ends, so that two who change its visits take turns; null where there is none.
 * The same statement on both databases.
 */
export async function lockInstrument(
  changing: Changing,
  by: { readonly number: string } | { readonly id: string },
): Promise<Selectable<InstrumentsTable> | null> {
  const locked = changing.updateTable("instruments").set(({ ref }) => ({ kept_visits: ref("kept_visits") }));
  const row = await ("number" in by
    ? locked.where("number_key", "=", numberKey(by.number))
    : locked.where("id", "=", by.id)
  )
    .returningAll()
    .executeTakeFirst();
  return row ?? null;
}

async function changed(
  changing: Changing,
  number: string,
  revision: number,
  changes: Partial<InstrumentGiven>,
): ReturnType<Store["changeInstrument"]> {
  const row = await lockInstrument(changing, { number });
  if (row === null) return { outcome: "unknown" };
  const instrument = recordOf(row);
  if (instrument.revision !== revision) return { outcome: "changed meanwhile", now: instrument };
  if (changes.number !== undefined) {
    const holder = await rowOf(changing, changes.number).where("id", "!=", row.id).executeTakeFirst();
    if (holder !== undefined) return { outcome: "number taken" };
  }
  const after = await changing
    .updateTable("instruments")
    .set({ ...columnsOf({ ...instrument, ...changes }), revision: revision + 1 })
    .where("id", "=", row.id)
    .returningAll()
    .executeTakeFirstOrThrow();
  return { outcome: "changed", entry: recordOf(after) };
}

const list = "instruments";
const [beginning, holding] = ["begins", "holds"];
/** Sorts behind every text that can be typed. */
const behindAll = "\u{10FFFF}";

/** First those whose number begins so (a range of the index), then those that hold it anywhere (every number is looked at). */
async function found(asking: Asking, key: string, { after, limit }: PageAsked): Promise<Page<InstrumentRecord>> {
  const [part, lastFindKey, lastNumberKey] =
    after === null ? [beginning, "", ""] : placeOf(`${list} ${key}`, after, ["", "", ""] as const);
  const from = (isFirst: boolean) => {
    const sorted = asking.selectFrom("instruments").selectAll().orderBy("find_key").orderBy("number_key");
    return isFirst && after !== null
      ? sorted.where(sql<boolean>`(find_key, number_key) > (${lastFindKey}, ${lastNumberKey})`)
      : sorted;
  };
  const rows: { readonly part: string; readonly row: Selectable<InstrumentsTable> }[] = [];
  if (part === beginning) {
    const begin = from(true)
      .where("find_key", ">=", key)
      .where("find_key", "<", key + behindAll);
    for (const row of await begin.limit(limit + 1).execute()) rows.push({ part: beginning, row });
  }
  if (rows.length <= limit && key !== "") {
    const hold = from(part === holding)
      .where(sql<boolean>`find_key like ${`%${literal(key)}%`} escape '\\'`)
      .where(sql<boolean>`find_key not like ${`${literal(key)}%`} escape '\\'`);
    for (const row of await hold.limit(limit + 1 - rows.length).execute()) rows.push({ part: holding, row });
  }
  const told = rows.slice(0, limit);
  const last = told.at(-1);
  return {
    entries: told.map(({ row }) => recordOf(row)),
    next:
      rows.length > limit && last !== undefined
        ? cursorAt(`${list} ${key}`, [last.part, last.row.find_key, last.row.number_key])
        : null,
  };
}

/** A text that `like` takes as it is. */
function literal(text: string): string {
  return text.replaceAll(/[\\%_]/g, "\\$&");
}

function columnsOf(given: InstrumentGiven) {
  return {
    number: given.number,
    number_key: numberKey(given.number),
    find_key: findKey(given.number),
    instrument: given.instrument,
    label: given.label,
    strings: given.strings,
    build: given.build,
    valuable: given.valuable ? 1 : 0,
    dimensions: JSON.stringify(given.dimensions),
  };
}

/** What `columnsOf` and this store's own transactions wrote; hence the types. */
function recordOf(row: Selectable<InstrumentsTable>): InstrumentRecord {
  return {
    id: row.id,
    number: row.number,
    instrument: row.instrument,
    label: row.label,
    strings: row.strings,
    build: row.build as InstrumentRecord["build"],
    valuable: row.valuable === 1,
    dimensions: JSON.parse(row.dimensions),
    revision: row.revision,
    recordedAt: row.recorded_at,
    visits: row.visits,
    lastVisit: row.last_visit,
    lastDecision: row.last_decision as Decision | null,
  };
}
