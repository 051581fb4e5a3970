/**
 * What one customer of the generated files hands in: some of the bench's files, good or mangled, and settings beside them.
 *
 * In: a number -> out: the same files every time. One in twenty is good as it is. Surveys cost tens of milliseconds where they are
 * examined, so most that reach the examination are looks by gaps.
 */
import { type Random, seededRandom } from "../../../data/make/random.ts";
import { settingTable } from "../../../server/core/board/settingTable.ts";
import { chance, oneOf, whole } from "./draws.ts";
import { mangled } from "./mangling.ts";
import { gapLooks, surveys, type WorkshopFiles } from "./workshopFiles.ts";

export type HandedIn = {
  readonly readings: Uint8Array;
  readonly thickness: Uint8Array | null;
  readonly rail: Uint8Array | null;
  readonly settings: readonly (readonly [key: string, text: string])[];
  /** Whether these are a bench's own files, untouched. */
  readonly isGood: boolean;
};

export function handedIn(number: number): HandedIn {
  const random = seededRandom(number);
  if (number % 20 === 0) return asItIs(goodFiles(random));
  const files = chance(random, 0.25) ? oneOf(random, surveys) : oneOf(random, gapLooks);
  // A survey is mangled more than once, so that few of them come through to be examined at length.
  const times = files.what === "gaps" ? 1 + whole(random, 2) : 2 + whole(random, 3);
  const other = oneOf(random, [files.readings, files.thickness, files.rail]) ?? "";
  return {
    readings: mangled(chance(random, 0.03) ? other : files.readings, random, times),
    thickness: beside(files.thickness, random),
    rail: beside(files.rail ?? (chance(random, 0.1) ? files.readings : null), random),
    settings: chance(random, 0.2) ? drawnSettings(random) : [],
    isGood: false,
  };
}

function goodFiles(random: Random): WorkshopFiles {
  return chance(random, 0.08) ? oneOf(random, surveys) : oneOf(random, gapLooks);
}

function asItIs({ readings, thickness, rail }: WorkshopFiles): HandedIn {
  const bytes = (text: string | null) => (text === null ? null : Buffer.from(text));
  return {
    readings: Buffer.from(readings),
    thickness: bytes(thickness),
    rail: bytes(rail),
    settings: [],
    isGood: true,
  };
}

/** Left out, as it is, or mangled. */
function beside(text: string | null, random: Random): Uint8Array | null {
  if (text === null || chance(random, 0.4)) return null;
  return mangled(text, random, whole(random, 3));
}

function drawnSettings(random: Random): HandedIn["settings"] {
  return Array.from({ length: 1 + whole(random, 3) }, () => {
    const { key, example, choices } = oneOf(random, settingTable);
    return [
      key,
      oneOf(random, [example, ...(choices ?? []), "", "-1", "1e300", "x".repeat(500), "\u202e", "0"]),
    ] as const;
  });
}
