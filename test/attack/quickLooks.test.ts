/**
 * Odd quick looks: any few of an odd board's readings, and gaps at random. Whatever is asked, an answer that can be said, or a fault.
 */
import { describe, expect, test } from "vitest";
import { type Random, seededRandom } from "../../data/make/random.ts";
import type { Examination } from "../../server/core/examination.ts";
import { examine } from "../../server/core/examine.ts";
import { readReadingsFile } from "../../server/core/readings/readReadingsFile.ts";
import { loadInstrumentTable } from "../../server/instrumentTable.ts";
import { oddBoard } from "./oddBoards.ts";

const table = loadInstrumentTable();
const seeds = Array.from({ length: 60 }, (_, seed) => seed);

/** Null for a faulty one. */
function looked(csv: string): Examination | null {
  const readings = readReadingsFile(csv);
  const answer = examine({ readings, thickness: null, rail: null, settings: [], table, version: "test" });
  return answer.outcome === "faulty" ? null : answer.examination;
}

function someOf<One>(all: readonly One[], count: number, random: Random): readonly One[] {
  return Array.from({ length: count }, () => all[Math.floor(random.uniform() * all.length)]!);
}

/** Up to 23 of its readings, some twice; now and then one is slipped by a metre's tenth or made the same as all others. */
function fewHeights(seed: number): string {
  const random = seededRandom(seed + 300);
  const lines = oddBoard(seed).made.readingsCsv.trim().split("\n");
  const header = lines.findIndex((line) => !line.startsWith("#"));
  const rows = someOf(lines.slice(header + 1), 1 + Math.floor(random.uniform() * 23), random);
  const isFlat = random.uniform() < 0.1;
  const spoilt = rows.map((row) => {
    if (isFlat) return row.replace(/[^,]+$/, "5");
    return random.uniform() < 0.03 ? row.replace(/[^,]+$/, (z) => String(Number(z) + 8)) : row;
  });
  return [...lines.slice(0, header + 1), ...spoilt].join("\n");
}

function gapsAtRandom(seed: number): string {
  const random = seededRandom(seed + 600);
  const kind = ["violin", "viola", "cello", "bass"][seed % 4];
  const step = ["0", "0.01", "0.05", "1"][Math.floor(random.uniform() * 4)];
  const rows = Array.from({ length: 1 + Math.floor(random.uniform() * 20) }, () => {
    const x = (random.uniform() * 260).toFixed(1);
    const gap = random.uniform() < 0.3 ? "0" : random.between(0, 3).toFixed(2);
    if (random.uniform() < 0.5) return `${random.uniform() < 0.5 ? "centre" : "bass edge"},${x},,${gap},`;
    return `,${x},${random.between(-9, 9).toFixed(1)},${gap},${random.between(15, 200).toFixed(0)}`;
  });
  return `# instrument: ${kind}\n# resolution: ${step}\nline,x,y,gap,template\n${rows.join("\n")}\n`;
}

function brokenBy(examination: Examination): readonly string[] {
  const { verdict, planing, maps, deepest, wornPlaces, surface } = examination;
  const open = verdict.reasons.filter(({ limitMm, valueMm, u }) => {
    return limitMm !== null && valueMm !== null && u !== null && Math.abs(valueMm - limitMm) < u;
  });
  return [
    ...unspeakable(examination, ""),
    ...(planing === null && maps === null && deepest === null && wornPlaces.length === 0 ? [] : ["a plan or a map"]),
    ...(verdict.decision === "undecided" && verdict.quickLook !== null ? [] : ["decides"]),
    ...(verdict.reasons.length > 0 ? [] : ["no reason"]),
    ...(verdict.quickLook === "sound where looked" && open.length > 0 ? ["sound, with something within its u"] : []),
    ...(surface.hollows.every(({ hollowMm }) => hollowMm.u >= 0) ? [] : ["u below nothing"]),
  ];
}

/** NaN, infinities and what is undefined. */
function unspeakable(value: unknown, path: string): readonly string[] {
  if (typeof value === "number") return Number.isFinite(value) ? [] : [`${path} is ${value}`];
  if (value === undefined) return [`${path} is undefined`];
  if (typeof value !== "object" || value === null) return [];
  return Object.entries(value).flatMap(([key, part]) => unspeakable(part, `${path}.${key}`));
}

describe.each([
  ["a few heights", fewHeights],
  ["gaps", gapsAtRandom],
])("sixty odd quick looks at %s", (_, fileOf) => {
  test("say what can be said, decide nothing, and call nothing sound that is within its uncertainty of a limit", () => {
    const all = seeds.map((seed) => ({ seed, examination: looked(fileOf(seed)) }));
    expect(all.filter(({ examination }) => examination !== null).length).toBeGreaterThan(20);
    const broken = all.flatMap(({ seed, examination }) => {
      return examination === null ? [] : brokenBy(examination).map((one) => `${seed}: ${one}`);
    });
    expect(broken).toEqual([]);
  }, 120_000);
});
