/**
 * Heights too few for a survey -> what they show of a board: through a surface where they carry one, else one by one.
 *
 * Three lines and three crosslines of one set-up carry a surface. A place marked as the lowest found by hand says nothing of the
 * board's own shape, since it was picked for being low: it is only held against the surface. Lengths in mm.
 */
import type { Instrument } from "../board/instrument.ts";
import type { Gauge } from "../board/settings.ts";
import { type Corrected, hollowUMm } from "../compensation/correctedReadings.ts";
import type { SurfaceSummary } from "../examination.ts";
import type { Pattern } from "../readings/patternOfReadings.ts";
import type { Readings } from "../readings/readings.ts";
import type { UnwornSurface } from "../surface/unwornSurface.ts";
import { fitFewReadings } from "./fewReadings.ts";
import { reachesOver } from "./linesLooked.ts";
import type { Looked } from "./looked.ts";
import { lookOneByOne } from "./lookOneByOne.ts";
import { lookThroughSurface } from "./lookThroughSurface.ts";
import { setShape } from "./setShape.ts";

export type LookedAtHeights = {
  readonly looked: Looked;
  /** The surface behind them and its shape; null where they carry none. */
  readonly surface: UnwornSurface | null;
  readonly shape: SurfaceSummary | null;
};

const fewest = { readings: 9, lines: 3, crosslines: 3 } as const;
/** More are a scan along a few lines: each is then looked at by itself. */
const mostForSurface = 120;

export function lookAtHeights(
  corrected: Corrected,
  pattern: Pattern,
  instrument: Instrument,
  gauge: Gauge,
): LookedAtHeights {
  const { readings } = corrected;
  const uMm = hollowUMm(corrected, instrument, gauge);
  const set = setShape(instrument);
  const ofShape = { ...readings, readings: readings.readings.filter(({ mark }) => mark !== "lowest") };
  const fitted = carriesSurface(ofShape, pattern, instrument) ? fitFewReadings(ofShape, instrument, gauge) : null;
  if (fitted?.outcome === "fitted") {
    return lookThroughSurface(fitted, readings, pattern, set, instrument, gauge, uMm);
  }
  return { looked: lookOneByOne(ofShape, set, instrument, gauge, uMm), surface: null, shape: null };
}

function carriesSurface({ readings, setups }: Readings, { lines }: Pattern, instrument: Instrument): boolean {
  const crosslines = new Set(readings.map(({ xMm }) => Math.round(xMm))).size;
  return (
    setups.length === 1 &&
    readings.length >= fewest.readings &&
    readings.length <= mostForSurface &&
    lines >= fewest.lines &&
    crosslines >= fewest.crosslines &&
    reachesOver(readings, instrument)
  );
}
