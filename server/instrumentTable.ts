/**
 * Reads the table of instruments from data/instruments.json and checks its shape.
 *
 * The file belongs to the program, so a fault in it is a programmer's mistake: it throws with the place that is wrong.
 */
import { readFileSync } from "node:fs";
import { z } from "zod";
import { figureNames } from "./core/board/instrument.ts";
import type { InstrumentTable, TableFigureName } from "./core/board/instrumentTable.ts";

const figure = z.strictObject({
  value: z.number(),
  source: z.enum(["published", "derived", "practice", "memory"]),
  origin: z.string().min(1),
  cites: z.array(z.string()).default([]),
});

const tableFigure = figure.extend({ alternatives: z.array(figure).default([]) });

const tableFigureNames = figureNames.filter(
  (name): name is TableFigureName => name !== "radiusBandMm" && name !== "hollowBandMm",
);

const tableSchema = z.strictObject({
  kinds: z.array(
    z.strictObject({
      kind: z.enum(["violin", "viola", "cello", "bass"]),
      alsoCalled: z.array(z.string()),
      usualSize: z.string(),
      pitches: z.record(z.string(), z.number().int()),
      positions: z.strictObject({
        origin: z.string(),
        named: z.array(z.strictObject({ name: z.string(), fromSemitone: z.number().int().positive() })).min(1),
      }),
      instruments: z
        .array(
          z.strictObject({
            size: z.string(),
            alsoCalled: z.array(z.string()),
            strings: z.array(z.string()).min(3),
            figures: z.record(z.enum(tableFigureNames), tableFigure),
            asNew: z.strictObject({ edgeThicknessMm: tableFigure, centreThicknessMm: tableFigure }),
          }),
        )
        .min(1),
    }),
  ),
  commonPractice: z.array(z.strictObject({ says: z.string(), origin: z.string() })),
  sources: z.array(z.strictObject({ code: z.string(), title: z.string(), address: z.string().nullable() })),
});

export function loadInstrumentTable(): InstrumentTable {
  const file = new URL("../data/instruments.json", import.meta.url);
  return tableSchema.parse(JSON.parse(readFileSync(file, "utf8")));
}
