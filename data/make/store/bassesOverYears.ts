/**
 * The double bass of the store, read three times. Invented.
 */
import type { InstrumentHistory } from "../history.ts";
import { bassWithFlat } from "./basses.ts";

export const basses: readonly InstrumentHistory[] = [
  {
    number: bassWithFlat.number,
    example: bassWithFlat.name,
    title: bassWithFlat.title,
    instrument: bassWithFlat.instrument,
    recipe: bassWithFlat.recipe,
    wearsBy: "years",
    runs: [{ from: "2017-08-21", perYearMm: null, edgesMoreMm: 0 }],
    visits: [
      { date: "2020-09-07", notes: { reason: "Summer check of the loan store.", humidityPercent: 54 } },
      {
        date: "2023-09-04",
        notes: { reason: "Summer check of the loan store.", humidityPercent: 58, decisionTaken: "wait" },
      },
      {
        date: "2025-09-08",
        notes: { reason: "Buzzes on G in first position.", humidityPercent: 51, decisionTaken: "dress" },
      },
    ],
  },
];
