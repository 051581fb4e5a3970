/**
 * Looks the whole store over: out come sentences about what is wrong, none where all is well.
 *
 * The database's own check first; then that every file unpacks to its hash, every examination reads, and what is counted beside the
 * instruments and visits agrees with what is there. A hundred rows at a time, so that others are served meanwhile.
 */
import { sql } from "kysely";
import type { Asking, Database } from "./database.ts";
import { unpackExamination } from "./keptExamination.ts";
import { sha256Of, unpacked } from "./packed.ts";
import { StoreUnavailable } from "./store.ts";

const atATime = 100;

export async function checkStore(database: Database): Promise<readonly string[]> {
  const own = await database.integrity().catch((error: unknown) => {
    if (error instanceof StoreUnavailable && error.trouble === "damaged")
      return ["the database can't be read as a whole"];
    throw error;
  });
  return [
    ...own.map((says) => `${database.kind} says of its own files: ${says}.`),
    ...(await wrongOf(() => database.read(filesWrong))),
    ...(await wrongOf(() => database.read(examinationsWrong))),
    ...(await wrongOf(() => database.read(visitsWrong))),
    ...(await wrongOf(() => database.read(countsWrong))),
  ];
}

/** A part that can't even be read is one thing more that is wrong. */
async function wrongOf(look: () => Promise<string[]>): Promise<string[]> {
  try {
    return await look();
  } catch (error) {
    if (error instanceof StoreUnavailable && error.trouble === "damaged")
      return ["A part of the records can't be read."];
    throw error;
  }
}

async function filesWrong(asking: Asking): Promise<string[]> {
  const wrong: string[] = [];
  for (let last = ""; ; ) {
    const rows = await asking
      .selectFrom("files")
      .selectAll()
      .where("sha256", ">", last)
      .orderBy("sha256")
      .limit(atATime)
      .execute();
    for (const { sha256, byte_count, packed } of rows) {
      const bytes = await unpacked(packed).catch(() => null);
      if (bytes !== null && sha256Of(bytes) === sha256 && bytes.length === byte_count) continue;
      for (const of of await holders(asking, sha256)) wrong.push(`The ${of} is no longer what was given.`);
    }
    const end = rows.at(-1);
    if (end === undefined) return wrong;
    last = end.sha256;
  }
}

async function holders(asking: Asking, sha256: string): Promise<string[]> {
  const rows = await asking
    .selectFrom("visit_files")
    .innerJoin("visits", "visits.id", "visit_files.visit_id")
    .innerJoin("instruments", "instruments.id", "visits.instrument_id")
    .select(["part", "number", "date"])
    .where("sha256", "=", sha256)
    .execute();
  if (rows.length === 0) return [`file ${sha256}, which no visit holds,`];
  return rows.map(({ part, number, date }) => `${part} file of ${number}'s visit of ${date}`);
}

async function examinationsWrong(asking: Asking): Promise<string[]> {
  const wrong: string[] = [];
  for (let last: { readonly visit_id: string; readonly ordinal: number } = { visit_id: "", ordinal: 0 }; ; ) {
    const rows = await asking
      .selectFrom("examinations")
      .innerJoin("visits", "visits.id", "examinations.visit_id")
      .innerJoin("instruments", "instruments.id", "visits.instrument_id")
      .select(["visit_id", "examinations.ordinal", "findings", "packed", "number", "date"])
      .where(sql<boolean>`(visit_id, examinations.ordinal) > (${last.visit_id}, ${sql.lit(last.ordinal)})`)
      .orderBy("visit_id")
      .orderBy("examinations.ordinal")
      .limit(atATime)
      .execute();
    for (const { ordinal, findings, packed, number, date } of rows) {
      const reads = await unpackExamination(packed).then(
        () => isJson(findings),
        () => false,
      );
      if (!reads) wrong.push(`Examination ${ordinal} of ${number}'s visit of ${date} can't be read.`);
    }
    const end = rows.at(-1);
    if (end === undefined) return wrong;
    last = end;
  }
}

function isJson(text: string): boolean {
  try {
    JSON.parse(text);
    return true;
  } catch {
    return false;
  }
}

/** Every visit has its notes, its readings, and as many examinations as it counts. */
async function visitsWrong(asking: Asking): Promise<string[]> {
  const rows = await asking
    .selectFrom("visits")
    .innerJoin("instruments", "instruments.id", "visits.instrument_id")
    .leftJoin("visit_notes", "visit_notes.visit_id", "visits.id")
    .leftJoin("visit_files", (join) =>
      join.onRef("visit_files.visit_id", "=", "visits.id").on("visit_files.part", "=", "readings"),
    )
    .select(["number", "date", "visit_notes.examinations as counted", "visit_files.sha256"])
    .select(({ selectFrom, fn }) =>
      selectFrom("examinations")
        .select(fn.countAll<number>().as("count"))
        .whereRef("examinations.visit_id", "=", "visits.id")
        .as("held"),
    )
    .execute();
  return rows.flatMap(({ number, date, counted, sha256, held }) => {
    const of = `${number}'s visit of ${date}`;
    return [
      ...(counted === null ? [`The notes of ${of} are missing.`] : []),
      ...(sha256 === null ? [`The readings of ${of} are missing.`] : []),
      ...(counted !== null && counted !== Number(held)
        ? [`Of ${of} ${counted} examinations were kept, and ${held} are there.`]
        : []),
    ];
  });
}

/** What stands beside each instrument agrees with its visits. */
async function countsWrong(asking: Asking): Promise<string[]> {
  const wrong: string[] = [];
  for (let last = ""; ; ) {
    const rows = await asking
      .selectFrom("instruments")
      .select(["id", "number", "visits", "last_visit"])
      .where("id", ">", last)
      .orderBy("id")
      .limit(atATime)
      .execute();
    for (const { id, number, visits, last_visit } of rows) {
      const held = await asking
        .selectFrom("visits")
        .innerJoin("visit_notes", "visit_notes.visit_id", "visits.id")
        .select("date")
        .where("instrument_id", "=", id)
        .where("withdrawn", "is", null)
        .orderBy("date")
        .execute();
      if (held.length !== visits) wrong.push(`${number} counts ${visits} visits, and ${held.length} are there.`);
      const latest = held.at(-1)?.date ?? null;
      if (latest !== last_visit) wrong.push(`${number}'s last visit is said to be ${last_visit}, and is ${latest}.`);
    }
    const end = rows.at(-1);
    if (end === undefined) return wrong;
    last = end.id;
  }
}
