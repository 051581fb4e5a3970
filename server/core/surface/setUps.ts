/**
 * Set-ups: each time the rail is laid anew, its readings have a height and a pitch of their own along its run.
 *
 * They are unknowns of the fit beside the shape's: a height and a slope along the run (along the board, or across it for a pass
 * across) for every set-up but the one with most readings, whose frame is the board's. A pass across ties those along to each other
 * where they cross; what nothing ties stays untold (softConstraints.ts), never guessed.
 *
 * in: readings with their set-up -> out: what each set-up adds to a row of the fit; heights brought to one frame. Lengths in mm.
 */

/** How a set-up ran: its distance along the run from the middle of its readings, mm. */
type Run = { readonly column: number; readonly isAcross: boolean; readonly middleMm: number };

export type SetUps = {
  /** Unknowns that they add: two for each but the first. */
  readonly unknowns: number;
  /** By set-up; null for the one whose frame is the board's. */
  readonly runs: readonly (Run | null)[];
};

/**
 * How far a set-up's height and pitch may differ from the others', one standard deviation: mm, and mm per mm. Ten times what a rail can
 * be off, so that it pulls nothing that readings tie (by less than a millionth of a millimetre), however the rail lay.
 */
export const heightSpreadMm = 200;
export const pitchSpread = 2;

export function setUpsOf(
  setUp: ArrayLike<number>,
  xMm: ArrayLike<number>,
  yMm: ArrayLike<number>,
  labels: number,
): SetUps {
  const spans = Array.from({ length: labels }, () => ({ count: 0, x: span(), y: span() }));
  for (let i = 0; i < setUp.length; i += 1) {
    const one = spans[setUp[i]];
    one.count += 1;
    widen(one.x, xMm[i]);
    widen(one.y, yMm[i]);
  }
  const most = spans.reduce((best, { count }, i) => (count > spans[best].count ? i : best), 0);
  let column = 0;
  const runs = spans.map(({ count, x, y }, i): Run | null => {
    if (i === most || count === 0) return null;
    const isAcross = y.to - y.from > x.to - x.from;
    const { from, to } = isAcross ? y : x;
    const run = { column, isAcross, middleMm: (from + to) / 2 };
    column += 2;
    return run;
  });
  return { unknowns: column, runs };
}

type Span = { from: number; to: number };

function span(): Span {
  return { from: Number.POSITIVE_INFINITY, to: Number.NEGATIVE_INFINITY };
}

function widen(one: Span, at: number): void {
  one.from = Math.min(one.from, at);
  one.to = Math.max(one.to, at);
}

/** What the set-ups' unknowns add to the height read at a place: derivatives into `row` from `offset` (zeros elsewhere). */
export function writeSetUp(
  setUps: SetUps,
  setUp: number,
  xMm: number,
  yMm: number,
  row: Float64Array,
  offset: number,
): void {
  row.fill(0, offset, offset + setUps.unknowns);
  const run = setUps.runs[setUp];
  if (run === null) return;
  row[offset + run.column] = 1;
  row[offset + run.column + 1] = (run.isAcross ? yMm : xMm) - run.middleMm;
}

/** How much a set-up reads high at a place, mm. */
export function setUpMm(setUps: SetUps, unknowns: Float64Array, setUp: number, xMm: number, yMm: number): number {
  const run = setUps.runs[setUp];
  if (run === null) return 0;
  return unknowns[run.column] + unknowns[run.column + 1] * ((run.isAcross ? yMm : xMm) - run.middleMm);
}
