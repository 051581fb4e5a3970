/**
 * The measurement that would settle a need too close to call: where, how often, or that this gauge can't.
 *
 * in: findings and the need -> out: words for a luthier, to stand after "To settle it: ". Lengths in mm.
 */
import type { Findings } from "./findings.ts";
import type { Need } from "./needs.ts";
import type { PlaceOnLine } from "./placesToRead.ts";
import { alongLine, moreTimes } from "./sayings.ts";
import { furtherReadings, mostMoreReadings, uAfterRepeats } from "./settling.ts";

export function howToSettle(findings: Findings, need: Need): string {
  const { subject } = need;
  const distanceMm = Math.abs(need.overMm);
  if (subject.of === "place") {
    if (subject.standsAlone) return `read the place at ${subject.where} 3 more times, and the places round it`;
    const enough = uAfterRepeats(findings, subject.place).findIndex((u) => u <= distanceMm);
    return enough < 0
      ? `more than ${mostMoreReadings} readings of the place at ${subject.where} would be needed: this gauge can't, a finer one may`
      : `read the place at ${subject.where} ${moreTimes(enough + 1)}`;
  }
  const further = furtherReadings(findings, need, mostMoreReadings);
  const enough = further.findIndex(({ u }) => u <= distanceMm);
  if (enough >= 0) return `read ${placesInWords(further.slice(0, enough + 1).map(({ place }) => place))}`;
  const byHand =
    subject.of === "hollow"
      ? `lay a straightedge along the ${findings.instrument.strings[subject.stringIndex]} string and measure its largest gap with feeler gauges`
      : `lay a radius template across at ${{ nut: "the nut", middle: "the middle", end: "the bridge end" }[subject.at]} and look for light under it`;
  return `more than ${mostMoreReadings} further readings would be needed, which this gauge can't settle; ${byHand}`;
}

/** "137 mm from the nut under the A string 3 more times, and 262 mm … once more". */
function placesInWords(places: readonly PlaceOnLine[]): string {
  const times = new Map<string, number>();
  for (const { xMm, line } of places) {
    const where = `${xMm} mm from the nut ${alongLine(line)}`;
    times.set(where, (times.get(where) ?? 0) + 1);
  }
  return [...times].map(([where, count]) => `${where} ${moreTimes(count)}`).join(", and ");
}
