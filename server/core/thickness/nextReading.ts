/**
 * The one next reading that would narrow the verdict most; null where the verdict stands and none would.
 *
 * What is asked about is whatever comes nearest to its limit, in its own uncertainty, among the things that could still turn the
 * decision: a sure need leaves only the thickness open; without one, needs within their uncertainty count too, and a string
 * that no line runs near comes before all. Lengths in mm.
 */
import { halfWidthMm } from "../board/outline.ts";
import type { NextReading, ThicknessPlace } from "../examination.ts";
import type { UnreadPath } from "../readings/unreadPath.ts";
import type { Quantity } from "../units.ts";
import { isClose } from "./conformity.ts";
import { type Facts, strongest, tooThin } from "./decide.ts";
import { type Findings, stringWithoutLine } from "./findings.ts";
import { crosslineInWords, type Need } from "./needs.ts";
import { leastToSpare, thicknessPlaceInWords, withMicrometer } from "./remaining.ts";
import { alongLine, narrowed } from "./sayings.ts";
import { furtherReadings, uAfterRepeats } from "./settling.ts";

/** A reading that narrows by less than this share is not worth the way to the bench. */
const leastNarrowing = 0.01;

export function nextReading(findings: Findings, needs: readonly Need[], facts: Facts): NextReading | null {
  const need = strongest(facts.needs);
  const isCertain = need === "certain";
  const isForSomeoneElse = facts.job.loose || facts.isHumpedLengthwise || (isCertain && facts.job.build !== "solid");
  const isOutOfWood = tooThin(facts.marginBeforeMm) === "certain";
  if (isForSomeoneElse || isOutOfWood || (isCertain && facts.job.valuable)) return null;
  const withoutLine = stringWithoutLine(findings);
  if (withoutLine && !isCertain && need !== "possible") return onUnreadPath(withoutLine);
  const ofNeeds = isCertain ? [] : needs.filter(({ certainty }) => isClose(certainty));
  const open: readonly Open[] = [
    ...ofNeeds.map(
      (one): Open => ({ distance: distance(one.overMm, one.reason.u), read: () => readFor(findings, one) }),
    ),
    ...openThickness(findings, facts, isCertain || need === "possible"),
  ];
  const nearestFirst = [...open].sort((a, b) => a.distance - b.distance);
  for (const { read } of nearestFirst) {
    const next = read();
    if (next) return next;
  }
  return null;
}

/** Something not yet settled: how near its limit, in units of its uncertainty, and the reading that would tell more. */
type Open = { readonly distance: number; readonly read: () => NextReading | null };

function distance(overMm: number, u: number | null): number {
  return u ? Math.abs(overMm) / u : Number.POSITIVE_INFINITY;
}

/** The thickness after the cut where wood has to go; as it is today where none has to. */
function openThickness(findings: Findings, facts: Facts, isNeeded: boolean): readonly Open[] {
  const { thickness } = findings;
  const marginMm: Quantity | null = isNeeded ? facts.marginAfterMm : facts.marginBeforeMm;
  const close = tooThin(marginMm);
  if (thickness === null || marginMm === null || close === null || !isClose(close)) return [];
  const place = leastToSpare(thickness.places, isNeeded ? "after" : "before");
  return [{ distance: distance(marginMm.value, marginMm.u), read: () => calliperAgain(findings, place) }];
}

function readFor(findings: Findings, need: Need): NextReading | null {
  const { subject } = need;
  const u = need.reason.u ?? 0;
  if (subject.of === "place") {
    const { givenXMm: xMm, givenYMm: yMm } = subject.place.deepestReading;
    const [after] = uAfterRepeats(findings, subject.place);
    if (after > (1 - leastNarrowing) * u) return null;
    const what = need.respect === "wear" ? "depth" : "height";
    const says = subject.standsAlone
      ? `Read the place ${subject.where} once more: one reading stands alone there, and may be a slip.`
      : `Read the place ${subject.where} once more: it would narrow its ${what} ${narrowed(u, after)}.`;
    return { xMm, yMm, what: "height", says };
  }
  const [best] = furtherReadings(findings, need, 1);
  if (best === undefined || best.u > (1 - leastNarrowing) * u) return null;
  const { xMm, yMm, line } = best.place;
  const what =
    subject.of === "hollow"
      ? `the hollow under ${findings.instrument.strings[subject.stringIndex]}`
      : `the radius at ${crosslineInWords[subject.at]}`;
  const says = `Read ${xMm} mm from the nut ${alongLine(line, findings.instrument)}: it would narrow ${what} ${narrowed(u, best.u)}.`;
  return { xMm, yMm, what: "height", says };
}

function onUnreadPath({ string, place, widestRutMm }: UnreadPath): NextReading {
  return {
    ...place,
    what: "height",
    says: `Read ${place.xMm} mm from the nut under the ${string} string: no reading lies on its path there, and a rut up to ${widestRutMm.toFixed(1)} mm wide could hide.`,
  };
}

/** The thinnest place with something finer than the calliper; null where it was already as fine. */
function calliperAgain({ instrument, gauge }: Findings, place: ThicknessPlace): NextReading | null {
  const finer = withMicrometer(place.u, gauge);
  if (finer > (1 - leastNarrowing) * place.u) return null;
  const halfMm = halfWidthMm(instrument, place.xMm);
  return {
    xMm: place.xMm,
    yMm: place.side === "centre" ? 0 : place.side === "bass" ? -halfMm : halfMm,
    what: "thickness",
    says: `Measure ${thicknessPlaceInWords(place)} once more, with a micrometer: it would narrow what is left there ${narrowed(place.u, finer)}.`,
  };
}
