/**
 * The examination: everything the tool says about one board, as it leaves the core and goes over the wire.
 *
 * Lengths in mm. Every measured quantity is `{ value, u }`, `u` expanded (coverage factor 2).
 * A part that the readings can't carry is null, never a guess.
 */
import type { Instrument } from "./board/instrument.ts";
import type { Quantity } from "./units.ts";

export type Examination = {
  readonly version: string;
  readonly instrument: Instrument;
  readonly readings: ReadingsSummary;
  readonly surface: SurfaceSummary;
  readonly points: readonly Point[];
  readonly deepest: Deepest | null;
  readonly wornPlaces: readonly WornPlace[];
  readonly planing: Planing | null;
  readonly thickness: Thickness | null;
  readonly maps: Maps | null;
  readonly profiles: readonly Profile[];
  readonly sections: readonly Section[];
  readonly verdict: Verdict;
  readonly cautions: readonly string[];
};

export type Purpose = "hollow" | "camber" | "wear" | "planing";

/** Which readings `points` holds: every one; of a scan only what a drawing shows (the most and least worn of each small cell); none. */
export type PointsTold = "all" | "few" | "none";

export type ReadingsSummary = {
  /** Of the file. */
  readonly count: number;
  /** Means of small cells of the board that a scan was brought together to; then they are the points. Null: each reading by itself. */
  readonly condensedTo: number | null;
  readonly pointsTold: PointsTold;
  readonly crosslines: number;
  readonly lines: number;
  readonly setups: number;
  /** Standard deviation of repeated readings of the same place; null without repeats. */
  readonly repeatSdMm: number | null;
  /** How far the gauge drifted, as places read again show; null where none was. */
  readonly drift: {
    /** Readings marked `check` at places read before. */
    readonly checks: number;
    /** From the first reading of a set-up to its last; positive: it reads higher as time goes on. */
    readonly mm: number;
    /** Whether it was more than scatter, and taken out of the readings. */
    readonly corrected: boolean;
  } | null;
  /** The widest rut that could lie under a string between the lines, unread; null where no rut of this board's width could. */
  readonly hiddenRutMm: number | null;
  readonly enoughFor: readonly Purpose[];
};

export type SurfaceSummary = {
  /** Standard deviation of the readings about the unworn surface, where unworn; null where too few tell it. */
  readonly noiseMm: number | null;
  /** Share of the readings that lie on the unworn surface, 0 to 1; null where too few tell it. */
  readonly unwornShare: number | null;
  /** Farthest that the board's long waves (workmanship) lead it off its ideal shape; 0 where none show, null where too few readings tell. */
  readonly formMm: number | null;
  /** Humps of workmanship: where a short straightedge rocks on the unworn surface. */
  readonly humps: readonly HumpUnderString[];
  /** Null where it was not read. */
  readonly camberRadiusMm: {
    readonly nut: Quantity | null;
    readonly middle: Quantity | null;
    readonly end: Quantity | null;
  };
  /** One per string that was looked at, lowest first: all of them in a full survey. */
  readonly hollows: readonly HollowUnderString[];
  readonly twistMm: Quantity | null;
  /** What these readings can't tell of the shape and is taken to be as usual, in a luthier's words. */
  readonly assumed: readonly string[];
};

/** The surface of a full survey: nothing about it is left open. */
export type SurveyedSurface = SurfaceSummary & {
  readonly noiseMm: number;
  readonly unwornShare: number;
  readonly camberRadiusMm: { readonly nut: Quantity; readonly middle: Quantity; readonly end: Quantity };
  readonly twistMm: Quantity;
};

export type HollowState = "within" | "shallow" | "deep" | "humped";

export type HollowUnderString = {
  readonly string: string;
  /** Largest gap under a straightedge laid on the unworn surface along the string; negative: a hump. */
  readonly hollowMm: Quantity;
  /** The same on the readings as they are, wear and all; null where too few readings lie on the path. */
  readonly measuredMm: number | null;
  readonly withinMm: readonly [number, number];
  readonly state: HollowState;
  readonly deepestAtMm: number;
};

/** The highest rise of the unworn surface over a straightedge a third of the board long, slid along under a string. */
export type HumpUnderString = { readonly string: string; readonly xMm: number; readonly heightMm: Quantity };

/** One reading: as given, after compensation, and what it says. In the order of the file. */
export type Point = {
  /** Line of the file. */
  readonly row: number;
  readonly givenXMm: number;
  readonly givenYMm: number;
  readonly xMm: number;
  readonly yMm: number;
  readonly heightMm: number;
  readonly unwornMm: number;
  readonly wearMm: number;
  readonly cutMm: number | null;
};

export type PlaceKind = "string rut" | "finger pit" | "broad wear" | "hump";

/** Where on the board, as a player would say it. */
export type PlaceName = {
  readonly string: string;
  /** Nearest stopped note, e.g. "E" or "B flat". */
  readonly note: string;
  /** Position in which the first finger or its neighbours reach that note, e.g. "first", "half", "thumb". */
  readonly position: string;
};

export type Deepest = PlaceName & {
  readonly depthMm: number;
  readonly u: number;
  readonly xMm: number;
  readonly yMm: number;
  readonly kind: PlaceKind;
  readonly atLeast: boolean;
};

export type WornPlace = PlaceName & {
  readonly kind: PlaceKind;
  /** Depth of the deepest reading in it; for a hump its height. Always positive. */
  readonly depthMm: number;
  readonly u: number;
  readonly atLeast: boolean;
  readonly xMm: readonly [number, number];
  readonly yMm: readonly [number, number];
  readonly areaMm2: number;
  readonly volumeMm3: number;
  /** What this place alone adds to the plane-off depth; null where there is no plan. */
  readonly costMm: number | null;
  readonly readings: number;
};

/** The same all along; the middle halfway between the ends; or as it saves wood. */
export type Arc = "one radius" | "straight taper" | "free";

export type Planing = {
  /** Towards the workshop's shape, or the board's own renewed. */
  readonly aim: "workshop" | "own";
  readonly planeOffMm: Quantity & { readonly ofReadings: number };
  readonly atLeast: boolean;
  readonly meanCutMm: number;
  readonly volumeMm3: number;
  readonly cutAtNutMm: number;
  readonly cutAtEndMm: number;
  /** What the plan keeps small: the deepest cut, or (where that would run out of wood) the loss where the board is thinnest. */
  readonly spares: "deepest cut" | "thinnest place";
  readonly target: {
    readonly radiusMm: { readonly nut: number; readonly middle: number; readonly end: number };
    /** As a straightedge shows it under the lowest and the highest string. */
    readonly hollowMm: { readonly lowest: number; readonly highest: number };
    /** Height of the target against the unworn surface, at x = 0 on the centreline; negative: below. */
    readonly heightMm: number;
    /** Slope of the target against the unworn surface, mm per mm; positive raises the bridge end. */
    readonly pitch: number;
    /** Shift of the crown line against the unworn surface, mm towards treble. */
    readonly crownMm: { readonly nut: number; readonly end: number };
    readonly arc: Arc;
    /** How much deeper the cut would be with one radius all along; null where the bands allow none. */
    readonly oneRadiusCostsMm: number | null;
  };
  /** Where the cut is the deepest, where the target touches the board, and the thin places that a plan is bent for. */
  readonly governedBy: readonly {
    readonly xMm: number;
    readonly yMm: number;
    readonly governs: "depth" | "contact" | "thickness";
  }[];
  /** Bounds that make the cut deeper, the one that costs most first: mm of deepest cut for the first mm more of the setting. */
  readonly boundBy: readonly { readonly setting: string; readonly says: string; readonly savesMmPerMm: number }[];
  /** Where no target leaves enough wood: the least that each bound alone would have to be widened, mm, the likeliest first. */
  readonly widening: readonly { readonly setting: string; readonly says: string; readonly byMm: number }[];
  readonly templates: readonly {
    readonly radiusMm: number;
    readonly planeOffMm: number;
    readonly dressingsLeft: number | null;
  }[];
  /** Depth below the present surface at which plane gives way to scraper and paper. */
  readonly finishAllowanceMm: number;
};

export type Side = "bass" | "treble" | "centre";

export type ThicknessPlace = {
  readonly xMm: number;
  readonly side: Side;
  readonly beforeMm: number;
  /** Null where there is no plan. */
  readonly afterMm: number | null;
  readonly u: number;
  readonly limitMm: number;
};

export type Thickness = {
  /** The thinnest edge reading before planing. */
  readonly before: Quantity & { readonly xMm: number; readonly side: Side };
  /** Thinnest edge after planing (before planing where there is no plan). */
  readonly edgeAfterMm: Quantity;
  readonly centreAfterMm: Quantity | null;
  readonly limitMm: number;
  readonly dressingsLeft: number | null;
  readonly places: readonly ThicknessPlace[];
};

/** A regular grid over the board: rows follow yMm, cells in a row follow xMm; null outside the outline. */
export type Maps = {
  readonly xMm: readonly number[];
  readonly yMm: readonly number[];
  readonly wearMm: readonly (readonly (number | null)[])[];
  readonly cutMm: readonly (readonly (number | null)[])[];
};

/** Heights along one string's path, all in the gauge's frame. */
export type Profile = {
  readonly string: string;
  readonly xMm: readonly number[];
  readonly yMm: readonly number[];
  readonly measuredMm: readonly number[];
  readonly unwornMm: readonly number[];
  readonly targetMm: readonly number[] | null;
  /** A straightedge laid on the measured surface: height of its underside. */
  readonly straightedgeMm: readonly number[];
};

/** Heights across at one crossline. */
export type Section = {
  readonly xMm: number;
  readonly yMm: readonly number[];
  readonly measuredMm: readonly number[];
  readonly unwornMm: readonly number[];
  readonly targetMm: readonly number[] | null;
  /** A template of the target radius laid on the measured surface: height of its underside. */
  readonly templateMm: readonly number[];
  readonly templateRadiusMm: number;
};

export type Decision = "leave" | "dress" | "shape" | "borderline" | "replace" | "undecided" | "restorer" | "cause";

/** One thing that led to the verdict, in words and as a number against its limit. */
export type Reason = {
  readonly code: string;
  readonly says: string;
  readonly valueMm: number | null;
  readonly u: number | null;
  readonly limitMm: number | null;
  /** Where the limit comes from. */
  readonly origin: string | null;
  /** Probability, 0 to 1, that the true value is on the wrong side of the limit (JCGM 106:2012); null where none can be told. */
  readonly probability: number | null;
};

/** A setting or a measurement that would turn the verdict. */
export type Change = {
  /** The setting's key, or what to measure. */
  readonly what: string;
  readonly says: string;
  readonly decision: Decision;
};

/** What a quick look comes to; it never decides about wood. */
export type QuickAnswer = "sound where looked" | "dressing likely" | "survey fully";

/** The one place whose reading would tell most; mm. */
export type NextReading = {
  readonly xMm: number;
  readonly yMm: number;
  readonly what: "height" | "thickness" | "gap";
  readonly says: string;
};

export type Verdict = {
  readonly decision: Decision;
  /** Null for a full survey. */
  readonly quickLook: QuickAnswer | null;
  readonly reasons: readonly Reason[];
  readonly wouldChange: readonly Change[];
  /** Null where nothing is left open. */
  readonly nextReading: NextReading | null;
};
