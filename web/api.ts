/**
 * The page's only way to the server. Types of the examination come from the server, nothing else does.
 *
 * Every call answers with a value: examined, faulty (what was given is wrong) or failed (the server or the way to it is). No call throws
 * for what the world may do.
 */
import type { Kind } from "../server/core/board/instrument.ts";
import type { Examination } from "../server/core/examination.ts";
import type { Fault } from "../server/core/fault.ts";

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

/** An instrument of the table, as far as the page needs it: its name as the `instrument` setting takes it. */
export type KindEntry = { readonly instrument: string; readonly kind: Kind; readonly size: string };

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

/** How far an examination has come: what share of the files has been sent, 0 to 1; then the server is at it. */
export type Progress = { readonly stage: "sending"; readonly share: number } | { readonly stage: "examining" };

/** `few`: of a scan only the points that a drawing can show. */
export async function examine(
  given: Given,
  points: "all" | "few" = "all",
  tell: (progress: Progress) => void = () => undefined,
): Promise<Answer> {
  const form = new FormData();
  form.append("readings", given.readings, given.readings.name);
  if (given.thickness !== null) form.append("thickness", given.thickness, given.thickness.name);
  if (given.rail !== null) form.append("rail", given.rail, given.rail.name);
  if (Object.keys(given.settings).length > 0) form.append("settings", JSON.stringify(given.settings));
  const sent = await send(`/api/examinations${points === "few" ? "?points=few" : ""}`, form, tell);
  try {
    if (sent === null) throw new Error("no answer");
    const answer = JSON.parse(sent.body) as Examination & {
      faults?: readonly Fault[];
      title?: string;
      detail?: string;
    };
    if (sent.status === 200) return { outcome: "examined", examination: answer };
    if (answer.faults !== undefined && answer.faults.length > 0) return { outcome: "faulty", faults: answer.faults };
    return { outcome: "failed", why: answer.detail ?? answer.title ?? `The server answered ${sent.status}.` };
  } catch {
    return { outcome: "failed", why: "The server could not be reached. What you brought is still here: try again." };
  }
}

/** Null where no answer came. By XMLHttpRequest: only it tells how much of a form has been sent. */
function send(
  address: string,
  form: FormData,
  tell: (progress: Progress) => void,
): Promise<{ readonly status: number; readonly body: string } | null> {
  return new Promise((resolve) => {
    const request = new XMLHttpRequest();
    request.upload.addEventListener("progress", ({ loaded, total }) =>
      tell({ stage: "sending", share: loaded / total }),
    );
    request.upload.addEventListener("load", () => tell({ stage: "examining" }));
    request.addEventListener("load", () => resolve({ status: request.status, body: request.responseText }));
    for (const ending of ["error", "abort", "timeout"]) request.addEventListener(ending, () => resolve(null));
    request.open("POST", address);
    request.send(form);
  });
}

/** The table of instruments; empty where the server can't be reached. */
export const kinds = (): Promise<readonly KindEntry[]> => listed("/api/kinds", "kinds");

/** The example boards; empty where the server can't be reached. */
export const examples = (): Promise<readonly Example[]> => listed("/api/examples", "examples");

/** Null where the server can't be reached. */
export async function exampleFiles(example: Example): Promise<ExampleFiles | null> {
  const fetched = async (address: string): Promise<File> => {
    const response = await fetch(address);
    return new File([await response.blob()], `${example.id}-${address.split("/").at(-1)}`, { type: "text/csv" });
  };
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

async function listed<Name extends string, Entry>(address: string, name: Name): Promise<readonly Entry[]> {
  try {
    const response = await fetch(address);
    if (!response.ok) return [];
    const body = (await response.json()) as Partial<Record<Name, readonly Entry[]>>;
    return body[name] ?? [];
  } catch {
    return [];
  }
}
