/**
 * A recipe: everything that makes one invented board, and how the bench went over it. Lengths in mm.
 *
 * x runs from the nut (0) to the bridge end, y across from bass (negative) to treble, z away from the neck.
 */
export type Plan = {
  readonly lengthMm: number;
  readonly widthNutMm: number;
  readonly widthEndMm: number;
  readonly stringLengthMm: number;
  /** Between the outer strings. */
  readonly spacingNutMm: number;
  readonly spacingBridgeMm: number;
  /** Lowest first. */
  readonly strings: readonly string[];
};

/** A board as it left the plane, before anyone played on it. */
export type Shape = {
  readonly radiusNutMm: number;
  readonly radiusEndMm: number;
  /** Departure of the radius half-way from the mean of the two ends. */
  readonly radiusSwellMm: number;
  /** What a straightedge shows under the lowest and the highest string. */
  readonly hollowLowestMm: number;
  readonly hollowHighestMm: number;
  /** Where the hollow is deepest, fraction of the length, 0.45 to 0.55. */
  readonly deepestAt: number;
  /** The whole board rolled about its length, treble side up; and how much more at the bridge end than at the nut. */
  readonly rollDeg: number;
  readonly twistDeg: number;
  /** Height at the nut and rise per mm of length, in the gauge's frame. */
  readonly heightMm: number;
  readonly pitch: number;
  readonly facet: FlatFacet | null;
  /** A bent neck lifts the middle of the board by this much over its ends. */
  readonly bendMm: number;
  /** What the hand plane left on top of it; none where left out. */
  readonly waves?: readonly Wave[];
};

/** One wave along the board; its phase turns by `turnRad` from the bass edge to the treble edge. */
export type Wave = {
  readonly amplitudeMm: number;
  readonly lengthMm: number;
  readonly phaseRad: number;
  readonly turnRad: number;
};

/** Flat on the bass side: y where it begins (negative) and its slope dz/dy (positive falls towards the bass edge). */
export type FlatFacet = {
  readonly ridgeNutMm: number;
  readonly ridgeEndMm: number;
  readonly slopeNut: number;
  readonly slopeEnd: number;
};

/** Missing wood. `depthMm` at its deepest; a negative depth is a hump. */
export type WearMark =
  | {
      readonly mark: "pit";
      readonly xMm: number;
      readonly yMm: number;
      readonly halfLengthMm: number;
      readonly halfWidthMm: number;
      readonly depthMm: number;
    }
  | {
      readonly mark: "rut";
      readonly string: string;
      readonly fromMm: number;
      readonly toMm: number;
      readonly widthMm: number;
      readonly depthMm: number;
    };

/**
 * A line of readings: y in mm; a path by name ("C", "C/G", "bass edge", "treble edge", "centre"); or a line that fans out
 * with the board, as a share of the way from the centreline to the edge line (−1 bass, 1 treble), written as y to 0.01 mm.
 */
export type Line = number | string | { readonly share: number };

export type Rounds = {
  readonly crosslinesMm: readonly number[];
  readonly lines: readonly Line[];
  /** How far inside the edge the edge lines run. */
  readonly edgeInsetMm: number;
  /** Cells the bench left out, and cells it read again, as "crossline line", e.g. "142 C/G"; named twice, read twice more. */
  readonly missing: readonly string[];
  readonly repeated: readonly string[];
  /** Cells read again at the end and marked so, to see whether the gauge drifted. */
  readonly checked?: readonly string[];
  /** Where the rail was laid anew between passes: the passes, in turn. Their cells are read instead of every line at every crossline. */
  readonly setUps?: readonly SetUp[];
};

/** One placing of the rail: what was read from it, and its height and slope along its run against the first. */
export type SetUp = {
  readonly label: string;
  readonly crosslinesMm: readonly number[];
  readonly lines: readonly Line[];
  readonly heightMm: number;
  readonly slope: number;
};

/** What the bench adds to every height, beside noise. */
export type Bench = {
  /** From the first reading to the last the gauge comes to read higher by this. */
  readonly driftMm?: number;
  /** The rail's own bow, and where it was surveyed: the profile goes with the readings. */
  readonly rail?: { readonly bowMm: number; readonly surveyedAtMm: readonly number[]; readonly expandedUMm: number };
  /** Strings slack while measuring: the hollow at pitch less the hollow slack. The recipe's shape is that at pitch. */
  readonly slack?: { readonly lowestMm: number; readonly highestMm: number };
};

/** Gaps instead of heights: a straightedge along strings, a template across at some crosslines. */
export type Look = {
  readonly along: readonly { readonly string: string; readonly atMm: readonly number[] }[];
  readonly across: readonly { readonly xMm: number; readonly atMm: readonly number[]; readonly radiusMm: number }[];
  /** Feeler leaves go in steps of this. */
  readonly leafMm: number;
};

export type Probe = {
  /** 0 is a point. */
  readonly tipRadiusMm: number;
  readonly noiseMm: number;
  readonly resolutionMm: number;
};

/** Edges of the board as planed, and wood over the hollowed underside; calliper noise. */
export type Wood = {
  readonly bassNutMm: number;
  readonly bassEndMm: number;
  readonly trebleNutMm: number;
  readonly trebleEndMm: number;
  /** Wood on the centreline over the hollow, and where the hollow begins; null: not measured. */
  readonly centre: { readonly fromMm: number; readonly thicknessMm: number } | null;
  readonly atMm: readonly number[];
  readonly noiseMm: number;
};

/** How the bench writes its file. */
export type Writing = {
  readonly file: "list" | "grid";
  readonly separator: "," | ";" | "\t";
  readonly decimal: "." | ",";
  /** Unit of the heights, mm. */
  readonly unitMm: 1 | 0.01;
  /** Decimals of a height in that unit. */
  readonly decimals: number;
  /** Settings at the head of the file, in this order. */
  readonly settings: readonly (readonly [key: string, text: string])[];
};

export type Recipe = {
  readonly seed: number;
  readonly plan: Plan;
  readonly shape: Shape;
  readonly wear: readonly WearMark[];
  readonly rounds: Rounds;
  readonly probe: Probe;
  readonly wood: Wood | null;
  readonly writing: Writing;
  readonly bench?: Bench;
  /** A quick look by gaps is all that was taken: no heights. */
  readonly look?: Look;
};
