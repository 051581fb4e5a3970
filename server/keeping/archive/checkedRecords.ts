/**
 * What an archive's JSON says, checked as what comes in by the door is: the same texts, kinds, dimensions, choices and days.
 *
 * In: instrument and visit by shape (recordsFromJson.ts). Out: as the store takes them, or the first fault in words. A day
 * ahead of the clock is let in: where it was kept, it was none.
 */
import type { InstrumentTable } from "../../core/board/instrumentTable.ts";
import type { Fault } from "../../core/fault.ts";
import type { InstrumentBrought, PlayerNotes, SettingTexts, VisitNotes } from "../../records/records.ts";
import { instrumentGiven } from "../instrumentGiven.ts";
import { unprintableSettings } from "../keepVisit.ts";
import { visitDate } from "../visitDate.ts";
import { noNotes, playerGiven, visitNotes } from "../visitNotes.ts";
import type { InstrumentFile, VisitFile } from "./recordsFromJson.ts";
import { Unreadable } from "./zipIn.ts";

const mostSettings = 200;

/** Rejects with Unreadable, in words, as the others here do. */
export function checkedInstrument(file: InstrumentFile, table: InstrumentTable): InstrumentBrought {
  const { id, revision, recordedAt, instrument, visits, ...said } = file;
  const checked = instrumentGiven({ ...said, kind: instrument }, table);
  if (checked.outcome === "faulty") throw unreadable(checked.faults);
  return { ...checked.given, id, revision, recordedAt };
}

export type VisitWords = { readonly date: string; readonly settings: SettingTexts; readonly notes: VisitNotes };

export function checkedVisit({ date, settings, notes }: VisitFile, now: Date): VisitWords {
  const day = visitDate(date, now);
  const checked = visitNotes(notes);
  if (day.outcome === "faulty") throw unreadable([day.fault]);
  if (checked.outcome === "faulty") throw unreadable(checked.faults);
  if (Object.keys(settings).length > mostSettings) throw new Unreadable("it has more settings than there are");
  const unprintable = unprintableSettings(settings);
  if (unprintable.length > 0) throw unreadable(unprintable);
  return { date: day.date, settings, notes: { ...noNotes, ...checked.notes } };
}

export function checkedPlayer(file: PlayerNotes): PlayerNotes {
  const checked = playerGiven(file);
  if (checked.outcome === "faulty") throw unreadable(checked.faults);
  return { ...checked.player, revision: file.revision };
}

function unreadable([fault]: readonly Fault[]): Unreadable {
  return new Unreadable(`${fault.saw}. ${fault.remedy}`);
}
