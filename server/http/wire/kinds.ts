/** What the program knows of instruments and settings, for the page's choices: every figure with its origin. Lengths in mm. */
import { type FigureName, figureNames } from "../../core/board/instrument.ts";
import type { TableFigureName } from "../../core/board/instrumentTable.ts";
import { figureSchema } from "./examination.ts";
import { z } from "./schema.ts";

const citedFigure = figureSchema.extend({ cites: z.array(z.string()) });

const tableFigure = citedFigure
  .extend({ alternatives: z.array(citedFigure) })
  .openapi("TableFigure", { description: "A usual dimension or limit, its sources, and what other authorities say." });

const inTable = (name: FigureName): name is TableFigureName => name !== "radiusBandMm" && name !== "hollowBandMm";

const figures = Object.fromEntries(figureNames.filter(inTable).map((name) => [name, tableFigure])) as Record<
  TableFigureName,
  typeof tableFigure
>;

const kindSchema = z.object({
  /** As the setting `instrument` names it. */
  instrument: z.string(),
  kind: z.enum(["violin", "viola", "cello", "bass"]),
  size: z.string(),
  alsoCalled: z.array(z.string()),
  /** The size that is meant where none is said. */
  usual: z.boolean(),
  strings: z.array(z.string()),
  figures: z.object(figures),
  asNew: z.object({ edgeThicknessMm: tableFigure, centreThicknessMm: tableFigure }),
});

const settingSchema = z.object({
  key: z.string(),
  meaning: z.string(),
  takes: z.enum(["length", "lengths", "fraction", "slope", "choice", "yes or no", "names", "instrument", "file"]),
  unit: z.string().nullable(),
  choices: z.array(z.string()).nullable(),
  range: z.tuple([z.number(), z.number()]).nullable(),
  example: z.string(),
  /** The figure of an instrument that it replaces. */
  figure: z.string().nullable(),
});

export const kindsSchema = z
  .object({
    kinds: z.array(kindSchema),
    settings: z.array(settingSchema),
    sources: z.array(z.object({ code: z.string(), title: z.string(), address: z.string().nullable() })),
  })
  .openapi("Kinds");
