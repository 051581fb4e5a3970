/**
 * One instrument's history as CSV for a spreadsheet: a row a visit, oldest first.
 *
 * In: visits with their findings. Out: RFC 4180 with harmless cells (see spreadsheetCsv.ts). Lengths in mm to 0.0001; every `u` is
 * expanded (k = 2); a blank is what was not measured, not found or not written down. Days and times ISO 8601.
 */
import type { Findings, WorkDone } from "../core/history/history.ts";
import { type Cell, spreadsheetCsv, tenThousandths } from "./spreadsheetCsv.ts";

export type VisitRow = {
  readonly id: string;
  readonly date: string;
  readonly recordedAt: string;
  readonly reason: string;
  readonly gauge: string;
  readonly rail: string;
  readonly humidityPercent: number | null;
  readonly hoursPlayed: number | null;
  readonly decisionTaken: string | null;
  readonly workDone: WorkDone;
  readonly workNotes: string;
  readonly afterVisit: string | null;
  readonly withdrawn: string | null;
  readonly version: string;
  readonly findings: Findings;
};

const columns: readonly (readonly [name: string, cell: (visit: VisitRow) => Cell])[] = [
  ["date", ({ date }) => date],
  ["reason", ({ reason }) => reason],
  ["readings", ({ findings }) => findings.readings],
  ["deepest_mm", ({ findings }) => tenThousandths(findings.deepest?.depthMm.value)],
  ["deepest_u_mm", ({ findings }) => tenThousandths(findings.deepest?.depthMm.u)],
  ["deepest_at_least", ({ findings }) => yesOrNo(findings.deepest?.atLeast)],
  ["deepest_x_mm", ({ findings }) => tenThousandths(findings.deepest?.xMm)],
  ["deepest_y_mm", ({ findings }) => tenThousandths(findings.deepest?.yMm)],
  ["string", ({ findings }) => findings.deepest?.string ?? null],
  ["note", ({ findings }) => findings.deepest?.note ?? null],
  ["position", ({ findings }) => findings.deepest?.position ?? null],
  ["unseen_mm", ({ findings }) => tenThousandths(findings.unseenMm)],
  ["dress_at_mm", ({ findings }) => tenThousandths(findings.dressAtMm)],
  ["plane_off_mm", ({ findings }) => tenThousandths(findings.planeOffMm?.value)],
  ["plane_off_u_mm", ({ findings }) => tenThousandths(findings.planeOffMm?.u)],
  ["thinnest_edge_mm", ({ findings }) => tenThousandths(findings.edge?.value)],
  ["thinnest_edge_u_mm", ({ findings }) => tenThousandths(findings.edge?.u)],
  ["edge_limit_mm", ({ findings }) => tenThousandths(findings.edgeLimitMm)],
  ["decision", ({ findings }) => findings.quickLook ?? findings.decision],
  ["decision_taken", ({ decisionTaken }) => decisionTaken],
  ["work_done", ({ workDone }) => (workDone === "none" ? null : workDone)],
  ["work_notes", ({ workNotes }) => workNotes],
  ["after_visit", ({ afterVisit }) => afterVisit],
  ["hours_played", ({ hoursPlayed }) => hoursPlayed],
  ["humidity_percent", ({ humidityPercent }) => humidityPercent],
  ["gauge", ({ gauge }) => gauge],
  ["rail", ({ rail }) => rail],
  ["withdrawn", ({ withdrawn }) => withdrawn],
  ["version", ({ version }) => version],
  ["visit", ({ id }) => id],
  ["recorded_at", ({ recordedAt }) => recordedAt],
];

export const visitColumns: readonly string[] = columns.map(([name]) => name);

export function visitCells(visit: VisitRow): readonly Cell[] {
  return columns.map(([, cell]) => cell(visit));
}

/** `visits` oldest first. */
export function instrumentCsv(visits: readonly VisitRow[]): string {
  return spreadsheetCsv(visitColumns, visits.map(visitCells));
}

function yesOrNo(is: boolean | undefined): string | null {
  return is === undefined ? null : is ? "yes" : "no";
}
