/**
 * The loan store of a youth orchestra: invented instruments, each with a board that asks another question.
 *
 * Every number, name and story here is made up. Dimensions are of the usual order for the kind; limits that a story
 * turns on are written into its readings file, so that the story does not hang on a default.
 */
import { bass, cello, smallCello, viola, violin } from "./plans.ts";
import type { Plan, Probe, Recipe, Rounds, Shape, WearMark, Writing } from "./recipe.ts";
import { fingerPit, stringRut } from "./wear.ts";

export type Example = {
  /** File name without its ending. */
  readonly name: string;
  /** Number in the store. */
  readonly number: string;
  readonly title: string;
  readonly story: string;
  /** What an examination should say. */
  readonly decision: string;
  readonly instrument: string;
  readonly recipe: Recipe;
};

const violinShape: Shape = {
  radiusNutMm: 42,
  radiusEndMm: 42,
  radiusSwellMm: 0,
  hollowLowestMm: 0.7,
  hollowHighestMm: 0.5,
  deepestAt: 0.5,
  rollDeg: 0.3,
  twistDeg: 0.1,
  heightMm: 10,
  pitch: 0.002,
  facet: null,
  bendMm: 0,
};
const violaShape: Shape = { ...violinShape, hollowLowestMm: 1, hollowHighestMm: 0.6, rollDeg: -0.4, heightMm: 11 };
const celloShape: Shape = {
  ...violinShape,
  radiusNutMm: 65,
  radiusEndMm: 65,
  hollowLowestMm: 1.5,
  hollowHighestMm: 1,
  rollDeg: 0.5,
  heightMm: 15,
  pitch: -0.001,
};
const bassShape: Shape = {
  ...violinShape,
  radiusNutMm: 80,
  radiusEndMm: 80,
  hollowLowestMm: 2.5,
  hollowHighestMm: 1.5,
  rollDeg: 0.2,
  heightMm: 22,
  pitch: 0.0015,
};

/** Crosslines at the stopped notes of first position, where wear is, then evenly to the end. */
const violinCrosslinesMm = [5, 20, 36, 52, 68, 83, 100, 122, 145, 170, 200, 232, 265];
const violaCrosslinesMm = [5, 22, 41, 59, 77, 94, 125, 160, 195, 235, 288];
const celloCrosslinesMm = [8, 40, 75, 110, 142, 173, 202, 240, 290, 350, 420, 495, 572];
const smallCelloCrosslinesMm = [8, 35, 69, 101, 131, 159, 200, 255, 320, 390, 460, 525];
const bassCrosslinesMm = [10, 60, 115, 167, 216, 270, 340, 430, 540, 690, 840];

const sevenLines = (plan: Plan): string[] =>
  plan.strings.flatMap((string, at) => (at === 0 ? [string] : [`${plan.strings[at - 1]}/${string}`, string]));

const rounds = (crosslinesMm: readonly number[], lines: readonly string[]): Rounds => ({
  crosslinesMm,
  lines,
  edgeInsetMm: 3,
  missing: [],
  repeated: [],
});

const dialGauge: Probe = { tipRadiusMm: 1.5, noiseMm: 0.01, resolutionMm: 0.01 };

/** Settings that every file of the store states: what it is, its plan, its gauge. */
function head(
  instrument: string,
  plan: Plan,
  probe: Probe,
  more: Readonly<Record<string, string>>,
): Writing["settings"] {
  return Object.entries({
    instrument,
    board_length: String(plan.lengthMm),
    width_nut: String(plan.widthNutMm),
    width_end: String(plan.widthEndMm),
    string_length: String(plan.stringLengthMm),
    spacing_nut: String(plan.spacingNutMm),
    spacing_bridge: String(plan.spacingBridgeMm),
    tip_radius: String(probe.tipRadiusMm),
    resolution: String(probe.resolutionMm),
    tension: "on",
    ...more,
  });
}

/** The shape the workshop aims at, as settings: the board's own when it was new. */
function aim(shape: Shape): Record<string, string> {
  return {
    radius_nut: String(shape.radiusNutMm),
    radius_middle: String((shape.radiusNutMm + shape.radiusEndMm) / 2),
    radius_end: String(shape.radiusEndMm),
    hollow_lowest: String(shape.hollowLowestMm),
    hollow_highest: String(shape.hollowHighestMm),
  };
}

const asGrid: Omit<Writing, "settings"> = { file: "grid", separator: ",", decimal: ".", unitMm: 1, decimals: 2 };
const asList: Omit<Writing, "settings"> = { ...asGrid, file: "list" };

/** Finger pits, given as string, semitones above the open string, depth. */
function pits(
  plan: Plan,
  size: { readonly halfLengthMm: number; readonly halfWidthMm: number },
  ...pressed: readonly (readonly [string: string, semitones: number, depthMm: number])[]
): WearMark[] {
  return pressed.map(([string, semitones, depthMm]) => fingerPit(plan, string, semitones, depthMm, size));
}

const violinFinger = { halfLengthMm: 8, halfWidthMm: 4 };
const violaFinger = { halfLengthMm: 9, halfWidthMm: 4.5 };
const celloFinger = { halfLengthMm: 15, halfWidthMm: 6 };
const bassFinger = { halfLengthMm: 24, halfWidthMm: 9 };

const celloWear: WearMark[] = [
  ...pits(
    cello,
    celloFinger,
    ["A", 2, 0.4],
    ["A", 4, 0.28],
    ["A", 5, 0.3],
    ["D", 2, 0.32],
    ["D", 3, 0.22],
    ["D", 5, 0.18],
  ),
  ...pits(cello, celloFinger, ["G", 2, 0.16], ["C", 2, 0.1], ["A", 7, 0.12]),
];

export const store: readonly Example[] = [
  {
    name: "cello-to-dress",
    number: "C-07",
    title: "Cello, ten years in first position",
    story:
      "A cello that beginners have pressed hard in first position: pits under A and D, and plenty of wood to plane.",
    decision: "dress",
    instrument: "cello",
    recipe: {
      seed: 7,
      plan: cello,
      shape: celloShape,
      wear: celloWear,
      rounds: rounds(celloCrosslinesMm, sevenLines(cello)),
      probe: dialGauge,
      wood: {
        bassNutMm: 7.3,
        bassEndMm: 7.6,
        trebleNutMm: 7.2,
        trebleEndMm: 7.4,
        centre: { fromMm: 400, thicknessMm: 9.5 },
        atMm: [10, 110, 220, 330, 440, 560],
        noiseMm: 0.02,
      },
      writing: {
        ...asGrid,
        settings: head("cello", cello, dialGauge, {
          build: "solid",
          rut_width: "3",
          ...aim(celloShape),
          edge_limit: "5.4",
          centre_limit: "6",
        }),
      },
    },
  },
  {
    name: "viola-too-thin",
    number: "A-12",
    title: "Viola, planed once too often",
    story: "A viola whose board has been dressed many times: worn again, and at its limit already.",
    decision: "replace",
    instrument: "viola",
    recipe: {
      seed: 12,
      plan: viola,
      shape: violaShape,
      wear: pits(
        viola,
        violaFinger,
        ["A", 2, 0.38],
        ["A", 3, 0.3],
        ["D", 2, 0.34],
        ["D", 4, 0.25],
        ["G", 2, 0.2],
        ["A", 5, 0.22],
        ["D", 5, 0.2],
      ),
      rounds: rounds(violaCrosslinesMm, sevenLines(viola)),
      probe: dialGauge,
      wood: {
        bassNutMm: 4.3,
        bassEndMm: 4.5,
        trebleNutMm: 4.25,
        trebleEndMm: 4.35,
        centre: null,
        atMm: [10, 60, 120, 180, 240, 285],
        noiseMm: 0.02,
      },
      writing: {
        ...asGrid,
        separator: ";",
        decimal: ",",
        settings: head("viola", viola, dialGauge, {
          build: "solid",
          rut_width: "3",
          ...aim(violaShape),
          edge_limit: "4.3",
        }),
      },
    },
  },
  {
    name: "bass-with-flat",
    number: "B-03",
    title: "Double bass with a flat under the E string",
    story: "A bass with a flat facet on the bass side, which is part of its shape and no wear; worn under G and D.",
    decision: "dress",
    instrument: "bass",
    recipe: {
      seed: 3,
      plan: bass,
      shape: {
        ...bassShape,
        facet: { ridgeNutMm: -9, ridgeEndMm: -22, slopeNut: 0.16, slopeEnd: 0.36 },
      },
      wear: pits(
        bass,
        bassFinger,
        ["G", 2, 0.45],
        ["G", 4, 0.35],
        ["G", 5, 0.28],
        ["D", 2, 0.4],
        ["D", 4, 0.25],
        ["A", 2, 0.2],
      ),
      rounds: rounds(bassCrosslinesMm, ["bass edge", ...sevenLines(bass)]),
      probe: dialGauge,
      wood: {
        bassNutMm: 9.2,
        bassEndMm: 9.6,
        trebleNutMm: 9,
        trebleEndMm: 9.4,
        centre: { fromMm: 600, thicknessMm: 11 },
        atMm: [15, 170, 330, 500, 670, 830],
        noiseMm: 0.02,
      },
      writing: {
        ...asGrid,
        settings: head("bass", bass, dialGauge, {
          build: "solid",
          rut_width: "4",
          ...aim(bassShape),
          edge_inset: "3",
          flat_ridge_nut: "-9",
          flat_ridge_end: "-22",
          edge_limit: "6",
          centre_limit: "7",
        }),
      },
    },
  },
  {
    name: "violin-to-leave",
    number: "V-21",
    title: "Violin, dressed last year",
    story: "A violin that came back from its first year on loan with hardly a trace of wear.",
    decision: "leave",
    instrument: "violin",
    recipe: {
      seed: 21,
      plan: violin,
      shape: violinShape,
      wear: pits(violin, violinFinger, ["A", 2, 0.05], ["A", 4, 0.04], ["D", 2, 0.05], ["E", 2, 0.04]),
      rounds: {
        ...rounds(violinCrosslinesMm, sevenLines(violin)),
        repeated: ["36 A", "36 D", "145 D/A", "200 G", "232 E"],
      },
      probe: dialGauge,
      wood: {
        bassNutMm: 5.1,
        bassEndMm: 5.3,
        trebleNutMm: 5,
        trebleEndMm: 5.2,
        centre: null,
        atMm: [10, 60, 115, 170, 220, 260],
        noiseMm: 0.02,
      },
      writing: {
        ...asList,
        settings: head("violin", violin, dialGauge, {
          build: "solid",
          rut_width: "3",
          ...aim(violinShape),
          edge_limit: "4",
        }),
      },
    },
  },
  {
    name: "violin-too-close",
    number: "V-09",
    title: "Violin, too close to call",
    story: "A worn violin that a dressing would bring so near to its least thickness that the calliper can't tell.",
    decision: "borderline",
    instrument: "violin",
    recipe: {
      seed: 9,
      plan: violin,
      shape: { ...violinShape, rollDeg: -0.5, twistDeg: 0.2 },
      wear: pits(
        violin,
        violinFinger,
        ["A", 2, 0.34],
        ["A", 4, 0.25],
        ["D", 2, 0.28],
        ["D", 4, 0.2],
        ["E", 2, 0.24],
        ["A", 5, 0.2],
      ),
      rounds: rounds(violinCrosslinesMm, sevenLines(violin)),
      probe: dialGauge,
      wood: {
        bassNutMm: 4.45,
        bassEndMm: 4.6,
        trebleNutMm: 4.3,
        trebleEndMm: 4.4,
        centre: null,
        atMm: [10, 60, 115, 170, 220, 260],
        noiseMm: 0.02,
      },
      writing: {
        ...asList,
        unitMm: 0.01,
        decimals: 0,
        settings: head("violin", violin, dialGauge, {
          unit: "0.01mm",
          build: "solid",
          rut_width: "3",
          ...aim(violinShape),
          edge_limit: "4",
        }),
      },
    },
  },
  {
    name: "violin-narrow-ruts",
    number: "V-15",
    title: "Violin, ruts too narrow for the ball",
    story:
      "Steel strings have cut narrow ruts that a ball of 3 mm can't reach the bottom of: what it shows is the least they can be.",
    decision: "undecided",
    instrument: "violin",
    recipe: {
      seed: 15,
      plan: violin,
      shape: { ...violinShape, rollDeg: 0.6 },
      wear: [stringRut(violin, "E", [1, 9], 0.8, 0.3), stringRut(violin, "A", [1, 9], 0.9, 0.28)],
      rounds: rounds(violinCrosslinesMm, sevenLines(violin)),
      probe: dialGauge,
      wood: {
        bassNutMm: 5,
        bassEndMm: 5.2,
        trebleNutMm: 4.9,
        trebleEndMm: 5.1,
        centre: null,
        atMm: [10, 60, 115, 170, 220, 260],
        noiseMm: 0.02,
      },
      writing: {
        ...asGrid,
        settings: head("violin", violin, dialGauge, {
          build: "solid",
          rut_width: "0.8",
          ...aim(violinShape),
          edge_limit: "4",
        }),
      },
    },
  },
  {
    name: "cello-veneered",
    number: "C-11",
    title: "Cello with a veneered board",
    story: "A student cello whose board is a thin ebony veneer over pale wood: worn, but there is nothing to plane.",
    decision: "restorer",
    instrument: "cello",
    recipe: {
      seed: 11,
      plan: cello,
      shape: { ...celloShape, rollDeg: -0.6, twistDeg: -0.2 },
      wear: pits(cello, celloFinger, ["A", 2, 0.36], ["A", 5, 0.24], ["D", 2, 0.3], ["D", 4, 0.2], ["G", 2, 0.2]),
      rounds: { ...rounds(celloCrosslinesMm, sevenLines(cello)), missing: ["202 C/G", "495 C", "572 A", "8 D/A"] },
      probe: dialGauge,
      wood: {
        bassNutMm: 7,
        bassEndMm: 7.2,
        trebleNutMm: 6.9,
        trebleEndMm: 7.1,
        centre: null,
        atMm: [10, 110, 220, 330, 440, 560],
        noiseMm: 0.02,
      },
      writing: {
        ...asList,
        separator: "\t",
        settings: head("cello", cello, dialGauge, { build: "veneered", ...aim(celloShape), edge_limit: "5.4" }),
      },
    },
  },
  {
    name: "cello-bent-neck",
    number: "C-34",
    title: "Small cello with a bent neck",
    story:
      "A three-quarter cello that stood by a radiator: its board is humped lengthwise, so the neck comes before the plane.",
    decision: "cause",
    instrument: "cello 3/4",
    recipe: {
      seed: 34,
      plan: smallCello,
      shape: {
        ...celloShape,
        hollowLowestMm: 1.2,
        hollowHighestMm: 0.9,
        radiusNutMm: 62,
        radiusEndMm: 62,
        bendMm: 1.55,
      },
      wear: pits(smallCello, celloFinger, ["A", 2, 0.12], ["D", 2, 0.1]),
      rounds: { ...rounds(smallCelloCrosslinesMm, sevenLines(smallCello)), missing: ["525 C/G"] },
      probe: dialGauge,
      wood: {
        bassNutMm: 6.8,
        bassEndMm: 7,
        trebleNutMm: 6.8,
        trebleEndMm: 6.9,
        centre: null,
        atMm: [10, 100, 200, 300, 400, 515],
        noiseMm: 0.02,
      },
      writing: {
        ...asGrid,
        unitMm: 0.01,
        decimals: 0,
        settings: head("cello 3/4", smallCello, dialGauge, {
          unit: "0.01mm",
          build: "solid",
          ...aim({ ...celloShape, hollowLowestMm: 1.2, hollowHighestMm: 0.9, radiusNutMm: 62, radiusEndMm: 62 }),
          edge_limit: "5.2",
        }),
      },
    },
  },
  {
    name: "viola-new-board",
    number: "A-05",
    title: "Viola with a new board",
    story: "A viola that was given a new board: it is still as it came from the blank, too round and hardly hollowed.",
    decision: "shape",
    instrument: "viola",
    recipe: {
      seed: 5,
      plan: viola,
      shape: { ...violaShape, radiusNutMm: 39.5, radiusEndMm: 39.5, hollowLowestMm: 0.5, hollowHighestMm: 0.25 },
      wear: [],
      rounds: rounds(violaCrosslinesMm, sevenLines(viola)),
      probe: dialGauge,
      wood: {
        bassNutMm: 6.3,
        bassEndMm: 6.5,
        trebleNutMm: 6.2,
        trebleEndMm: 6.4,
        centre: null,
        atMm: [10, 60, 120, 180, 240, 285],
        noiseMm: 0.02,
      },
      writing: {
        ...asGrid,
        separator: "\t",
        settings: head("viola", viola, dialGauge, {
          build: "solid",
          new_board: "yes",
          ...aim(violaShape),
          edge_limit: "4.3",
        }),
      },
    },
  },
  {
    name: "violin-valuable",
    number: "V-01",
    title: "Violin of value, with an old board",
    story:
      "A valuable old violin that someone left to the orchestra: worn, but no wood goes before a restorer has seen it.",
    decision: "restorer",
    instrument: "violin",
    recipe: {
      seed: 1,
      plan: violin,
      shape: { ...violinShape, rollDeg: 0.7, twistDeg: -0.2, radiusEndMm: 42.5, deepestAt: 0.52 },
      wear: pits(violin, violinFinger, ["A", 2, 0.32], ["A", 4, 0.26], ["D", 2, 0.24], ["E", 2, 0.28], ["E", 4, 0.2]),
      rounds: { ...rounds(violinCrosslinesMm, sevenLines(violin)), missing: ["5 G", "5 E", "265 G"] },
      probe: dialGauge,
      wood: {
        bassNutMm: 4.9,
        bassEndMm: 5,
        trebleNutMm: 4.8,
        trebleEndMm: 4.9,
        centre: null,
        atMm: [10, 60, 115, 170, 220, 260],
        noiseMm: 0.02,
      },
      writing: {
        ...asGrid,
        settings: head("violin", violin, dialGauge, {
          build: "solid",
          valuable: "yes",
          ...aim(violinShape),
          edge_limit: "4",
        }),
      },
    },
  },
  denseCello(),
];

/** 440 readings with a digital probe of 1 mm ball on 22 crosslines and 20 lines that fan out with the board. */
function denseCello(): Example {
  const probe: Probe = { tipRadiusMm: 0.5, noiseMm: 0.01, resolutionMm: 0.001 };
  const crosslinesMm = [8, ...Array.from({ length: 21 }, (_, k) => 21 + 27 * k)];
  const lines = Array.from({ length: 20 }, (_, k) => ({ share: (2 * k) / 19 - 1 }));
  return {
    name: "cello-dense",
    number: "C-02",
    title: "Cello, surveyed with a digital probe",
    story: "A teacher's own cello, read at 440 places with a small ball: every pit shows its outline.",
    decision: "dress",
    instrument: "cello",
    recipe: {
      seed: 2,
      plan: cello,
      shape: { ...celloShape, rollDeg: 0.8, twistDeg: 0.3, deepestAt: 0.49 },
      wear: celloWear,
      rounds: { crosslinesMm, lines, edgeInsetMm: 3, missing: [], repeated: [] },
      probe,
      wood: {
        bassNutMm: 7.4,
        bassEndMm: 7.8,
        trebleNutMm: 7.3,
        trebleEndMm: 7.6,
        centre: { fromMm: 400, thicknessMm: 9.8 },
        atMm: [10, 110, 220, 330, 440, 560],
        noiseMm: 0.02,
      },
      writing: {
        ...asList,
        decimals: 3,
        settings: head("cello", cello, probe, {
          build: "solid",
          rut_width: "3",
          ...aim(celloShape),
          edge_limit: "5.4",
          centre_limit: "6",
        }),
      },
    },
  };
}
