/**
 * What must hold of every examination, whatever was asked: each broken promise as a sentence.
 *
 * Looks at nothing but the examination as it goes over the wire, and at what was asked. Lengths in mm. A tolerance of 1e-6 mm is
 * a nanometre: a thousand times what floating point leaves of 50 mm of height, a ten-thousandth of what a gauge shows.
 */
import type { Decision, Examination, Point } from "../../server/core/examination.ts";
import type { Asked } from "./oddBoards.ts";

const nanometre = 1e-6;

export function brokenPromises(examination: Examination, asked: Asked, rows: number): readonly string[] {
  return [
    ...unspeakableNumbers(examination),
    ...(examination.verdict.quickLook === null ? surveyPromises(examination, asked, rows) : []),
  ];
}

/** A quick look of few readings plans nothing and draws nothing: what it promises is tested with it. */
function surveyPromises(examination: Examination, asked: Asked, rows: number): readonly string[] {
  return [
    ...planPromises(examination),
    ...drawnPromises(examination),
    ...placePromises(examination),
    ...orderPromises(examination, rows),
    ...verdictPromises(examination, asked),
  ];
}

/** NaN and infinities become null in JSON: they are looked for before. */
function unspeakableNumbers(value: unknown, path = ""): readonly string[] {
  if (typeof value === "number") {
    if (!Number.isFinite(value)) return [`${path} is ${value}`];
    return path.endsWith(".u") && value < 0 ? [`${path} is negative: ${value}`] : [];
  }
  if (value === undefined) return [`${path} is undefined`];
  if (Array.isArray(value)) return value.flatMap((item, i) => unspeakableNumbers(item, `${path}[${i}]`)).slice(0, 3);
  if (typeof value !== "object" || value === null) return [];
  return Object.entries(value).flatMap(([key, item]) => unspeakableNumbers(item, `${path}.${key}`));
}

function planPromises({ planing, thickness, points, instrument, maps, wornPlaces }: Examination): readonly string[] {
  const broken: string[] = [];
  if (planing === null) {
    if (points.some(({ cutMm }) => cutMm !== null)) broken.push("cuts at readings without a plan");
    if (thickness?.places.some(({ afterMm }) => afterMm !== null)) broken.push("thickness after without a plan");
    return broken;
  }
  const allowanceMm = instrument.allowanceMm.value;
  const least = Math.min(...placesOf(points).map(meanCut));
  if (least < allowanceMm - nanometre)
    broken.push(`a reading is cut by ${least}, less than the allowance ${allowanceMm}`);
  const most = Math.max(...placesOf(points).map(meanCut));
  const { value, u, ofReadings } = planing.planeOffMm;
  if (ofReadings < allowanceMm - nanometre)
    broken.push(`plane-off as read ${ofReadings} under the allowance ${allowanceMm}`);
  if (value < allowanceMm - u) broken.push(`plane-off ${value} ± ${u} under the allowance ${allowanceMm}`);
  if (planing.spares === "deepest cut" && most > ofReadings + 1e-3)
    broken.push(`a reading is cut by ${most}, deeper than plane-off ${ofReadings}`);
  if (planing.spares === "thinnest place" && value < ofReadings - 2 * u - 0.1)
    broken.push(`sparing the thinnest place cuts less (${value}) than the least (${ofReadings})`);
  if (thickness) {
    for (const place of thickness.places) {
      if (place.afterMm === null) broken.push("a plan, and a place without thickness after");
      else if (place.afterMm > place.beforeMm + 1e-3 && place.side !== "centre")
        broken.push(`thicker after (${place.afterMm}) than before (${place.beforeMm}) at x ${place.xMm} ${place.side}`);
      else if (place.afterMm > place.beforeMm + 0.05)
        broken.push(
          `much thicker after (${place.afterMm}) than before (${place.beforeMm}) at x ${place.xMm} ${place.side}`,
        );
    }
  }
  for (const place of wornPlaces) {
    if (place.costMm === null) broken.push("a plan, and a worn place without its cost");
    else if (place.costMm < -1e-3) broken.push(`a worn place costs ${place.costMm}`);
    else if (place.costMm > ofReadings + 1e-3)
      broken.push(`a worn place costs ${place.costMm}, more than the whole cut ${ofReadings}`);
  }
  if (maps) {
    const leastOfMap = Math.min(...maps.cutMm.flat().filter((cut) => cut !== null));
    if (leastOfMap < allowanceMm - 0.1)
      broken.push(`the map asks for ${leastOfMap} where at least ${allowanceMm} is to go`);
  }
  return broken;
}

function placesOf(points: readonly Point[]): readonly (readonly Point[])[] {
  const groups = new Map<string, Point[]>();
  for (const point of points) {
    const key = `${point.givenXMm} ${point.givenYMm}`;
    groups.set(key, [...(groups.get(key) ?? []), point]);
  }
  return [...groups.values()];
}

function meanCut(points: readonly Point[]): number {
  return points.reduce((sum, { cutMm }) => sum + (cutMm ?? Number.NaN), 0) / points.length;
}

function drawnPromises({ instrument, maps, profiles, sections, planing }: Examination): readonly string[] {
  const broken: string[] = [];
  const halfMm = (xMm: number): number =>
    (instrument.widthNutMm.value +
      ((instrument.widthEndMm.value - instrument.widthNutMm.value) * xMm) / instrument.boardLengthMm.value) /
    2;
  maps?.yMm.forEach((yMm, row) => {
    maps.xMm.forEach((xMm, column) => {
      const inside = Math.abs(yMm) < halfMm(xMm) - nanometre;
      const outside = Math.abs(yMm) > halfMm(xMm) + nanometre;
      const cells = [maps.wearMm[row]?.[column], planing && maps.cutMm[row]?.[column]];
      if (inside && (typeof cells[0] !== "number" || (planing && typeof cells[1] !== "number")))
        broken.push(`the map is empty inside the board at ${xMm}, ${yMm}`);
      if (outside && (cells[0] !== null || cells[1] !== null))
        broken.push(`the map goes on outside the board at ${xMm}, ${yMm}`);
    });
  });
  if (profiles.length !== instrument.strings.length)
    broken.push(`${profiles.length} profiles for ${instrument.strings.length} strings`);
  for (const { string, xMm, measuredMm, straightedgeMm } of profiles) {
    const below = Math.min(...xMm.map((_, i) => (straightedgeMm[i] ?? Number.NaN) - (measuredMm[i] ?? Number.NaN)));
    if (!(below >= -nanometre)) broken.push(`the straightedge runs through the wood under ${string} by ${-below}`);
    const touches = xMm.filter(
      (_, i) => Math.abs((straightedgeMm[i] ?? Number.NaN) - (measuredMm[i] ?? Number.NaN)) < 1e-4,
    ).length;
    if (touches < 1) broken.push(`the straightedge touches nothing under ${string}`);
    if (xMm.some((x, i) => i > 0 && x <= (xMm[i - 1] ?? Number.NaN))) broken.push(`profile under ${string} runs back`);
  }
  for (const { xMm, yMm, measuredMm, templateMm } of sections) {
    const below = Math.min(...yMm.map((_, i) => (templateMm[i] ?? Number.NaN) - (measuredMm[i] ?? Number.NaN)));
    if (!(below >= -nanometre)) broken.push(`the template runs through the wood at ${xMm} by ${-below}`);
    if (yMm.some((y) => Math.abs(y) > halfMm(xMm) + 1)) broken.push(`a section at ${xMm} goes beyond the board`);
  }
  return broken.slice(0, 4);
}

function placePromises({ instrument, wornPlaces, deepest, points }: Examination): readonly string[] {
  const broken: string[] = [];
  const lengthMm = instrument.boardLengthMm.value;
  const widthMm = instrument.widthEndMm.value;
  for (const { kind, depthMm, xMm, yMm, areaMm2, volumeMm3, readings } of wornPlaces) {
    if (!(xMm[0] >= 0 && xMm[1] <= lengthMm + nanometre && xMm[0] <= xMm[1]))
      broken.push(`a ${kind} from ${xMm[0]} to ${xMm[1]} along`);
    if (!(Math.max(-yMm[0], yMm[1]) <= widthMm / 2 + nanometre && yMm[0] <= yMm[1]))
      broken.push(`a ${kind} from ${yMm[0]} to ${yMm[1]} across`);
    if (!(depthMm > 0 && areaMm2 > 0 && volumeMm3 > 0 && readings >= 1))
      broken.push(`a ${kind} of depth ${depthMm}, area ${areaMm2}, volume ${volumeMm3}, ${readings} readings`);
    if (volumeMm3 > areaMm2 * depthMm * 1.0001 && readings > 0)
      broken.push(`a ${kind} holds more than its area times its depth`);
  }
  const worst = Math.max(0, ...wornPlaces.filter(({ kind }) => kind !== "hump").map(({ depthMm }) => depthMm));
  if (deepest && Math.abs(deepest.depthMm - worst) > nanometre)
    broken.push(`deepest says ${deepest.depthMm}, the places ${worst}`);
  if (deepest && !points.some(({ wearMm }) => Math.abs(wearMm - deepest.depthMm) < nanometre))
    broken.push("the deepest place is no reading's");
  return broken;
}

function orderPromises({ points, readings }: Examination, rows: number): readonly string[] {
  return [
    ...(points.length === rows && readings.count === rows
      ? []
      : [`${points.length} points, count ${readings.count}, of ${rows} readings`]),
    ...(points.every((point, i) => i === 0 || point.row > (points[i - 1]?.row ?? 0))
      ? []
      : ["points out of the file's order"]),
    ...(points.every(({ unwornMm, heightMm, wearMm }) => Math.abs(unwornMm - heightMm - wearMm) < nanometre)
      ? []
      : ["wear is not unworn less height"]),
  ];
}

/** The decision worked out anew from the published numbers, as the rules are told to the reader (README, the table of verdicts). */
function verdictPromises(examination: Examination, asked: Asked): readonly string[] {
  const { verdict, wornPlaces, planing, instrument } = examination;
  const isWidthGiven = instrument.rutWidthMm.source === "given";
  const allowed = decisionsAllowed(examination, asked);
  const unbottomed = wornPlaces.some(({ atLeast }) => atLeast);
  return [
    ...(allowed.includes(verdict.decision)
      ? []
      : [`says ${verdict.decision} where its numbers say ${allowed.join(" or ")}`]),
    ...(unbottomed && (isWidthGiven ? ["leave", "dress", "shape"] : ["leave"]).includes(verdict.decision)
      ? [`says ${verdict.decision} with a rut not bottomed`]
      : []),
    ...verdict.wouldChange
      .filter(({ decision }) => decision === verdict.decision)
      .map(({ what }) => `${what} would change nothing`),
    ...(verdict.reasons.length === 0 ? ["a verdict without a reason"] : []),
    ...verdict.reasons.flatMap(({ code, probability }) =>
      probability === null || (probability >= 0 && probability <= 1)
        ? []
        : [`${code} has a probability of ${probability}`],
    ),
    ...(["borderline", "undecided"].includes(verdict.decision) && planing !== null && verdict.wouldChange.length === 0
      ? [`says ${verdict.decision} and names nothing to measure`]
      : []),
  ];
}

function decisionsAllowed(examination: Examination, asked: Asked): readonly Decision[] {
  const { surface, instrument, wornPlaces, thickness, planing, readings, verdict } = examination;
  const over: { mm: number; u: number }[] = wornPlaces.map(({ depthMm, u }) => ({
    mm: depthMm - instrument.dressAtMm.value,
    u,
  }));
  if (asked.aim !== "own") {
    for (const { hollowMm, withinMm } of surface.hollows) {
      over.push({ mm: Math.max(withinMm[0] - hollowMm.value, hollowMm.value - withinMm[1]), u: hollowMm.u });
    }
    const { nut, middle, end } = surface.camberRadiusMm;
    for (const [is, set] of [
      [nut, instrument.radiusNutMm],
      [middle, instrument.radiusMiddleMm],
      [end, instrument.radiusEndMm],
    ] as const) {
      if (is === null) continue;
      over.push({ mm: Math.abs(is.value - set.value) - instrument.radiusToleranceMm.value, u: is.u });
    }
  }
  const certain = over.some(({ mm, u }) => mm > u);
  const needed = over.some(({ mm }) => mm > 0);
  const isWidthGiven = instrument.rutWidthMm.source === "given";
  const unbottomed = wornPlaces.some(({ atLeast }) => atLeast);
  if (asked.loose === "yes" || surface.hollows.every(({ hollowMm }) => hollowMm.value < -hollowMm.u)) return ["cause"];
  const restorer = asked.build !== "solid" || asked.valuable === "yes";
  if (certain && restorer) return ["restorer"];
  if (needed && restorer)
    return asked.build === "unknown" && asked.valuable !== "yes"
      ? ["restorer", "borderline", "undecided"]
      : ["restorer"];
  const before = thickness && Math.min(...thickness.places.map(({ beforeMm, limitMm }) => beforeMm - limitMm));
  if (thickness && before !== null && before <= -thickness.before.u) return [restorer ? "restorer" : "replace"];
  const told = (code: string): boolean => verdict.reasons.some((reason) => reason.code === code);
  // Without hidden ruts, or on a new board, there is no string without a line; without a ball none that a tip can't get into.
  const mayLackLine = readings.hiddenRutMm !== null && asked.new_board !== "yes";
  const mayBeBlind = isWidthGiven && asked.tip_radius !== "0" && asked.new_board !== "yes";
  // No set of so many readings has a chance deviation beyond five times its scatter.
  const mayBeLost = 5 * (surface.noiseMm ?? 0) > instrument.dressAtMm.value;
  const isOpen =
    unbottomed || (mayLackLine && told("coarse")) || (mayBeBlind && told("tip-blind")) || (mayBeLost && told("noise"));
  if (!needed) return [isOpen ? "undecided" : "leave"];
  const afters =
    thickness &&
    planing &&
    thickness.places.map(({ afterMm, limitMm, u }) => ({ mm: (afterMm ?? Number.NaN) - limitMm, u }));
  const worst = afters?.reduce((a, b) => (b.mm < a.mm ? b : a)) ?? null;
  if (worst && worst.mm <= -worst.u) return [certain ? "replace" : "borderline"];
  if ((unbottomed && isWidthGiven) || worst === null) return ["undecided"];
  if (!certain || worst.mm < worst.u) return ["borderline"];
  return [asked.new_board === "yes" ? "shape" : "dress"];
}
