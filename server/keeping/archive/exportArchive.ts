/**
 * The whole store -> one ZIP archive of plain CSV and JSON, as a stream of bytes. README.txt (readme.ts) says what lies where.
 *
 * Others may go on writing meanwhile. Each visit is whole; what is added or renumbered during the export is looked for
 * again at its end. Of a store at rest the same bytes come every time, whichever database it is in. Passwords and sessions are never in it.
 *
 * Out: pieces of the archive. Rejects with StoreUnavailable where the store fails: then what came so far is no archive.
 */
import { createHash } from "node:crypto";
import type { ExaminationRecord, InstrumentRecord, VisitRecord } from "../../records/records.ts";
import { type Store, StoreUnavailable } from "../../records/store.ts";
import { examinationAsJson } from "../../reports/examinationAsJson.ts";
import { visitCells, visitColumns } from "../../reports/instrumentCsv.ts";
import { type Cell, spreadsheetCsv } from "../../reports/spreadsheetCsv.ts";
import { everyPage } from "../everyPage.ts";
import { archiveForm, examinationName, givenFileName, instrumentFolders, names, visitFolder } from "./memberNames.ts";
import { readme } from "./readme.ts";
import { asJson, instrumentJson, playerJson, visitJson } from "./recordsAsJson.ts";
import { type Member, zipped } from "./zipOut.ts";

export type ExportWishes = {
  readonly withPlayers: boolean;
  /** Hears of each instrument as it is done: how many visits of it. */
  readonly tell?: (visits: number) => void;
};

export function exportArchive(store: Store, wishes: ExportWishes): AsyncGenerator<Uint8Array> {
  return zipped(withSums(membersOf(store, wishes)));
}

/** A line for each member, as `sha256sum -c` reads them, in a last member. */
async function* withSums(members: AsyncIterable<Member>): AsyncGenerator<Member> {
  const lines: string[] = [];
  for await (const member of members) {
    lines.push(`${createHash("sha256").update(member.bytes).digest("hex")}  ${member.path}\n`);
    yield member;
  }
  yield { path: names.sums, bytes: Buffer.from(lines.join("")) };
}

async function* membersOf(store: Store, { withPlayers, tell }: ExportWishes): AsyncGenerator<Member> {
  yield { path: names.readme, bytes: Buffer.from(readme) };
  yield { path: names.about, bytes: asJson({ archive: "Boardtrue records", form: archiveForm, withPlayers }) };
  const folderOf = instrumentFolders();
  const instrumentRows: (readonly Cell[])[] = [];
  const visitRows: (readonly Cell[])[] = [];
  for await (const { instrument, visits } of everyInstrument(store)) {
    const folder = folderOf(instrument.number);
    const folders = visits.map((visit) => visitFolder(folder, visit));
    const shortNames = folders.map((one) => one.split("/").at(-2) ?? "");
    yield { path: `${folder}${names.instrument}`, bytes: instrumentJson(instrument, shortNames) };
    for (const [index, visit] of visits.entries()) yield* visitMembers(store, folders[index], visit, withPlayers);
    instrumentRows.push(instrumentCells(instrument, visits, folder));
    for (const visit of visits) visitRows.push([instrument.number, ...visitCells(visit)]);
    tell?.(visits.length);
  }
  yield { path: names.instruments, bytes: Buffer.from(spreadsheetCsv(instrumentColumns, instrumentRows)) };
  yield { path: names.visits, bytes: Buffer.from(spreadsheetCsv(["number", ...visitColumns], visitRows)) };
}

/** Each instrument once, with its visits oldest first, even if numbers change meanwhile. */
async function* everyInstrument(store: Store) {
  const done = new Set<string>();
  for (let before = -1; before < done.size; ) {
    before = done.size;
    for await (const instrument of everyPage((asked) => store.findInstruments("", asked))) {
      if (done.has(instrument.id)) continue;
      const visits: VisitRecord[] = [];
      for await (const visit of everyPage((asked) => store.visits(instrument.number, asked))) visits.push(visit);
      const now = await store.instrument(instrument.number);
      // Renumbered since it was listed: the next round finds it under its new number.
      if (now?.id !== instrument.id) continue;
      done.add(instrument.id);
      yield { instrument, visits: visits.reverse() };
    }
  }
}

async function* visitMembers(
  store: Store,
  folder: string,
  visit: VisitRecord,
  withPlayers: boolean,
): AsyncGenerator<Member> {
  const examinations: ExaminationRecord[] = [];
  for await (const one of everyPage((asked) => store.examinations(visit.id, asked))) examinations.push(one);
  examinations.sort((one, other) => one.ordinal - other.ordinal);
  yield { path: `${folder}${names.visit}`, bytes: visitJson(visit, examinations) };
  for (const { part, sha256 } of visit.files) {
    const bytes = await store.fileBytes(sha256);
    if (bytes === null) throw new StoreUnavailable("damaged");
    yield { path: `${folder}${givenFileName(part)}`, bytes };
  }
  for (const { ordinal } of examinations) {
    const kept = await store.examination(visit.id, ordinal);
    if (kept === null) throw new StoreUnavailable("damaged");
    const text = [...examinationAsJson(kept.examination)].join("");
    yield { path: `${folder}${examinationName(ordinal)}`, bytes: Buffer.from(text) };
  }
  const player = withPlayers ? await store.playerNotes(visit.id) : null;
  if (player !== null) yield { path: `${folder}${names.player}`, bytes: playerJson(player) };
}

const instrumentColumns = ["number", "instrument", "label", "visits", "last_visit", "recorded_at", "folder"];

function instrumentCells(record: InstrumentRecord, visits: readonly VisitRecord[], folder: string): readonly Cell[] {
  const { number, instrument, label, lastVisit, recordedAt } = record;
  return [number, instrument, label, visits.length, lastVisit, recordedAt, folder];
}
