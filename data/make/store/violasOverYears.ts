/**
 * Violas of the store over the years: planed once too often, planed by hand, given a new board. Invented.
 */
import type { InstrumentHistory } from "../history.ts";
import { viola } from "../plans.ts";
import type { Example } from "./example.ts";
import { pits } from "./habits.ts";
import { violaShape } from "./shapes.ts";
import { violaFinger, violaHandPlaned, violaNewBoard, violaTooThin } from "./violas.ts";

const latestIs = ({ name, number, title, instrument, recipe }: Example) => ({
  example: name,
  number,
  title,
  instrument,
  recipe,
});

export const violas: readonly InstrumentHistory[] = [
  {
    ...latestIs(violaTooThin),
    wearsBy: "years",
    runs: [
      { from: "2013-09-02", perYearMm: null, edgesMoreMm: 0.78 },
      { from: "2018-01-22", perYearMm: null, edgesMoreMm: 0.4 },
      { from: "2021-08-16", perYearMm: null, edgesMoreMm: 0 },
    ],
    visits: [
      {
        date: "2018-01-15",
        notes: { reason: "Worn under A and D.", humidityPercent: 42, decisionTaken: "dress", workDone: "dressed" },
      },
      {
        date: "2018-01-22",
        after: "2018-01-15",
        notes: { reason: "Read again after the dressing.", humidityPercent: 43 },
      },
      {
        date: "2021-08-09",
        notes: {
          reason: "Worn under A and D again.",
          humidityPercent: 58,
          decisionTaken: "dress",
          workDone: "dressed",
        },
      },
      {
        date: "2021-08-16",
        after: "2021-08-09",
        notes: { reason: "Read again after the dressing.", humidityPercent: 58 },
      },
      {
        date: "2025-05-19",
        notes: { reason: "Worn under A and D once more.", humidityPercent: 50, decisionTaken: "replace" },
      },
    ],
  },
  {
    ...latestIs(violaHandPlaned),
    wearsBy: "years",
    runs: [{ from: "2018-03-05", perYearMm: null, edgesMoreMm: 0 }],
    visits: [
      { date: "2020-10-12", notes: { reason: "Back from loan.", humidityPercent: 52, decisionTaken: "leave" } },
      { date: "2023-03-13", notes: { reason: "Back from loan.", humidityPercent: 44, decisionTaken: "wait" } },
      { date: "2025-10-13", notes: { reason: "Buzzes on A.", humidityPercent: 54, decisionTaken: "dress" } },
    ],
  },
  {
    ...latestIs(violaNewBoard),
    wearsBy: "years",
    earlierWear: pits(viola, violaFinger, ["A", 2, 0.4], ["A", 4, 0.3], ["D", 2, 0.3], ["D", 4, 0.22]),
    runs: [
      { from: "2017-09-04", perYearMm: 0.056, edgesMoreMm: -1.55 },
      { from: "2025-02-03", perYearMm: null, edgesMoreMm: 0 },
    ],
    visits: [
      {
        date: "2022-01-17",
        shape: violaShape,
        notes: { reason: "Back from loan.", humidityPercent: 42, decisionTaken: "wait" },
      },
      {
        date: "2025-01-13",
        shape: violaShape,
        notes: { reason: "Worn under A and D.", humidityPercent: 40, decisionTaken: "replace", workDone: "new board" },
      },
      {
        date: "2025-02-03",
        after: "2025-01-13",
        notes: { reason: "The new board, glued and rough.", humidityPercent: 41, decisionTaken: "shape" },
      },
    ],
  },
];
