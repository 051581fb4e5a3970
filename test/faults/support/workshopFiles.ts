/**
 * Good files of the kinds that a bench hands in, to be mangled: lists, grids and gaps, with thickness and rail where one goes with them.
 *
 * Small boards of the loan store, seeded; every separator, both decimals, both units. A quick look by gaps is examined in
 * milliseconds, a survey in tens of them, so the kinds are told apart for whoever mixes them.
 */
import { makeBoard } from "../../../data/make/board.ts";
import type { Line, Recipe, Writing } from "../../../data/make/recipe.ts";
import { gapsFile } from "../../support/quickLookFiles.ts";
import { evenEdges, type Kind, syntheticBoard } from "../../support/syntheticBoards.ts";

export type WorkshopFiles = {
  readonly what: "list" | "grid" | "gaps";
  readonly readings: string;
  readonly thickness: string | null;
  readonly rail: string | null;
};

const kinds: readonly Kind[] = ["violin", "viola", "cello", "bass"];

/** Five lines by seven crosslines: the fewest that are asked for where a survey is wanted. */
function smallRounds({ plan, rounds }: Recipe): Recipe["rounds"] {
  const [lowest, second, third, highest] = plan.strings;
  const lines: Line[] = [lowest!, second!, "centre", third!, highest!];
  const crosslinesMm = [0.03, 0.14, 0.28, 0.43, 0.6, 0.78, 0.97].map((share) => Math.round(share * plan.lengthMm));
  return { ...rounds, crosslinesMm, lines };
}

const writings: readonly Pick<Writing, "file" | "separator" | "decimal" | "unitMm" | "decimals">[] = [
  { file: "list", separator: ",", decimal: ".", unitMm: 1, decimals: 2 },
  { file: "list", separator: ";", decimal: ",", unitMm: 1, decimals: 3 },
  { file: "grid", separator: "\t", decimal: ",", unitMm: 1, decimals: 2 },
  { file: "grid", separator: ",", decimal: ".", unitMm: 0.01, decimals: 0 },
];

const railProfile = "x,error,u\n0,0,0.006\n100,0.03,0.006\n200,0.03,0.006\n400,0.02,0.006\n900,0,0.006\n";

/** Every kind of instrument in every way of writing. */
export const surveys: readonly WorkshopFiles[] = kinds.flatMap((kind, k) =>
  writings.map((writing, w): WorkshopFiles => {
    const usual = syntheticBoard(kind, "7 x 11", 10 * k + w, w % 2 === 0);
    const made = makeBoard({
      ...usual,
      rounds: smallRounds(usual),
      wood: evenEdges(usual.plan, 6.5),
      writing: {
        ...usual.writing,
        ...writing,
        settings: [...usual.writing.settings, ...(writing.unitMm === 1 ? [] : [["unit", "0.01mm"] as const])],
      },
    });
    return {
      what: writing.file,
      readings: made.readingsCsv,
      thickness: w === 3 ? null : made.thicknessCsv,
      rail: w === 1 ? railProfile : null,
    };
  }),
);

export const gapLooks: readonly WorkshopFiles[] = [0.2, 0.5, 0.9, 1.4].map((eGapMm) => ({
  what: "gaps",
  readings: gapsFile(eGapMm),
  thickness: "x,side,thickness\n20,bass,5.1\n20,treble,5.0\n135,bass,5.2\n250,treble,4.9\n",
  rail: null,
}));
