/**
 * An examination as a luthier reads it in a terminal: the verdict first, then what led to it.
 *
 * In: the examination. Out: text of at most 80 columns, ending in a line break. Lengths in mm, rounded by words.ts.
 * Nothing is worked out here: every number and every reason comes from the core.
 */
import type {
  Change,
  Examination,
  Planing,
  QuickAnswer,
  Reason,
  Thickness,
  Verdict,
  WornPlace,
} from "../core/examination.ts";
import type { Quantity } from "../core/units.ts";
import { deepestInWords } from "./verdictLine.ts";
import {
  bareQuantity,
  counted,
  decisionInWords,
  depth,
  distance,
  hundredths,
  measure,
  placeInWords,
  quantity,
  radius,
  sideInWords,
  stateInWords,
  wrapped,
} from "./words.ts";
import { assumedLines, workmanshipLines } from "./workmanship.ts";

const widthChars = 80;

export function plainText(examination: Examination): string {
  const isQuickLook = examination.verdict.quickLook !== null;
  return [
    wrapped(verdictSentence(examination), widthChars),
    wrapped(boardSentence(examination), widthChars),
    section("Why", examination.verdict.reasons.map(reasonLine)),
    isQuickLook ? "" : section("Deepest place", deepestLines(examination)),
    section("Other worn places", otherPlaces(examination).map(wornPlaceLine)),
    examination.surface.hollows.length === 0 ? "" : hollowTable(examination),
    section("Camber", camberLines(examination)),
    section("Workmanship", workmanshipLines(examination)),
    section("Not told by these readings, and taken as usual", assumedLines(examination)),
    isQuickLook ? "" : section("Least wood", planingLines(examination)),
    isQuickLook && examination.thickness === null ? "" : section("Thickness", thicknessLines(examination)),
    section("What would change this", examination.verdict.wouldChange.map(changeLine)),
    section("Next reading", nextReadingLines(examination)),
    section("Mind", examination.cautions),
  ]
    .filter((part) => part !== "")
    .join("\n\n")
    .concat("\n");
}

const quickSentence: Readonly<Record<QuickAnswer, string>> = {
  "sound where looked":
    "Sound where looked: every hollow and radius read here is right beyond its uncertainty. What was not read is not judged.",
  "dressing likely":
    "Dressing likely: something read here is out of its range. Survey the whole board before any wood goes.",
  "survey fully": "Survey fully: a quick look does not settle it.",
};

function verdictSentence(examination: Examination): string {
  const { verdict, planing, thickness } = examination;
  if (verdict.quickLook !== null) return quickSentence[verdict.quickLook];
  const cut = planing === null ? null : `${planing.atLeast ? "at least " : ""}${quantity(planing.planeOffMm)}`;
  const left = thickness === null ? null : `${quantity(thickness.edgeAfterMm)} at the thinnest edge`;
  const limit = thickness === null ? "" : ` (limit ${depth(thickness.limitMm)})`;
  const toPlane = cut === null ? "" : `: ${cut} off at the deepest cut`;
  const toKeep = left === null ? "" : `, which leaves ${left}${limit}`;
  switch (verdict.decision) {
    case "leave":
      return "Leave the board as it is: wear and shape are within their limits.";
    case "dress":
      return `Dress the board${toPlane}${toKeep}.`;
    case "shape":
      return `Shape the new board${toPlane}${toKeep}.`;
    case "borderline":
      if (isOnlyTheNeedOpen(verdict))
        return "Too close to call: whether the board needs a dressing at all lies within the uncertainty.";
      return left === null || cut === null
        ? "Too close to call: the measurement can't tell on which side of the limit the board is."
        : `Too close to call: planing takes ${cut} and leaves ${left}${limit}.`;
    case "replace":
      return left === null ? "Replace the board." : `Replace the board: planing would leave ${left}${limit}.`;
    case "undecided":
      return `Can't say yet: ${stillToMeasure(examination)}.`;
    case "restorer":
      return "Ask a qualified restorer before any wood is taken off this board.";
    case "cause":
      return "Find the cause first: this is no matter of wear alone.";
  }
}

/** The thickness is clear of its limit; what calls for a dressing is not. */
function isOnlyTheNeedOpen({ reasons }: Verdict): boolean {
  const isClose = ({ valueMm, u, limitMm }: Reason): boolean =>
    valueMm !== null && u !== null && limitMm !== null && Math.abs(valueMm - limitMm) < u;
  const ofThickness = (reason: Reason): boolean => reason.code.startsWith("thickness");
  return (
    reasons.some((reason) => isClose(reason) && !ofThickness(reason)) &&
    !reasons.some((reason) => isClose(reason) && ofThickness(reason))
  );
}

function stillToMeasure({ planing, thickness, wornPlaces, verdict }: Examination): string {
  const isTold = (code: string): boolean => verdict.reasons.some((reason) => reason.code === code);
  const open = [
    ...(isTold("no-target")
      ? ["check the heights and their unit"]
      : planing === null
        ? ["survey the whole board"]
        : []),
    ...(wornPlaces.some(({ atLeast }) => atLeast) ? ["read the rut again with a finer tip"] : []),
    ...(isTold("tip-blind") ? ["look for ruts under the strings with a finer tip, or by eye"] : []),
    ...(isTold("coarse") ? ["read a line under every string"] : []),
    ...(isTold("noise") ? ["read the board again with a steadier rail"] : []),
    ...(thickness === null && !isTold("sound-where-read") ? ["measure the thickness at the edges"] : []),
  ];
  return open.length === 0 ? "something still has to be measured" : open.join(", and ");
}

function boardSentence({ instrument, readings }: Examination): string {
  const name = `${instrument.kind.charAt(0).toUpperCase()}${instrument.kind.slice(1)} ${instrument.size}`;
  const grid =
    readings.condensedTo === null
      ? `on ${counted(readings.lines, "line")}, ${counted(readings.crosslines, "crossline")}`
      : `brought together at ${counted(readings.condensedTo, "place")}`;
  const setups = readings.setups === 1 ? "" : `, in ${counted(readings.setups, "set-up")}`;
  return `${name}; ${counted(readings.count, "reading")} ${grid}${setups}.${driftSentence(readings)}`;
}

function driftSentence({ drift }: Examination["readings"]): string {
  if (drift === null) return "";
  const again = `${counted(drift.checks, "reading")} taken again`;
  return drift.corrected
    ? ` The gauge drifted by ${depth(Math.abs(drift.mm))} (${again}); that is taken out.`
    : ` ${again}: no drift beyond the readings' scatter.`;
}

/** What the reason says, then its number and the limit with where that comes from: a default must be seen to decide. */
function reasonLine({ says, valueMm, u, limitMm, origin }: Reason): string {
  const value = valueMm === null ? null : `it is ${measure(valueMm, u)}`;
  const limitIsSaid = limitMm !== null && says.includes(`${limitMm} mm`);
  const limit =
    limitMm === null
      ? null
      : limitIsSaid
        ? `the limit is ${origin ?? "as said"}`
        : `the limit is ${measure(limitMm, null)}${origin === null ? "" : `, ${origin}`}`;
  const numbers = [value, limit].filter((part) => part !== null).join("; ");
  return numbers === "" ? says : `${says} ${numbers.charAt(0).toUpperCase()}${numbers.slice(1)}.`;
}

function changeLine({ says, decision }: Change): string {
  return `${says}: ${decisionInWords[decision]}.`;
}

function nextReadingLines({ verdict }: Examination): string[] {
  return verdict.nextReading === null ? [] : [verdict.nextReading.says];
}

function deepestLines({ deepest }: Examination): string[] {
  if (deepest === null) return ["None: nothing stands out from the readings' own scatter."];
  const across =
    Math.abs(deepest.yMm) < 0.5
      ? "on the centreline"
      : `${distance(Math.abs(deepest.yMm))} to the ${deepest.yMm < 0 ? "bass" : "treble"} side`;
  return [`${deepestInWords(deepest)} (${deepest.kind}), ${distance(deepest.xMm)} from the nut, ${across}.`];
}

/** All but the one that holds the deepest place, which is told already. */
function otherPlaces({ wornPlaces, deepest }: Examination): readonly WornPlace[] {
  const told = wornPlaces.find(
    (place) =>
      place.kind === deepest?.kind &&
      place.depthMm === deepest.depthMm &&
      place.string === deepest.string &&
      place.note === deepest.note,
  );
  return wornPlaces.filter((place) => place !== told);
}

function wornPlaceLine(place: WornPlace): string {
  const size = quantity({ value: place.depthMm, u: place.u });
  const span = `${Math.round(place.xMm[0])} to ${distance(place.xMm[1])} from the nut`;
  return `${place.kind}, ${place.atLeast ? "at least " : ""}${size} ${placeInWords(place)}, ${span}`;
}

function hollowTable({ surface }: Examination): string {
  const head = ["string", "hollow", "as read", "should be", ""];
  const rows = surface.hollows.map(({ string, hollowMm, measuredMm, withinMm, state }) => [
    string,
    bareQuantity(hollowMm),
    measuredMm === null ? "—" : hundredths(measuredMm),
    `${hundredths(withinMm[0])} to ${hundredths(withinMm[1])}`,
    stateInWords[state],
  ]);
  return ["Hollow under each string, as a straightedge shows it, mm", ...table([head, ...rows])].join("\n");
}

function camberLines({ surface, planing }: Examination): string[] {
  const { nut, middle, end } = surface.camberRadiusMm;
  const at = (radiusMm: Quantity | null) => (radiusMm === null ? "not read" : measure(radiusMm.value, radiusMm.u));
  return [
    `radius ${at(nut)} at the nut, ${at(middle)} in the middle, ${at(end)} at the end`,
    ...(planing?.aim === "own" ? ["it is the shape aimed at: the board's own, renewed"] : []),
  ];
}

const mostBoundsTold = 2;

function arcInWords({ arc, radiusMm }: Planing["target"]): string {
  if (arc === "one radius") return `radius ${radius(radiusMm.middle)} mm all along`;
  const radii = `radius ${radius(radiusMm.nut)}, ${radius(radiusMm.middle)}, ${radius(radiusMm.end)} mm (nut, middle, end)`;
  return arc === "straight taper" ? `${radii}, a straight taper` : radii;
}

function planingLines({ planing }: Examination): string[] {
  if (planing === null) return ["No planing map: the readings don't carry one."];
  const { target } = planing;
  const atLeast = planing.atLeast ? "at least " : "";
  return [
    `deepest cut ${atLeast}${quantity(planing.planeOffMm)}, ${depth(planing.meanCutMm)} on average`,
    `${depth(planing.cutAtNutMm)} off at the nut, ${depth(planing.cutAtEndMm)} off at the end`,
    `${planing.aim === "own" ? "target, the board's own shape renewed" : "target"}: ${arcInWords(target)}; hollow ${hundredths(target.hollowMm.lowest)} mm under the lowest string, ` +
      `${hundredths(target.hollowMm.highest)} mm under the highest`,
    ...(target.arc === "one radius" || target.oneRadiusCostsMm === null
      ? []
      : [`one radius all along would cost ${depth(target.oneRadiusCostsMm)} more`]),
    `leave the last ${depth(planing.finishAllowanceMm)} to scraper and paper`,
    ...planing.boundBy.slice(0, mostBoundsTold).map(({ says }) => says),
    ...planing.widening.map(({ says }) => says),
    ...planing.templates.map(
      ({ radiusMm, planeOffMm, dressingsLeft }) =>
        `with the ${radius(radiusMm)} mm template: ${depth(planeOffMm)} off` +
        (dressingsLeft === null ? "" : `, ${counted(dressingsLeft, "dressing")} left after it`),
    ),
  ];
}

function thicknessLines({ thickness, planing }: Examination): string[] {
  if (thickness === null) return ["Not measured: nothing can be said about how much wood is left."];
  const { before } = thickness;
  const now = quantity(before);
  return [
    `now ${now} at the thinnest (${sideInWords[before.side]}, ${distance(before.xMm)} from the nut)`,
    ...(planing === null ? [] : afterLines(thickness)),
    `limit ${depth(thickness.limitMm)} at the edge`,
    ...(thickness.dressingsLeft === null
      ? []
      : [
          `${counted(thickness.dressingsLeft, "dressing")} left ${planing === null ? "in it today" : "after this one"}`,
        ]),
  ];
}

function afterLines({ edgeAfterMm, centreAfterMm }: Thickness): string[] {
  return [
    `after planing ${quantity(edgeAfterMm)} at the thinnest edge`,
    ...(centreAfterMm === null ? [] : [`after planing ${quantity(centreAfterMm)} over the hollowed underside`]),
  ];
}

/** A heading and its lines, each wrapped under its own dash; nothing at all where there are no lines. */
function section(heading: string, lines: readonly string[]): string {
  if (lines.length === 0) return "";
  return [heading, ...lines.map((line) => wrapped(line, widthChars, "  - "))].join("\n");
}

/** Columns as wide as their widest cell, two blanks between, two before. */
function table(rows: readonly (readonly string[])[]): string[] {
  const widths = rows[0]!.map((_, column) => Math.max(...rows.map((row) => row[column]!.length)));
  return rows.map((row) => `  ${row.map((cell, column) => cell.padEnd(widths[column]!)).join("   ")}`.trimEnd());
}
