/**
 * Plausible examinations made by formula, so that the page can be drawn and tested without the core.
 *
 * Kind -> Examination with every field filled. Lengths in mm. The wear is two pits and a rut by formula, so a test can say
 * what stands at any place. Invented figures: nothing here is a default of the program.
 */
import type { Figure, FigureName, Instrument, Kind } from "../../server/core/board/instrument.ts";
import type { Examination, Maps, Point, Profile, Section } from "../../server/core/examination.ts";

type Plan = {
  readonly lengthMm: number;
  readonly widthMm: readonly [nut: number, end: number];
  readonly stringMm: number;
  readonly spacingMm: readonly [nut: number, bridge: number];
  readonly radiusMm: number;
  readonly hollowMm: readonly [lowest: number, highest: number];
  readonly edgeLimitMm: number;
  readonly strings: readonly string[];
  readonly openPitches: readonly number[];
};

const plans: Readonly<Record<Kind, Plan>> = {
  violin: {
    lengthMm: 270,
    widthMm: [24, 42],
    stringMm: 328,
    spacingMm: [16.5, 33.5],
    radiusMm: 42,
    hollowMm: [0.75, 0.4],
    edgeLimitMm: 3.8,
    strings: ["G", "D", "A", "E"],
    openPitches: [43, 50, 57, 64],
  },
  viola: {
    lengthMm: 295,
    widthMm: [25, 46],
    stringMm: 372,
    spacingMm: [17, 36],
    radiusMm: 40,
    hollowMm: [0.9, 0.5],
    edgeLimitMm: 4.2,
    strings: ["C", "G", "D", "A"],
    openPitches: [36, 43, 50, 57],
  },
  cello: {
    lengthMm: 580,
    widthMm: [31, 63],
    stringMm: 690,
    spacingMm: [22, 46.5],
    radiusMm: 65,
    hollowMm: [1.6, 1],
    edgeLimitMm: 5.4,
    strings: ["C", "G", "D", "A"],
    openPitches: [24, 31, 38, 45],
  },
  bass: {
    lengthMm: 850,
    widthMm: [43, 88],
    stringMm: 1050,
    spacingMm: [30, 84],
    radiusMm: 82,
    hollowMm: [2.2, 1.4],
    edgeLimitMm: 6,
    strings: ["E", "A", "D", "G"],
    openPitches: [16, 21, 26, 31],
  },
};

const figure = (value: number, origin = "from memory"): Figure => ({ value, source: "memory", origin });

function instrumentOf(kind: Kind): Instrument {
  const plan = plans[kind];
  const figures: Readonly<Record<FigureName, Figure>> = {
    boardLengthMm: figure(plan.lengthMm),
    widthNutMm: figure(plan.widthMm[0]),
    widthEndMm: figure(plan.widthMm[1]),
    stringLengthMm: figure(plan.stringMm),
    spacingNutMm: figure(plan.spacingMm[0]),
    spacingBridgeMm: figure(plan.spacingMm[1]),
    radiusNutMm: figure(plan.radiusMm),
    radiusMiddleMm: figure(plan.radiusMm),
    radiusEndMm: figure(plan.radiusMm),
    hollowLowestMm: figure(plan.hollowMm[0]),
    hollowHighestMm: figure(plan.hollowMm[1]),
    hollowDeepest: figure(0.5),
    radiusToleranceMm: figure(2),
    hollowToleranceMm: figure(0.2),
    radiusBandMm: figure(2),
    hollowBandMm: figure(0.2),
    edgeLimitMm: figure(plan.edgeLimitMm),
    centreLimitMm: figure(5),
    dressAtMm: figure(0.15),
    dressingSpendMm: figure(0.35),
    allowanceMm: figure(0.03),
    finishAllowanceMm: figure(0.05),
    projectionBoundMm: figure(0.6),
    crownBoundMm: figure(1),
    edgeInsetMm: figure(3),
    rutWidthMm: figure(1.2),
  };
  return {
    ...figures,
    kind,
    size: "4/4",
    strings: plan.strings,
    openPitches: plan.openPitches,
    positions: [
      { name: "half", fromSemitone: 1 },
      { name: "first", fromSemitone: 2 },
      { name: "second", fromSemitone: 4 },
      { name: "third", fromSemitone: 5 },
      { name: "fourth", fromSemitone: 7 },
      { name: "thumb", fromSemitone: 12 },
    ],
    facet: null,
  };
}

/** Repeatable scatter of about ± 0.01 mm from an index: no randomness in a fixture. */
const scatterMm = (index: number): number => 0.012 * Math.sin(index * 12.9898) * Math.cos(index * 4.1414);

const range = (from: number, to: number, count: number): number[] =>
  Array.from({ length: count }, (_, i) => from + ((to - from) * i) / (count - 1));

export function fixtureExamination(kind: Kind = "cello"): Examination {
  const plan = plans[kind];
  const instrument = instrumentOf(kind);
  const length = plan.lengthMm;
  const halfWidth = (x: number) => (plan.widthMm[0] + ((plan.widthMm[1] - plan.widthMm[0]) * x) / length) / 2;
  const stringY = (index: number, x: number) => {
    const spacing = plan.spacingMm[0] + ((plan.spacingMm[1] - plan.spacingMm[0]) * x) / plan.stringMm;
    return spacing * (index / (plan.strings.length - 1) - 0.5);
  };
  const stopped = (semitone: number) => plan.stringMm * (1 - 2 ** (-semitone / 12));
  const bell = (distance: number, width: number) => Math.exp(-((distance / width) ** 2));
  const pit = (x: number, y: number, semitone: number, index: number, depth: number) => {
    const at = stopped(semitone);
    return depth * bell(x - at, length * 0.022) * bell(y - stringY(index, at), plan.widthMm[0] * 0.09);
  };
  const wear = (x: number, y: number): number => {
    const ruts = plan.strings.reduce(
      (sum, _, i) =>
        sum + 0.12 * bell(x - stopped(3), length * 0.28) * bell(y - stringY(i, x), plan.widthMm[0] * 0.055),
      0,
    );
    const pits =
      pit(x, y, 3, 3, 0.34) +
      pit(x, y, 5, 3, 0.2) +
      pit(x, y, 2, 2, 0.22) +
      pit(x, y, 4, 1, 0.1) +
      pit(x, y, 7, 0, 0.13);
    const hump = 0.05 * bell(x - length * 0.72, length * 0.07) * bell(y - 4, 9);
    return ruts + pits - hump;
  };
  const ideal = (x: number, y: number, radius: number, deeper: number): number => {
    const u = x / length;
    const across = (y / (plan.spacingMm[0] * 0.75) + 1) / 2;
    const hollow = (plan.hollowMm[0] + (plan.hollowMm[1] - plan.hollowMm[0]) * across + deeper) * 4 * u * (1 - u);
    return 12 + 0.0011 * x + Math.sqrt(radius ** 2 - y ** 2) - radius - hollow;
  };
  const unworn = (x: number, y: number) => ideal(x, y, plan.radiusMm + 1.5, 0);
  const target = (x: number, y: number) => ideal(x, y, plan.radiusMm, -0.08) - 0.43 + 0.12 * (x / length);
  const measured = (x: number, y: number) => unworn(x, y) - wear(x, y);
  const cut = (x: number, y: number) => measured(x, y) - target(x, y);

  const crosslines = [0.03, 0.07, 0.12, 0.17, 0.22, 0.28, 0.34, 0.42, 0.51, 0.61, 0.72, 0.84, 0.97].map((u) =>
    Math.round(u * length),
  );
  const lines = (x: number): number[] => {
    const inset = halfWidth(x) - 3;
    const paths = plan.strings.map((_, i) => stringY(i, x));
    return [-inset, paths[0]!, paths[1]!, 0, paths[2]!, paths[3]!, inset];
  };
  const points: Point[] = crosslines.flatMap((x, i) =>
    lines(x).map((y, j) => {
      const scatter = scatterMm(i * 7 + j);
      return {
        row: 2 + i * 7 + j,
        givenXMm: x,
        givenYMm: y,
        xMm: x,
        yMm: y,
        heightMm: measured(x, y) + scatter,
        unwornMm: unworn(x, y),
        wearMm: wear(x, y) - scatter,
        cutMm: cut(x, y) + scatter,
      };
    }),
  );
  const deepestPoint = points.reduce((deepest, point) => (point.wearMm > deepest.wearMm ? point : deepest));

  const xMm = range(0, length, 1 + Math.round(length / 2));
  const rows = Math.ceil(plan.widthMm[1] / 2);
  const yMm = range(-rows, rows, 2 * rows + 1);
  const over = (of: (x: number, y: number) => number): (number | null)[][] =>
    yMm.map((y) => xMm.map((x) => (Math.abs(y) <= halfWidth(x) + 1e-9 ? of(x, y) : null)));
  const maps: Maps = { xMm, yMm, wearMm: over(wear), cutMm: over(cut) };

  const along = range(0, length, 120);
  const profiles: Profile[] = plan.strings.map((string, i) => {
    const ys = along.map((x) => stringY(i, x));
    const heights = along.map((x, k) => measured(x, ys[k]!));
    return {
      string,
      xMm: along,
      yMm: ys,
      measuredMm: heights,
      unwornMm: along.map((x, k) => unworn(x, ys[k]!)),
      targetMm: along.map((x, k) => target(x, ys[k]!)),
      straightedgeMm: rest(along, heights),
    };
  });
  const sections: Section[] = crosslines.map((x) => {
    const ys = range(-halfWidth(x), halfWidth(x), 41);
    const heights = ys.map((y) => measured(x, y));
    const arc = ys.map((y) => Math.sqrt(plan.radiusMm ** 2 - y ** 2));
    const lift = Math.max(...heights.map((z, k) => z - arc[k]!));
    return {
      xMm: x,
      yMm: ys,
      measuredMm: heights,
      unwornMm: ys.map((y) => unworn(x, y)),
      targetMm: ys.map((y) => target(x, y)),
      templateMm: arc.map((z) => z + lift),
      templateRadiusMm: plan.radiusMm,
    };
  });

  const edge = plan.edgeLimitMm;
  const place = { string: plan.strings[3]!, note: "C", position: "first" };
  return {
    version: "fixture",
    instrument,
    readings: {
      count: points.length,
      crosslines: crosslines.length,
      lines: 7,
      setups: 1,
      condensedTo: null,
      pointsTold: "all",
      repeatSdMm: null,
      drift: null,
      hiddenRutMm: null,
      enoughFor: ["hollow", "camber", "wear", "planing"],
    },
    surface: {
      noiseMm: 0.009,
      unwornShare: 0.62,
      formMm: 0.011,
      camberRadiusMm: {
        nut: { value: plan.radiusMm + 1.4, u: 0.6 },
        middle: { value: plan.radiusMm + 1.6, u: 0.3 },
        end: { value: plan.radiusMm + 1.5, u: 0.2 },
      },
      hollows: profiles.map((profile, i) => {
        const within = plan.hollowMm[0] + ((plan.hollowMm[1] - plan.hollowMm[0]) * i) / 3;
        const shown = gap(rest(along, profile.unwornMm), profile.unwornMm);
        return {
          string: profile.string,
          hollowMm: { value: shown, u: 0.03 },
          measuredMm: gap(profile.straightedgeMm, profile.measuredMm),
          withinMm: [within - 0.2, within + 0.2] as const,
          state:
            shown > within + 0.2
              ? ("deep" as const)
              : shown < within - 0.2
                ? ("shallow" as const)
                : ("within" as const),
          deepestAtMm: length / 2,
        };
      }),
      twistMm: { value: -0.12, u: 0.09 },
      humps: [],
      assumed: [],
    },
    points,
    deepest: {
      ...place,
      depthMm: deepestPoint.wearMm,
      u: 0.02,
      xMm: deepestPoint.xMm,
      yMm: deepestPoint.yMm,
      kind: "finger pit",
      atLeast: false,
    },
    wornPlaces: [
      {
        ...place,
        kind: "finger pit",
        depthMm: deepestPoint.wearMm,
        u: 0.02,
        atLeast: false,
        xMm: [stopped(3) - length * 0.03, stopped(3) + length * 0.03],
        yMm: [stringY(3, stopped(3)) - 3, stringY(3, stopped(3)) + 3],
        areaMm2: 210,
        volumeMm3: 38,
        costMm: 0.11,
        readings: 4,
      },
      {
        string: plan.strings[0]!,
        note: "G",
        position: "fourth",
        kind: "string rut",
        depthMm: 0.21,
        u: 0.02,
        atLeast: true,
        xMm: [stopped(1), stopped(8)],
        yMm: [stringY(0, stopped(4)) - 1.5, stringY(0, stopped(4)) + 1.5],
        areaMm2: 340,
        volumeMm3: 29,
        costMm: 0,
        readings: 7,
      },
      {
        string: plan.strings[2]!,
        note: "E",
        position: "thumb",
        kind: "hump",
        depthMm: 0.05,
        u: 0.02,
        atLeast: false,
        xMm: [length * 0.66, length * 0.78],
        yMm: [-2, 10],
        areaMm2: 400,
        volumeMm3: 12,
        costMm: null,
        readings: 3,
      },
    ],
    planing: {
      aim: "workshop",
      planeOffMm: { value: 0.47, u: 0.03, ofReadings: 0.481 },
      atLeast: false,
      meanCutMm: 0.31,
      volumeMm3: 8400,
      cutAtNutMm: 0.43,
      cutAtEndMm: 0.31,
      spares: "deepest cut",
      target: {
        radiusMm: { nut: plan.radiusMm, middle: plan.radiusMm, end: plan.radiusMm },
        hollowMm: { lowest: plan.hollowMm[0], highest: plan.hollowMm[1] },
        heightMm: -0.43,
        pitch: 0.00021,
        crownMm: { nut: 0.1, end: -0.2 },
        arc: "one radius",
        oneRadiusCostsMm: 0,
      },
      governedBy: [
        { xMm: deepestPoint.xMm, yMm: deepestPoint.yMm, governs: "contact" },
        { xMm: crosslines[7]!, yMm: lines(crosslines[7]!)[1]!, governs: "depth" },
        { xMm: crosslines[12]!, yMm: lines(crosslines[12]!)[6]!, governs: "depth" },
      ],
      boundBy: [],
      widening: [],
      templates: [
        { radiusMm: plan.radiusMm - 3, planeOffMm: 0.56, dressingsLeft: 0 },
        { radiusMm: plan.radiusMm + 2, planeOffMm: 0.38, dressingsLeft: 1 },
      ],
      finishAllowanceMm: 0.05,
    },
    thickness: {
      before: { xMm: crosslines[2]!, side: "bass", value: edge + 0.96, u: 0.05 },
      edgeAfterMm: { value: edge + 0.53, u: 0.05 },
      centreAfterMm: { value: 6.1, u: 0.08 },
      limitMm: edge,
      dressingsLeft: 1,
      places: [crosslines[2]!, crosslines[6]!, crosslines[10]!].flatMap((x, i) => [
        {
          xMm: x,
          side: "bass" as const,
          beforeMm: edge + 0.96 + 0.1 * i,
          afterMm: edge + 0.53 + 0.11 * i,
          u: 0.05,
          limitMm: edge,
        },
        {
          xMm: x,
          side: "treble" as const,
          beforeMm: edge + 1.2 + 0.1 * i,
          afterMm: edge + 0.8 + 0.1 * i,
          u: 0.05,
          limitMm: edge,
        },
      ]),
    },
    maps,
    profiles,
    sections,
    verdict: {
      decision: "dress",
      quickLook: null,
      nextReading: null,
      reasons: [
        {
          code: "wear-over-limit",
          says: `Wear of ${deepestPoint.wearMm.toFixed(2)} ± 0.02 mm on the ${place.string} string is past the 0.15 mm that calls for a dressing`,
          valueMm: deepestPoint.wearMm,
          u: 0.02,
          limitMm: 0.15,
          origin: "common practice, no source",
          probability: 0.999,
        },
        {
          code: "edge-enough",
          says: "The bass edge keeps enough wood after planing",
          valueMm: edge + 0.53,
          u: 0.05,
          limitMm: edge,
          origin: "from memory",
          probability: 0,
        },
      ],
      wouldChange: [
        {
          what: "edge_limit",
          says: `An edge limit above ${(edge + 0.48).toFixed(2)} mm would make it too close to call`,
          decision: "borderline",
        },
        {
          what: "dress_at",
          says: "Calling for a dressing only at 0.45 mm of wear would leave the board as it is",
          decision: "leave",
        },
      ],
    },
    cautions: [
      "Ebony dust is a sensitiser: extraction first, then a mask; no dry sweeping.",
      "Strings off may let the soundpost fall: slacken evenly and pad the tailpiece.",
      "A nut not lowered after planing makes a high action that can hurt a player's hand.",
    ],
  };
}

/** A straight rule laid on heights: the touching line over the middle of the board. */
function rest(xMm: readonly number[], heightsMm: readonly number[]): number[] {
  let left = 0;
  let right = xMm.length - 1;
  const middle = (xMm[left]! + xMm[right]!) / 2;
  let best = Number.POSITIVE_INFINITY;
  for (let i = 0; i < xMm.length; i++) {
    if (xMm[i]! > middle) break;
    for (let j = xMm.length - 1; xMm[j]! > middle; j--) {
      const slope = (heightsMm[j]! - heightsMm[i]!) / (xMm[j]! - xMm[i]!);
      const over = xMm.every((x, k) => heightsMm[k]! <= heightsMm[i]! + slope * (x - xMm[i]!) + 1e-9);
      const atMiddle = heightsMm[i]! + slope * (middle - xMm[i]!);
      if (over && atMiddle < best) {
        best = atMiddle;
        left = i;
        right = j;
      }
    }
  }
  const slope = (heightsMm[right]! - heightsMm[left]!) / (xMm[right]! - xMm[left]!);
  return xMm.map((x) => heightsMm[left]! + slope * (x - xMm[left]!));
}

const gap = (edgeMm: readonly number[], heightsMm: readonly number[]): number =>
  Math.max(...edgeMm.map((z, i) => z - heightsMm[i]!));
