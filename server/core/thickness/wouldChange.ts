/**
 * What would change the verdict: a default that the workshop may not share, or a measurement not yet made.
 *
 * Each candidate is tried by deciding again with it; only what turns the decision is told. Lengths in mm.
 */
import type { Figure } from "../board/instrument.ts";
import type { Change, Decision } from "../examination.ts";
import { decide, type Facts } from "./decide.ts";
import type { Findings } from "./findings.ts";
import { certaintyOf, type Need } from "./needs.ts";

export function wouldChange(
  findings: Findings,
  needs: readonly Need[],
  facts: Facts,
  decision: Decision,
): readonly Change[] {
  return [
    ...otherWearLimit(findings, needs, facts),
    ...otherTolerances(findings, needs, facts),
    ...otherEdgeLimit(findings, facts),
    ...otherBuild(facts),
    ...measurements(findings, needs, facts, decision),
  ].filter((change) => change.decision !== decision);
}

/** The depth that calls for a dressing, moved to either side of the deepest wear. */
function otherWearLimit({ instrument, wornPlaces }: Findings, needs: readonly Need[], facts: Facts): readonly Change[] {
  const deepest = wornPlaces.find((place) => place.kind !== "hump");
  const index = needs.findIndex((need) => need.respect === "wear");
  if (!deepest || index < 0) return [];
  const isOver = deepest.depthMm > instrument.dressAtMm.value;
  const limitMm = isOver ? deepest.depthMm + deepest.u : deepest.depthMm - deepest.u;
  if (limitMm <= 0) return [];
  const certainty = certaintyOf(deepest.depthMm - limitMm * (isOver ? 1.001 : 0.999), deepest.u);
  const decision = decide({ ...facts, needs: facts.needs.map((need, i) => (i === index ? certainty : need)) });
  return [
    {
      what: "dress_at",
      says: `${isOver ? "If wear called for a dressing only from" : "If wear called for a dressing already from"} ${twoPlaces(limitMm)} mm (now ${said(instrument.dressAtMm)})`,
      decision,
    },
  ];
}

/** A tolerance so wide that the shape counts as right. */
function otherTolerances({ instrument }: Findings, needs: readonly Need[], facts: Facts): readonly Change[] {
  const respects = [
    { respect: "hollow", what: "hollow_tolerance", tolerance: instrument.hollowToleranceMm },
    { respect: "camber", what: "radius_tolerance", tolerance: instrument.radiusToleranceMm },
  ] as const;
  return respects.flatMap(({ respect, what, tolerance }) => {
    const over = needs.filter((need) => need.respect === respect && need.overMm > 0);
    if (over.length === 0) return [];
    const enoughMm = tolerance.value + Math.max(...over.map((need) => need.overMm));
    const eased = needs.map((need, i) => (need.respect === respect ? ("none" as const) : facts.needs[i]));
    return [
      {
        what,
        says: `If ± ${twoPlaces(enoughMm)} mm still counted as right (now ± ${said(tolerance)})`,
        decision: decide({ ...facts, needs: eased }),
      },
    ];
  });
}

/** The edge limit, moved just to the other side of what the thickness left would clear beyond its uncertainty. */
function otherEdgeLimit({ instrument, thickness }: Findings, facts: Facts): readonly Change[] {
  if (!thickness || !facts.marginAfterMm || !facts.marginBeforeMm) return [];
  const { value, u } = thickness.edgeAfterMm;
  const limit = instrument.edgeLimitMm;
  const isClear = limit.value <= value - u;
  const hundredths = (value - u) * 100;
  const limitMm = (isClear ? Math.floor(hundredths) + 1 : Math.ceil(hundredths) - 1) / 100;
  if (limitMm <= 0) return [];
  const before = facts.marginBeforeMm;
  const decision = decide({
    ...facts,
    marginBeforeMm: { value: before.value + limit.value - limitMm, u: before.u },
    marginAfterMm: { value: value - limitMm, u },
  });
  const words = isClear ? "at least" : "only";
  return [
    {
      what: "edge_limit",
      says: `If the edges had to keep ${words} ${twoPlaces(limitMm)} mm (now ${said(limit)})`,
      decision,
    },
  ];
}

function otherBuild(facts: Facts): readonly Change[] {
  const { job } = facts;
  return [
    ...(job.build === "unknown" || job.valuable
      ? [
          {
            what: job.valuable ? "valuable" : "build",
            says: job.valuable ? "If the instrument were not valuable and its board solid" : "If the board is solid",
            decision: decide({ ...facts, job: { ...job, build: "solid", valuable: false } }),
          },
        ]
      : []),
  ];
}

/** Measurements that would settle what is open: the decision told is the one they would most likely lead to. */
function measurements(findings: Findings, needs: readonly Need[], facts: Facts, decision: Decision): readonly Change[] {
  if (decision === "undecided") {
    return [
      ...(facts.hasUnbottomedRut
        ? [
            {
              what: "tip_radius",
              says: "If the rut, read with a finer tip, proves no deeper",
              decision: decide({ ...facts, hasUnbottomedRut: false }),
            },
          ]
        : []),
      ...(findings.thickness === null
        ? [
            {
              what: "thickness",
              says: "If the edges, measured with a calliper, have wood to spare",
              decision: decide({ ...facts, marginAfterMm: { value: 1, u: 0 } }),
            },
          ]
        : []),
    ];
  }
  if (decision !== "borderline") return [];
  const unsure = needs.filter((need) => need.certainty === "possible");
  return [
    ...unsure.slice(0, 1).map((need) => ({
      what: "readings",
      says: `To settle the need: ${need.settle}. If it proves within its limit`,
      decision: decide({ ...facts, needs: facts.needs.map((c) => (c === "possible" ? "none" : c)) }),
    })),
    ...(facts.marginAfterMm && facts.marginAfterMm.value < facts.marginAfterMm.u
      ? [
          {
            what: "thickness",
            says: "To settle the thickness: measure the thinnest edge again, several times, with a micrometer. If it has wood to spare",
            decision: decide({ ...facts, marginAfterMm: { value: 1, u: 0 } }),
          },
        ]
      : []),
  ];
}

function said(figure: Figure): string {
  return `${figure.value} mm, ${figure.origin}`;
}

function twoPlaces(mm: number): string {
  return mm.toFixed(2);
}
