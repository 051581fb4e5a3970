/**
 * What the bench asks: an examination, the table of instruments, the example boards.
 *
 * Every call answers with a value: examined, faulty (what was given is wrong) or failed (the server or the way to it).
 */
import type { Kind } from "../../server/core/board/instrument.ts";
import type { Examination } from "../../server/core/examination.ts";
import type { Fault } from "../../server/core/fault.ts";
import { ask, fetchFile, type Progress, sendForm } from "./reach.ts";

export type Answer =
  | { readonly outcome: "examined"; readonly examination: Examination }
  | { readonly outcome: "faulty"; readonly faults: readonly Fault[] }
  | { readonly outcome: "failed"; readonly why: string };

export type Given = {
  readonly readings: File;
  readonly thickness: File | null;
  /** The error profile of the rail. */
  readonly rail: File | null;
  readonly settings: Readonly<Record<string, string>>;
};

type Figure = { readonly value: number; readonly origin: string };

/** An instrument of the table, as far as the page needs it: its name as the `instrument` setting takes it. */
export type KindEntry = {
  readonly instrument: string;
  readonly kind: Kind;
  readonly size: string;
  readonly usual: boolean;
  readonly strings: readonly string[];
  readonly figures: Readonly<Record<string, Figure>>;
};

/** A setting as the server's table has it. */
export type SettingMeaning = {
  readonly key: string;
  readonly meaning: string;
  readonly unit: string | null;
  /** The figure of an instrument that it replaces. */
  readonly figure: string | null;
};

export type Example = {
  readonly id: string;
  readonly number: string;
  readonly title: string;
  readonly story: string;
  readonly readings: string;
  readonly thickness: string | null;
  readonly rail: string | null;
};

/** An example's files, as if they had been dropped. */
export type ExampleFiles = { readonly readings: File; readonly thickness: File | null; readonly rail: File | null };

/** The parts of a form that carry what was given; the same for an examination and for a visit. */
export function formOf({ readings, thickness, rail, settings }: Given): FormData {
  const form = new FormData();
  form.append("readings", readings, readings.name);
  if (thickness !== null) form.append("thickness", thickness, thickness.name);
  if (rail !== null) form.append("rail", rail, rail.name);
  if (Object.keys(settings).length > 0) form.append("settings", JSON.stringify(settings));
  return form;
}

/** `few`: of a scan only the points that a drawing can show. */
export async function examine(
  given: Given,
  points: "all" | "few" = "all",
  tell: (progress: Progress) => void = () => undefined,
): Promise<Answer> {
  const address = `/api/examinations${points === "few" ? "?points=few" : ""}`;
  const reply = await sendForm<Examination>(address, formOf(given), tell);
  if (reply.outcome === "answered") return { outcome: "examined", examination: reply.body };
  const faults = faultsIn(reply.problem);
  return faults.length > 0 ? { outcome: "faulty", faults } : { outcome: "failed", why: reply.why };
}

/** The faults a refusal lists; none where it is about something else. */
export const faultsIn = (problem: Readonly<Record<string, unknown>>): readonly Fault[] =>
  Array.isArray(problem.faults) ? (problem.faults as readonly Fault[]) : [];

export type Kinds = { readonly kinds: readonly KindEntry[]; readonly settings: readonly SettingMeaning[] };

/** The table of instruments and settings; empty where the server can't be reached. */
export async function kinds(): Promise<Kinds> {
  const reply = await ask<Kinds>("/api/kinds");
  return reply.outcome === "answered" ? reply.body : { kinds: [], settings: [] };
}

/** The example boards; empty where the server can't be reached. */
export async function examples(): Promise<readonly Example[]> {
  const reply = await ask<{ readonly examples: readonly Example[] }>("/api/examples");
  return reply.outcome === "answered" ? reply.body.examples : [];
}

/** Null where the server can't be reached. */
export async function exampleFiles(example: Example): Promise<ExampleFiles | null> {
  const fetched = (address: string): Promise<File> => fetchFile(address, `${example.id}-${address.split("/").at(-1)}`);
  const fetchedIfAny = async (address: string | null) => (address === null ? null : fetched(address));
  try {
    const [readings, thickness, rail] = await Promise.all([
      fetched(example.readings),
      fetchedIfAny(example.thickness),
      fetchedIfAny(example.rail),
    ]);
    return { readings, thickness, rail };
  } catch {
    return null;
  }
}
