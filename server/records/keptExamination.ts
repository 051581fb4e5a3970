/**
 * An examination as the store keeps it: JSON, gzip'd, the many lengths rounded to 0.0001 mm; and back.
 *
 * Rounded are points, maps, profiles and sections, which are thousands of numbers and for drawing: 0.0001 mm is a hundredth of the
 * finest gauge's step. What an answer rests on (depths, cuts, uncertainties, probabilities) keeps every digit.
 */
import type { Examination } from "../core/examination.ts";
import { packed, unpacked } from "./packed.ts";

const perMm = 10_000;
const roundedParts = new Set<string>(["points", "maps", "profiles", "sections"] satisfies (keyof Examination)[]);

export async function packExamination(examination: Examination): Promise<Uint8Array> {
  const parts = Object.entries(examination).map(([name, part]) => [
    name,
    roundedParts.has(name) ? rounded(part) : part,
  ]);
  return packed(Buffer.from(JSON.stringify(Object.fromEntries(parts))));
}

/** Rejects where the bytes are no examination: the store is damaged. */
export async function unpackExamination(bytes: Uint8Array): Promise<Examination> {
  const parsed: unknown = JSON.parse(Buffer.from(await unpacked(bytes)).toString());
  if (!isExamination(parsed)) throw new SyntaxError("no examination");
  return parsed;
}

/** It was written by `packExamination`; so only what a mix-up would lack is looked for. */
function isExamination(parsed: unknown): parsed is Examination {
  return parsed !== null && typeof parsed === "object" && "version" in parsed && "verdict" in parsed;
}

function rounded(part: unknown): unknown {
  if (typeof part === "number") return Math.round(part * perMm) / perMm;
  if (Array.isArray(part)) return part.map(rounded);
  if (part === null || typeof part !== "object") return part;
  return Object.fromEntries(Object.entries(part).map(([name, one]) => [name, rounded(one)]));
}
