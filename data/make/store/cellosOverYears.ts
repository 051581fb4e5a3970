/**
 * Cellos of the store over the years: dressed and worn again, read by hours played, half way to the next dressing. Invented.
 */
import type { InstrumentHistory } from "../history.ts";
import { cello } from "../plans.ts";
import type { Recipe } from "../recipe.ts";
import { celloBentNeck, celloFinger, celloToDress, celloVeneered } from "./cellos.ts";
import { celloDense } from "./denseCello.ts";
import type { Example } from "./example.ts";
import { pits } from "./habits.ts";
import { celloAlongStrings } from "./laidAnew.ts";
import { celloShape } from "./shapes.ts";

const latestIs = ({ name, number, title, instrument, recipe }: Example) => ({
  example: name,
  number,
  title,
  instrument,
  recipe,
});

/** Half way to its next dressing, with wear under three strings. */
const celloHalfWay: Recipe = {
  ...celloToDress.recipe,
  seed: 23,
  shape: { ...celloShape, rollDeg: -0.2 },
  wear: pits(cello, celloFinger, ["A", 2, 0.15], ["A", 4, 0.1], ["D", 2, 0.11], ["G", 2, 0.07]),
};

export const cellos: readonly InstrumentHistory[] = [
  {
    ...latestIs(celloToDress),
    wearsBy: "years",
    runs: [
      { from: "2010-09-01", perYearMm: null, edgesMoreMm: 0.42 },
      { from: "2017-06-26", perYearMm: null, edgesMoreMm: 0 },
    ],
    visits: [
      {
        date: "2017-06-19",
        notes: {
          reason: "Notes in first position don't speak.",
          humidityPercent: 49,
          decisionTaken: "dress",
          workDone: "dressed",
          workNotes: "Planed to one template of 65, scraped, oiled.",
        },
      },
      {
        date: "2017-06-26",
        after: "2017-06-19",
        notes: { reason: "Read again after the dressing.", humidityPercent: 50 },
      },
      { date: "2020-09-14", notes: { reason: "Back from loan.", humidityPercent: 55, decisionTaken: "leave" } },
      { date: "2022-09-12", notes: { reason: "Back from loan.", humidityPercent: 52, decisionTaken: "leave" } },
      { date: "2024-04-08", notes: { reason: "New strings.", humidityPercent: 44, decisionTaken: "wait" } },
      {
        date: "2025-10-06",
        notes: { reason: "Buzzes on A in first position.", humidityPercent: 53, decisionTaken: "dress" },
      },
    ],
  },
  {
    number: "C-23",
    example: null,
    title: "Cello, half way to its next dressing",
    instrument: "cello",
    recipe: celloHalfWay,
    wearsBy: "years",
    runs: [
      { from: "2010-08-30", perYearMm: null, edgesMoreMm: 0.38 },
      { from: "2020-07-06", perYearMm: null, edgesMoreMm: 0 },
    ],
    visits: [
      {
        date: "2020-06-29",
        notes: { reason: "Worn in first position.", humidityPercent: 51, decisionTaken: "dress", workDone: "dressed" },
      },
      {
        date: "2020-07-06",
        after: "2020-06-29",
        notes: { reason: "Read again after the dressing.", humidityPercent: 51 },
      },
      { date: "2022-09-05", notes: { reason: "Back from loan.", humidityPercent: 56, decisionTaken: "leave" } },
      { date: "2024-02-19", notes: { reason: "New bridge.", humidityPercent: 41, decisionTaken: "leave" } },
      {
        date: "2025-09-01",
        notes: { reason: "Summer check of the loan store.", humidityPercent: 57, decisionTaken: "leave" },
      },
    ],
  },
  {
    ...latestIs(celloDense),
    wearsBy: "hours",
    runs: [{ from: "2020-01-13", perYearMm: null, edgesMoreMm: 0 }],
    visits: [
      {
        date: "2020-01-13",
        notes: { reason: "Taken into the store with a new board, freshly shaped.", humidityPercent: 46 },
      },
      { date: "2021-03-15", notes: { reason: "A look in passing.", humidityPercent: 45, hoursPlayed: 820 } },
      {
        date: "2023-02-06",
        notes: { reason: "New strings.", humidityPercent: 43, hoursPlayed: 1370, decisionTaken: "leave" },
      },
      {
        date: "2025-06-16",
        notes: { reason: "Buzzes on A.", humidityPercent: 55, hoursPlayed: 1610, decisionTaken: "dress" },
      },
    ],
  },
  {
    ...latestIs(celloAlongStrings),
    wearsBy: "years",
    runs: [{ from: "2016-02-29", perYearMm: null, edgesMoreMm: 0 }],
    visits: [
      { date: "2019-11-04", notes: { reason: "Back from loan.", humidityPercent: 48, decisionTaken: "leave" } },
      { date: "2022-11-07", notes: { reason: "Back from loan.", humidityPercent: 47, decisionTaken: "wait" } },
      {
        date: "2025-11-03",
        notes: {
          reason: "Read along its strings with the long rail.",
          rail: "long rail",
          humidityPercent: 49,
          decisionTaken: "dress",
        },
      },
    ],
  },
  {
    ...latestIs(celloVeneered),
    wearsBy: "years",
    runs: [{ from: "2015-09-07", perYearMm: null, edgesMoreMm: 0 }],
    visits: [
      { date: "2021-05-10", notes: { reason: "Back from loan.", humidityPercent: 52, decisionTaken: "wait" } },
      { date: "2023-05-15", notes: { reason: "New strings.", humidityPercent: 50, decisionTaken: "wait" } },
      {
        date: "2025-05-12",
        notes: { reason: "Notes under A don't speak.", humidityPercent: 53, decisionTaken: "restorer" },
      },
    ],
  },
  {
    ...latestIs(celloBentNeck),
    wearsBy: "years",
    runs: [{ from: "2019-08-19", perYearMm: null, edgesMoreMm: 0 }],
    visits: [
      {
        date: "2021-09-20",
        shape: { ...celloBentNeck.recipe.shape, bendMm: 0 },
        notes: { reason: "Back from loan.", humidityPercent: 55, decisionTaken: "leave" },
      },
      {
        date: "2023-09-18",
        shape: { ...celloBentNeck.recipe.shape, bendMm: 0 },
        notes: { reason: "Summer check of the loan store.", humidityPercent: 57, decisionTaken: "leave" },
      },
      { date: "2025-02-10", notes: { reason: "Strings too high; it stood by a radiator.", humidityPercent: 31 } },
    ],
  },
];
