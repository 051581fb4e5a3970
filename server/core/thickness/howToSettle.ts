/**
 * The measurement that would settle a need too close to call: where, how often, or that this gauge can't.
 *
 * in: findings and the need -> out: words for a luthier, to stand after "To settle it: ". Lengths in mm.
 */
import type { Findings } from "./findings.ts";
import { crosslineInWords, type Need } from "./needs.ts";
import { moreTimes, readingsInWords } from "./sayings.ts";
import { furtherReadings, mostFurtherReadings, mostRepeats, settlingUMm, uAfterRepeats } from "./settling.ts";

export function howToSettle(findings: Findings, need: Need): string {
  const { subject } = need;
  const enoughUMm = settlingUMm(need.overMm);
  if (subject.of === "place") {
    if (subject.standsAlone) return `read the place ${subject.where} 3 more times, and the places round it`;
    const enough = uAfterRepeats(findings, subject.place).findIndex((u) => u <= enoughUMm);
    return enough < 0
      ? `more than ${mostRepeats} further readings of the place ${subject.where} would be needed, so this gauge can't: read it with a finer one`
      : `read the place ${subject.where} ${moreTimes(enough + 1)}`;
  }
  const further = furtherReadings(findings, need, mostFurtherReadings);
  const enough = further.findIndex(({ u }) => u <= enoughUMm);
  if (enough >= 0) {
    const places = further.slice(0, enough + 1).map(({ place }) => place);
    return `read ${readingsInWords(places, findings.instrument)}`;
  }
  const byHand =
    subject.of === "hollow"
      ? `lay a straightedge along the ${findings.instrument.strings[subject.stringIndex]} string and measure its largest gap with feeler gauges`
      : `lay a radius template across at ${crosslineInWords[subject.at]} and look for light under it`;
  return `more than ${mostFurtherReadings} further readings would be needed, so this gauge can't: ${byHand}`;
}
