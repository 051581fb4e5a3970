/**
 * Gaps under a straightedge and under templates -> what they show of a board: hollow along each line, radius at each crossline.
 *
 * Strings slack with their pull measured: the gaps are brought to pitch first. A template with three gaps or more across tells the
 * radius; with fewer it tells only on which side of its own the board's radius lies: light at the edges, the board is rounder; light
 * in the middle, it is flatter. Lengths in mm.
 */
import type { Instrument } from "../board/instrument.ts";
import { halfWidthMm } from "../board/outline.ts";
import type { Gauge } from "../board/settings.ts";
import { broughtToPitch, pullUncertaintyMm } from "../compensation/pull.ts";
import type { Gaps, StraightedgeGap, TemplateGap } from "../readings/gaps.ts";
import { camberMm, type SurfaceShape } from "../surface/idealSurface.ts";
import { coverageFactor } from "../units.ts";
import { arcAcross } from "./arcAcross.ts";
import { gapsAlongLine, gapUncertaintyMm } from "./gapsAlongLine.ts";
import { groupedBy, hollowRange, inOrderOfStrings, lineLooked } from "./linesLooked.ts";
import type { Looked, LookedRadius, LookedWear, Range, TemplateSide } from "./looked.ts";
import { radiusRange, setShape } from "./setShape.ts";

/** Gaps this near to one another along belong to one crossline. */
const sameCrosslineMm = 1.5;
/** Nearer to the centreline than this share of the half-width is the middle of a template. */
const middleShare = 0.4;

export function lookAtGaps(gaps: Gaps, instrument: Instrument, gauge: Gauge): Looked {
  const set = setShape(instrument);
  const lines = [...groupedBy(atPitch(gaps.straightedge, instrument, gauge), ({ line }) => line)].map(
    ([line, all]) => ({
      line: lineLooked(instrument, line),
      all,
      shown: gapsAlongLine(all, {
        lengthMm: instrument.boardLengthMm.value,
        stepMm: gaps.stepMm,
        deepest: instrument.hollowDeepest.value,
      }),
    }),
  );
  const pullU = coverageFactor * pullUncertaintyMm(gauge, instrument);
  const templates = templatesLaid(gaps.template).map((laid) => underTemplate(laid, set, instrument, gaps.stepMm));
  return {
    hollows: inOrderOfStrings(
      lines.map(({ line, shown }) => ({
        ...line,
        hollowMm: { value: shown.hollowMm.value, u: Math.hypot(shown.hollowMm.u, pullU) },
        deepestAtMm: shown.deepestAtMm,
        measuredMm: null,
        withinMm: hollowRange(instrument, set, line),
      })),
    ),
    radii: templates.flatMap((one) => (one.told === "radius" ? [one.radius] : [])),
    sides: templates.flatMap((one) => (one.told === "side" ? [one.side] : [])),
    wear: lines.flatMap(({ line, shown }) => shown.wear.slice(0, 1).map((worst) => wornAt(worst, line.yAtMm))),
    points: [],
    assumed: lines.some(({ shown }) => shown.endsTaken.length > 0)
      ? ["the straightedge rests on the board at the nut and at the bridge end"]
      : [],
  };
}

/** A gap is a height below the straightedge. */
function atPitch(gaps: readonly StraightedgeGap[], instrument: Instrument, gauge: Gauge): readonly StraightedgeGap[] {
  const readings = gaps.map(({ row, xMm, yMm, gapMm }) => ({
    row,
    xMm,
    yMm,
    gaugeMm: -gapMm,
    line: null,
    mark: null,
    setup: 0,
  }));
  const { readings: pulled } = broughtToPitch({ stage: "checked", readings, setups: [""] }, instrument, gauge);
  return gaps.map((gap, i) => ({ ...gap, gapMm: -pulled[i]!.gaugeMm }));
}

function wornAt(
  { xMm, wearMm }: { readonly xMm: number; readonly wearMm: LookedWear["wearMm"] },
  yAtMm: (xMm: number) => number,
): LookedWear {
  return { xMm, yMm: yAtMm(xMm), wearMm, stands: wearMm.value > wearMm.u };
}

type LaidTemplate = { readonly xMm: number; readonly radiusMm: number; readonly gaps: readonly TemplateGap[] };

/** Gaps of one template at one crossline. */
function templatesLaid(gaps: readonly TemplateGap[]): readonly LaidTemplate[] {
  const laid: { xMm: number; radiusMm: number; gaps: TemplateGap[] }[] = [];
  for (const gap of [...gaps].sort((a, b) => a.xMm - b.xMm)) {
    const same = laid.find(
      (one) => one.radiusMm === gap.templateRadiusMm && Math.abs(one.xMm - gap.xMm) <= sameCrosslineMm,
    );
    if (same === undefined) laid.push({ xMm: gap.xMm, radiusMm: gap.templateRadiusMm, gaps: [gap] });
    else same.gaps.push(gap);
  }
  return laid;
}

type UnderTemplate =
  | { readonly told: "radius"; readonly radius: LookedRadius }
  | { readonly told: "side"; readonly side: TemplateSide }
  | { readonly told: "nothing" };

function underTemplate(laid: LaidTemplate, set: SurfaceShape, instrument: Instrument, stepMm: number): UnderTemplate {
  const { xMm, radiusMm: templateRadiusMm, gaps } = laid;
  const withinMm = radiusRange(instrument, set, xMm);
  const reachesOver = gaps.every(({ yMm }) => Math.abs(yMm) < templateRadiusMm);
  if (reachesOver && new Set(gaps.map(({ yMm }) => yMm)).size >= 3) {
    const heights = gaps.map(({ yMm, gapMm }) => ({ yMm, heightMm: camberMm(yMm, templateRadiusMm) - gapMm }));
    const greatest = Math.max(...gaps.map(({ gapMm }) => gapUncertaintyMm(gapMm, stepMm)));
    const arc = arcAcross(heights, greatest);
    if (arc.outcome === "arc") return { told: "radius", radius: { xMm, radiusMm: arc.radiusMm, withinMm } };
    return { told: "side", side: { xMm, templateRadiusMm, side: "flatter", withinMm } };
  }
  return bySide(laid, withinMm, instrument);
}

function bySide({ xMm, radiusMm, gaps }: LaidTemplate, withinMm: Range, instrument: Instrument): UnderTemplate {
  const isMiddle = ({ yMm }: TemplateGap): boolean => Math.abs(yMm) < middleShare * halfWidthMm(instrument, xMm);
  const open = gaps.filter(({ gapMm }) => gapMm > 0);
  const inMiddle = open.filter(isMiddle).length;
  if (open.length === 0 || (inMiddle > 0 && inMiddle < open.length)) return { told: "nothing" };
  const side = inMiddle > 0 ? ("flatter" as const) : ("rounder" as const);
  return { told: "side", side: { xMm, templateRadiusMm: radiusMm, side, withinMm } };
}
