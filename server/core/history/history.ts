/**
 * What history says about one instrument: the shared words of this folder, as they leave the core and go over the wire.
 *
 * In (`HistoryVisit`): each visit with what its examination found. Out (`History`): wear and thickness over the years on one
 * scale, how fast it wears, and when it is likely to be due. Lengths in mm; every `u` is expanded (coverage factor 2); dates are
 * calendar days, ISO 8601 ("2026-11-25"). What can't be told yet is said with why, never guessed.
 */
import type { Decision, QuickAnswer, Side } from "../examination.ts";
import type { Quantity } from "../units.ts";

/** An examination brought down to what history needs; small enough to be kept beside every visit. */
export type Findings = {
  readonly readings: number;
  readonly decision: Decision;
  readonly quickLook: QuickAnswer | null;
  /** Null where no worn place was found, or none was looked for (a quick look). */
  readonly deepest: {
    readonly depthMm: Quantity;
    readonly atLeast: boolean;
    readonly xMm: number;
    readonly yMm: number;
    readonly string: string;
    readonly note: string;
    readonly position: string;
  } | null;
  /** Depth of wear that these readings would just not have shown; null where wear was not looked for. */
  readonly unseenMm: number | null;
  readonly dressAtMm: number;
  readonly planeOffMm: Quantity | null;
  /** How many of the hollows that were looked at are within their range; null where none was. */
  readonly hollows: { readonly within: number; readonly of: number } | null;
  /** The thinnest edge reading as it was measured; null where thickness was not. */
  readonly edge: (Quantity & { readonly xMm: number; readonly side: Side }) | null;
  /** The thinnest edge that the plan would leave; null without a plan, or where thickness was not measured. */
  readonly edgeAfterMm: Quantity | null;
  readonly edgeLimitMm: number;
  /** What a dressing usually spends. */
  readonly dressingSpendMm: number;
};

/** What was done at a visit. A dressing, a shaping or a new board ends one run of wear and begins the next. */
export const worksDone = ["none", "dressed", "shaped", "new board", "other"] as const;
export type WorkDone = (typeof worksDone)[number];

export type HistoryVisit = {
  readonly id: string;
  readonly date: string;
  /** Hours played since the visit before; null where nobody knows. */
  readonly hoursPlayed: number | null;
  readonly workDone: WorkDone;
  /** The visit that this one measures again after the work; null for a visit by itself. */
  readonly afterVisit: string | null;
  readonly findings: Findings;
};

/** One point of the wear line. */
export type WearAtVisit = {
  readonly visitId: string;
  readonly date: string;
  /** Years since the first visit. */
  readonly years: number;
  /** 0 with the depth that would just not have shown as its u where no worn place was found. */
  readonly depthMm: Quantity;
  readonly atLeast: boolean;
  /** Which run of wear it belongs to: 0 before the first dressing, then 1, … */
  readonly run: number;
};

export type ThicknessAtVisit = {
  readonly visitId: string;
  readonly date: string;
  readonly years: number;
  readonly edgeMm: Quantity;
  readonly limitMm: number;
};

/** A dressing, a shaping or a new board. */
export type WorkAtVisit = {
  readonly visitId: string;
  readonly date: string;
  readonly years: number;
  readonly work: Exclude<WorkDone, "none" | "other">;
  /** Plane-off depth that the examination named; null where there was no plan. */
  readonly plannedMm: Quantity | null;
  /** Loss of thickness at the thinnest edge that was measured before and after; null where either is missing. */
  readonly takenMm: Quantity | null;
  /** The deepest wear left, measured again after the work; null where it was not. */
  readonly leftMm: Quantity | null;
};

/** Growth of the deepest wear; `interval` holds the true rate about 95 of 100 times. */
export type WearRate =
  | {
      readonly told: "rate";
      readonly mm: number;
      readonly interval: readonly [fromMm: number, toMm: number];
      /** A later rut may go deeper than the tip could reach: it wears at least so fast, and `interval` says nothing of the most. */
      readonly atLeast: boolean;
      readonly visits: number;
      /** What was taken as usual to get there, in a luthier's words ("taken as unworn just after the dressing of …"). */
      readonly assumed: readonly string[];
    }
  | { readonly told: "not yet"; readonly why: string };

/** When something is likely: a range of days; `to` null where it may as well be never or decades off. */
export type When =
  | { readonly told: "range"; readonly from: string; readonly to: string | null; readonly says: string }
  | { readonly told: "reached"; readonly since: string; readonly says: string }
  | { readonly told: "not yet"; readonly why: string };

export type Outlook = {
  /** When the deepest place reaches the depth that calls for a dressing. */
  readonly dressing: When;
  /** When the board is likely at its end: too thin for another dressing that is due. */
  readonly end: When;
};

export type History = {
  readonly wear: readonly WearAtVisit[];
  readonly thickness: readonly ThicknessAtVisit[];
  readonly works: readonly WorkAtVisit[];
  readonly perYear: WearRate;
  /** Per hundred hours played. */
  readonly perHundredHours: WearRate;
  readonly outlook: Outlook;
};
