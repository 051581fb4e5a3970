/**
 * Readings as the fit takes them: freed of the rail's error and of the gauge's drift, brought to pitch, in this order.
 *
 * The tip comes last and elsewhere (tip.ts), since it needs the slopes of the surface found. What the corrections leave
 * uncertain is added to every hollow; it is the same in all readings, so that no fit averages it away.
 *
 * in: checked readings, mm -> out: readings, the drift found, and the standard uncertainty of a hollow for these causes, mm.
 */
import type { Instrument } from "../board/instrument.ts";
import type { Gauge } from "../board/settings.ts";
import type { RailProfile } from "../readings/railProfile.ts";
import type { Readings } from "../readings/readings.ts";
import { type Drift, withoutDrift } from "./drift.ts";
import { broughtToPitch, pullUncertaintyMm } from "./pull.ts";
import { railUMm, withoutRailError } from "./rail.ts";

export type Corrected = {
  readonly readings: Readings;
  /** Null where no place was read again to see it. */
  readonly drift: Drift | null;
  /** What rail and drift leave uncertain in a hollow; standard, mm. The strings' pull comes on top (`hollowUMm`). */
  readonly hollowUBesidesPullMm: number;
};

/** `rail` is null for a rail that nobody has surveyed. */
export function correctedReadings(
  readings: Readings,
  rail: RailProfile | null,
  instrument: Instrument,
  gauge: Gauge,
): Corrected {
  const straight = rail === null ? readings : withoutRailError(readings, rail);
  const { readings: steady, drift, driftUMm } = withoutDrift(straight, gauge);
  return {
    readings: broughtToPitch(steady, instrument, gauge),
    drift,
    hollowUBesidesPullMm: Math.hypot(rail === null ? 0 : railUMm(rail), driftUMm),
  };
}

/** What rail, drift and strings leave uncertain in a hollow; standard, mm. */
export function hollowUMm({ hollowUBesidesPullMm }: Corrected, instrument: Instrument, gauge: Gauge): number {
  return Math.hypot(hollowUBesidesPullMm, pullUncertaintyMm(gauge, instrument));
}
