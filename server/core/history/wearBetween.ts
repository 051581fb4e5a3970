/**
 * What wore between two visits: the later wear less the earlier, all over the board.
 *
 * Two full surveys of one board with no dressing between (the caller knows that) -> growth on the later map's grid, the largest with
 * its place, the mean and the volume; or why they can't be compared. Each map is wear below the unworn surface that its own readings
 * showed, so rail, gauge and how the instrument lay drop out. Positive: wood went. Lengths in mm, volume mm³, `u` expanded (k = 2).
 *
 * u of a growth: of each survey the wear's at a reading, as its worn places tell it (where there are none: the noise, and what is
 * uncertain in the surface's hollows), one beside the other (JCGM 100:2008, 5.1.2). What chance alone makes of the largest
 * among so many readings is greater (`noiseMm`): a growth below it is no growth. The mean has the noise averaged down, the surface's
 * part not.
 */
import { halfWidthMm } from "../board/outline.ts";
import { namePlace } from "../board/stops.ts";
import type { Examination, Maps, PlaceName } from "../examination.ts";
import { normalQuantile } from "../maths/quantiles.ts";
import { coverageFactor, type Quantity } from "../units.ts";
import { readNodes } from "./readNodes.ts";
import { lengthInWords, quantityInWords } from "./words.ts";

export type GrowthAt = PlaceName & {
  readonly growthMm: Quantity;
  readonly xMm: number;
  readonly yMm: number;
  /** Whether it is more than chance makes of so many readings. */
  readonly isBeyondNoise: boolean;
};

export type Between =
  | {
      readonly told: "wear between";
      readonly xMm: readonly number[];
      readonly yMm: readonly number[];
      /** Rows follow yMm, cells in a row xMm; null outside the board and where either survey did not read. */
      readonly growthMm: readonly (readonly (number | null)[])[];
      /** Growth below this, either way, is within the noise. */
      readonly noiseMm: number;
      readonly most: GrowthAt;
      /** Over the part of the board that both read. */
      readonly meanMm: Quantity;
      readonly volumeMm3: Quantity;
      /** The later survey may not have bottomed a rut. */
      readonly atLeast: boolean;
      readonly says: string;
    }
  | { readonly told: "not comparable"; readonly why: string };

/** Boards measured this much apart in length or width are the same board, mm. */
const sameBoardMm = 2;

export function wearBetween(earlier: Examination, later: Examination): Between {
  if (earlier.maps === null || later.maps === null) {
    return { told: "not comparable", why: "A quick look has no map of wear: both visits need a full survey." };
  }
  const why = whyNot(earlier, later);
  if (why) return { told: "not comparable", why };

  const { xMm, yMm } = later.maps;
  const growthMm = growthOnGrid(earlier, later, earlier.maps, later.maps);
  const nodes = growthMm.flatMap((row, i) => row.flatMap((mm, j) => (mm === null ? [] : [{ mm, i, j }])));
  if (nodes.length === 0) {
    return { told: "not comparable", why: "The two surveys read different parts of the board." };
  }
  const u = Math.hypot(wearUMm(earlier), wearUMm(later));
  const noiseMm = (normalQuantile(1 - 0.025 / looked(later)) * u) / coverageFactor;
  const greatest = nodes.reduce((most, node) => (node.mm > most.mm ? node : most));
  const [x, y] = [xMm[greatest.j], yMm[greatest.i]];
  const { string, note, position } = namePlace(later.instrument, { xMm: x, yMm: y });
  const isBeyondNoise = greatest.mm > noiseMm;
  const most = { growthMm: { value: greatest.mm, u }, xMm: x, yMm: y, string, note, position, isBeyondNoise };
  const meanMm = {
    value: nodes.reduce((sum, { mm }) => sum + mm, 0) / nodes.length,
    u: Math.hypot(meanUMm(earlier), meanUMm(later)),
  };
  const areaMm2 = nodes.length * (xMm[1] - xMm[0]) * (yMm[1] - yMm[0]);
  const atLeast = later.deepest?.atLeast ?? false;
  const says = isBeyondNoise
    ? `Wore most on the ${string} string at ${note}, ${position} position: ${quantityInWords(most.growthMm)}${atLeast ? ", or more in a rut that the tip could not bottom" : ""}.`
    : `No wear between the visits beyond the readings' noise (${lengthInWords(noiseMm)}).`;
  return {
    told: "wear between",
    xMm,
    yMm,
    growthMm,
    noiseMm,
    most,
    meanMm,
    volumeMm3: { value: meanMm.value * areaMm2, u: meanMm.u * areaMm2 },
    atLeast,
    says,
  };
}

function whyNot(earlier: Examination, later: Examination): string | null {
  const [one, other] = [earlier.instrument, later.instrument];
  if (one.kind !== other.kind || one.size !== other.size) {
    return `One visit has it as a ${one.kind} ${one.size}, the other as a ${other.kind} ${other.size}.`;
  }
  const dimensions = ["boardLengthMm", "widthNutMm", "widthEndMm"] as const;
  if (dimensions.some((name) => Math.abs(one[name].value - other[name].value) > sameBoardMm)) {
    return "The board's length or width differs between the visits: put right which one is wrong.";
  }
  for (const { readings } of [earlier, later]) {
    if (readings.enoughFor.includes("camber")) continue;
    return "In one of the surveys nothing ties its set-ups together across the board, so wear that spans them isn't told.";
  }
  return null;
}

function growthOnGrid(earlier: Examination, later: Examination, before: Maps, after: Maps): (number | null)[][] {
  const [wasRead, isRead] = [readNodes(earlier), readNodes(later)];
  return after.yMm.map((y, row) =>
    after.xMm.map((x, column) => {
      const now = after.wearMm[row][column];
      if (now === null || Math.abs(y) > halfWidthMm(earlier.instrument, x)) return null;
      if (!isRead(x, y) || !wasRead(x, y)) return null;
      const then = wearOnMap(before, x, y);
      return then === null ? null : now - then;
    }),
  );
}

/** Bilinear between the nodes around a place that lie on the board; null where none does, or off the grid. */
function wearOnMap({ xMm, yMm, wearMm }: Maps, x: number, y: number): number | null {
  const column = cellOf(xMm, x);
  const row = cellOf(yMm, y);
  if (column === null || row === null) return null;
  const corners = [0, 1].flatMap((down) =>
    [0, 1].map((right) => ({
      mm: wearMm[row.index + down][column.index + right],
      share: (down ? row.fraction : 1 - row.fraction) * (right ? column.fraction : 1 - column.fraction),
    })),
  );
  const onBoard = corners.flatMap(({ mm, share }) => (mm === null ? [] : [{ mm, share }]));
  const shares = onBoard.reduce((sum, { share }) => sum + share, 0);
  return shares < 1e-9 ? null : onBoard.reduce((sum, { mm, share }) => sum + mm * share, 0) / shares;
}

function cellOf(ticks: readonly number[], at: number): { readonly index: number; readonly fraction: number } | null {
  const along = (at - ticks[0]) / (ticks[1] - ticks[0]);
  const last = ticks.length - 1;
  if (along < -1e-6 || along > last + 1e-6) return null;
  const index = Math.min(Math.max(Math.floor(along), 0), last - 1);
  return { index, fraction: Math.min(Math.max(along - index, 0), 1) };
}

/** Expanded uncertainty of wear at a reading, mm. */
function wearUMm({ wornPlaces, surface }: Examination): number {
  const ofPlaces = wornPlaces.map(({ u }) => u);
  const fromNoise = Math.hypot(coverageFactor * (surface.noiseMm ?? 0), surfaceUMm(surface));
  return ofPlaces.length === 0 ? fromNoise : Math.max(...ofPlaces);
}

function meanUMm(examination: Examination): number {
  const noiseUMm = (coverageFactor * (examination.surface.noiseMm ?? 0)) / Math.sqrt(looked(examination));
  return Math.hypot(noiseUMm, surfaceUMm(examination.surface));
}

/** What is uncertain in the unworn surface: as in its hollows, the middle one of them. */
function surfaceUMm({ hollows }: Examination["surface"]): number {
  const us = hollows.map(({ hollowMm }) => hollowMm.u).sort((a, b) => a - b);
  return us[Math.floor(us.length / 2)] ?? 0;
}

function looked({ readings }: Examination): number {
  return readings.condensedTo ?? readings.count;
}
