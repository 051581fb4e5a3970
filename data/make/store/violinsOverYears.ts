/**
 * Violins of the store over the years: dressed last year, worn by hours, looked at quickly, half way. Invented.
 */
import type { InstrumentHistory } from "../history.ts";
import { violin } from "../plans.ts";
import type { Look, Recipe } from "../recipe.ts";
import type { Example } from "./example.ts";
import { pits } from "./habits.ts";
import { violinSlack } from "./laidAnew.ts";
import { violinShape } from "./shapes.ts";
import {
  violinFinger,
  violinNarrowRuts,
  violinQuickLook,
  violinToLeave,
  violinTooClose,
  violinValuable,
} from "./violins.ts";

const latestIs = ({ name, number, title, instrument, recipe }: Example) => ({
  example: name,
  number,
  title,
  instrument,
  recipe,
});

const alongTwoStrings: Look = {
  along: ["G", "E"].map((string) => ({ string, atMm: [36, 70, 105, 135, 165, 200, 235] })),
  across: [
    { xMm: 30, atMm: [-9, 0, 9], radiusMm: 42 },
    { xMm: 240, atMm: [-16, 0, 16], radiusMm: 42 },
  ],
  leafMm: 0.05,
};

/** Half way to its next dressing. */
const violinHalfWay: Recipe = {
  ...violinToLeave.recipe,
  seed: 33,
  shape: { ...violinShape, rollDeg: -0.3 },
  wear: pits(violin, violinFinger, ["A", 2, 0.14], ["A", 4, 0.1], ["D", 2, 0.1], ["E", 2, 0.08]),
};

export const violins: readonly InstrumentHistory[] = [
  {
    ...latestIs(violinToLeave),
    wearsBy: "years",
    runs: [
      { from: "2018-01-15", perYearMm: null, edgesMoreMm: 0.36 },
      { from: "2024-09-16", perYearMm: null, edgesMoreMm: 0 },
    ],
    visits: [
      {
        date: "2021-06-07",
        notes: { reason: "Summer check of the loan store.", humidityPercent: 56, decisionTaken: "leave" },
      },
      {
        date: "2024-09-09",
        notes: { reason: "Buzzes on A.", humidityPercent: 57, decisionTaken: "dress", workDone: "dressed" },
      },
      {
        date: "2024-09-16",
        after: "2024-09-09",
        notes: { reason: "Read again after the dressing.", humidityPercent: 56 },
      },
      {
        date: "2025-09-15",
        notes: { reason: "Back from its first year on loan.", humidityPercent: 55, decisionTaken: "leave" },
      },
    ],
  },
  {
    number: "V-33",
    example: null,
    title: "Violin, half way to its next dressing",
    instrument: "violin",
    recipe: violinHalfWay,
    wearsBy: "hours",
    runs: [{ from: "2019-01-07", perYearMm: null, edgesMoreMm: 0 }],
    visits: [
      { date: "2019-01-07", notes: { reason: "Taken into the store, freshly dressed.", humidityPercent: 41 } },
      {
        date: "2021-01-11",
        notes: { reason: "Back from loan.", humidityPercent: 42, hoursPlayed: 610, decisionTaken: "leave" },
      },
      {
        date: "2023-01-09",
        notes: { reason: "Back from loan.", humidityPercent: 40, hoursPlayed: 740, decisionTaken: "leave" },
      },
      {
        date: "2025-01-13",
        notes: { reason: "Back from loan.", humidityPercent: 43, hoursPlayed: 680, decisionTaken: "leave" },
      },
    ],
  },
  {
    ...latestIs(violinTooClose),
    wearsBy: "years",
    runs: [{ from: "2017-10-02", perYearMm: null, edgesMoreMm: 0 }],
    visits: [
      { date: "2020-02-03", notes: { reason: "Back from loan.", humidityPercent: 40, decisionTaken: "leave" } },
      { date: "2022-02-07", notes: { reason: "Back from loan.", humidityPercent: 41, decisionTaken: "wait" } },
      { date: "2024-02-05", notes: { reason: "New strings.", humidityPercent: 42, decisionTaken: "wait" } },
      { date: "2025-10-20", notes: { reason: "Buzzes on A and D.", humidityPercent: 52 } },
    ],
  },
  {
    ...latestIs(violinNarrowRuts),
    wearsBy: "years",
    runs: [{ from: "2018-09-10", perYearMm: null, edgesMoreMm: 0 }],
    visits: [
      { date: "2021-09-13", notes: { reason: "Back from loan.", humidityPercent: 55 } },
      { date: "2023-09-11", notes: { reason: "Back from loan.", humidityPercent: 57 } },
      { date: "2025-09-22", notes: { reason: "Ruts under E and A.", humidityPercent: 54 } },
    ],
  },
  {
    ...latestIs(violinValuable),
    wearsBy: "years",
    runs: [{ from: "2014-05-05", perYearMm: null, edgesMoreMm: 0 }],
    visits: [
      { date: "2019-05-06", notes: { reason: "Taken into the store.", humidityPercent: 51 } },
      { date: "2022-05-09", notes: { reason: "Summer check of the loan store.", humidityPercent: 53 } },
      {
        date: "2025-05-05",
        notes: { reason: "Summer check of the loan store.", humidityPercent: 52, decisionTaken: "restorer" },
      },
    ],
  },
  {
    ...latestIs(violinSlack),
    wearsBy: "years",
    runs: [{ from: "2018-11-12", perYearMm: null, edgesMoreMm: 0 }],
    visits: [
      { date: "2021-11-15", notes: { reason: "Back from loan.", humidityPercent: 46, decisionTaken: "leave" } },
      { date: "2023-11-13", notes: { reason: "Back from loan.", humidityPercent: 45, decisionTaken: "wait" } },
      {
        date: "2025-11-10",
        notes: {
          reason: "Came in without its bridge.",
          rail: "short rail, surveyed",
          humidityPercent: 47,
          decisionTaken: "dress",
        },
      },
    ],
  },
  {
    ...latestIs(violinQuickLook),
    wearsBy: "years",
    runs: [{ from: "2018-09-03", perYearMm: null, edgesMoreMm: 0 }],
    visits: [
      { date: "2022-06-13", notes: { reason: "New strings.", gauge: "feeler gauge" }, look: alongTwoStrings },
      { date: "2024-06-10", notes: { reason: "New strings.", gauge: "feeler gauge" }, look: alongTwoStrings },
      { date: "2025-06-09", notes: { reason: "New strings.", gauge: "feeler gauge" } },
    ],
  },
];
