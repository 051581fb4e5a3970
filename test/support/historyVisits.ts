/**
 * Visits made up for tests of history: a date, a depth of wear and its uncertainty, and what else a test needs to say.
 *
 * Dressed from 0.2 mm of wear, edges of at least 4 mm, 0.3 mm spent by a usual dressing. Lengths in mm, `u` expanded.
 */
import type { Findings, HistoryVisit } from "../../server/core/history/history.ts";

export type Said = {
  readonly id?: string;
  /** Null: a survey that found no wear, but for `unseenMm`; "not looked": a quick look. */
  readonly depthMm?: number | null | "not looked";
  readonly u?: number;
  readonly unseenMm?: number;
  readonly atLeast?: boolean;
  readonly edgeMm?: number | null;
  readonly edgeUMm?: number;
  readonly planMm?: number | null;
  readonly work?: HistoryVisit["workDone"];
  readonly after?: string | null;
  readonly hours?: number | null;
  readonly findings?: Partial<Findings>;
};

export function visitOn(date: string, said: Said = {}): HistoryVisit {
  return {
    id: said.id ?? date,
    date,
    hoursPlayed: said.hours ?? null,
    workDone: said.work ?? "none",
    afterVisit: said.after ?? null,
    findings: findingsWith(said),
  };
}

export function findingsWith(said: Said): Findings {
  const { depthMm = null, u = 0.02, unseenMm = 0.03, atLeast = false, edgeMm = null, edgeUMm = 0.05 } = said;
  const isSurvey = depthMm !== "not looked";
  return {
    readings: 77,
    decision: isSurvey ? "leave" : "undecided",
    quickLook: isSurvey ? null : "sound where looked",
    deepest:
      typeof depthMm === "number"
        ? { depthMm: { value: depthMm, u }, atLeast, xMm: 60, yMm: 10, string: "A", note: "B", position: "first" }
        : null,
    unseenMm: isSurvey ? unseenMm : null,
    dressAtMm: 0.2,
    planeOffMm: said.planMm == null ? null : { value: said.planMm, u: 0.03 },
    hollows: { within: 4, of: 4 },
    edge: edgeMm === null ? null : { value: edgeMm, u: edgeUMm, xMm: 100, side: "bass" },
    edgeAfterMm: edgeMm === null || said.planMm == null ? null : { value: edgeMm - said.planMm, u: edgeUMm },
    edgeLimitMm: 4,
    dressingSpendMm: 0.3,
    ...said.findings,
  };
}
