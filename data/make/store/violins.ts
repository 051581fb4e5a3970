/**
 * Violins of the store: to leave alone, too close to call, ruts too narrow for the ball, of value. All invented.
 */
import { violin } from "../plans.ts";
import { stringRut } from "../wear.ts";
import type { Example } from "./example.ts";
import { aim, asGrid, asList, dialGauge, head, pits, rounds, sevenLines, violinCrosslinesMm } from "./habits.ts";
import { violinShape } from "./shapes.ts";

export const violinFinger = { halfLengthMm: 8, halfWidthMm: 4 };

export const violinToLeave: Example = {
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
};

export const violinTooClose: Example = {
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
      bassNutMm: 4.36,
      bassEndMm: 4.5,
      trebleNutMm: 4.22,
      trebleEndMm: 4.3,
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
};

export const violinNarrowRuts: Example = {
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
};

export const violinValuable: Example = {
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
    shape: { ...violinShape, rollDeg: 0.7, twistDeg: -0.2, radiusEndMm: 42.5, radiusSwellMm: -0.4, deepestAt: 0.52 },
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
};

export const violinQuickLook: Example = {
  name: "violin-quick-look",
  number: "V-30",
  title: "Violin, a quick look with a straightedge",
  story:
    "A violin that came in for new strings: a straightedge along three of them and a template across show a pit within two minutes.",
  decision: "undecided",
  instrument: "violin",
  recipe: {
    seed: 30,
    plan: violin,
    shape: { ...violinShape, rollDeg: 0.2 },
    wear: pits(violin, violinFinger, ["A", 2, 0.45], ["E", 2, 0.3]),
    rounds: rounds([], []),
    probe: dialGauge,
    wood: null,
    writing: {
      ...asList,
      settings: Object.entries({
        instrument: "violin",
        board_length: String(violin.lengthMm),
        resolution: "0.05",
        tension: "on",
        build: "solid",
        ...aim(violinShape),
      }),
    },
    look: {
      along: ["G", "A", "E"].map((string) => ({ string, atMm: [36, 70, 105, 135, 165, 200, 235] })),
      across: [
        { xMm: 30, atMm: [-9, 0, 9], radiusMm: 42 },
        { xMm: 240, atMm: [-16, 0, 16], radiusMm: 42 },
      ],
      leafMm: 0.05,
    },
  },
};
