/** An instrument's history as a table: a row a visit, read back by our own reader of CSV. */
import Papa from "papaparse";
import { expect, test } from "vitest";
import { instrumentCsv, type VisitRow } from "../../../server/reports/instrumentCsv.ts";
import { findings, visitNotes } from "../../support/recordsForTests.ts";

function visit(date: string, others: Partial<VisitRow> = {}): VisitRow {
  return {
    ...visitNotes(),
    id: `id of ${date}`,
    date,
    recordedAt: `${date}T09:30:00.000Z`,
    version: "0.1.0",
    findings: findings(0.21494),
    ...others,
  };
}

function rowsOf(csv: string): readonly Record<string, string>[] {
  const { data: rows, errors } = Papa.parse<Record<string, string>>(csv.trimEnd(), { header: true });
  expect(errors).toEqual([]);
  return rows;
}

test("tells date, reason, deepest place, thickness, decision and work of each visit", () => {
  const csv = instrumentCsv([
    visit("2024-05-06"),
    visit("2026-05-04", {
      ...visitNotes({
        reason: 'buzzes, "on D"',
        humidityPercent: 45.5,
        hoursPlayed: 610,
        decisionTaken: "dress",
        workDone: "dressed",
        workNotes: "two lines\nof notes",
        afterVisit: "id of 2024-05-06",
      }),
      findings: findings(0.4, { edge: { value: 5.12345, u: 0.06, xMm: 120, side: "bass" }, decision: "leave" }),
    }),
  ]);
  const [first, second] = rowsOf(csv);
  expect(first).toMatchObject({
    date: "2024-05-06",
    reason: "",
    readings: "91",
    deepest_mm: "0.2149",
    deepest_u_mm: "0.02",
    deepest_at_least: "no",
    string: "D",
    note: "E",
    position: "first",
    thinnest_edge_mm: "",
    edge_limit_mm: "5",
    decision: "dress",
    work_done: "",
  });
  expect(second).toMatchObject({
    reason: 'buzzes, "on D"',
    thinnest_edge_mm: "5.1235",
    thinnest_edge_u_mm: "0.06",
    decision: "leave",
    decision_taken: "dress",
    work_done: "dressed",
    work_notes: "two lines\nof notes",
    after_visit: "id of 2024-05-06",
    hours_played: "610",
    humidity_percent: "45.5",
    recorded_at: "2026-05-04T09:30:00.000Z",
  });
});

test("tells a quick look's answer in the place of a decision, and nothing deepest", () => {
  const [row] = rowsOf(
    instrumentCsv([
      visit("2026-05-04", { findings: findings(0, { quickLook: "survey fully", deepest: null, unseenMm: null }) }),
    ]),
  );
  expect(row).toMatchObject({ decision: "survey fully", deepest_mm: "", deepest_at_least: "", unseen_mm: "" });
});

test("makes a note that begins like a formula harmless, and leaves a place on the bass side a number", () => {
  const bass = findings(0.3);
  const [row] = rowsOf(
    instrumentCsv([
      visit("2026-05-04", {
        reason: "=HYPERLINK(A1)",
        findings: { ...bass, deepest: bass.deepest && { ...bass.deepest, yMm: -8.25 } },
      }),
    ]),
  );
  expect(row).toMatchObject({ reason: "'=HYPERLINK(A1)", deepest_y_mm: "-8.25" });
});
