/**
 * Small files of gaps, each with the rule it stands for and what must come of it: gaps in mm, or exactly these faults.
 *
 * The board is a violin's: 270 long, half-width 12 + x/30. A gap under a straightedge is [line of the file, x, line, gap], under a
 * template [line of the file, x, y, gap, radius]; a fault [line, cell, code].
 */
type ExpectedGaps = {
  readonly straightedge?: readonly (readonly [row: number, xMm: number, line: string | number, gapMm: number])[];
  readonly template?: readonly (readonly [row: number, xMm: number, yMm: number, gapMm: number, radiusMm: number])[];
};

export type GapsCase = { readonly rule: string; readonly text: string } & (
  | { readonly gives: ExpectedGaps }
  | { readonly faults: readonly (readonly [line: number | null, column: number | null, code: string])[] }
);

const straightedge = "line,x,gap\n";
const template = "x,y,gap,template\n";
const both = "line,x,y,gap,template\n";

export const gapsCases: readonly GapsCase[] = [
  {
    rule: "a gap under a straightedge lies along a named line",
    text: `${straightedge}G,100,0.5\nE,135,.35`,
    gives: {
      straightedge: [
        [2, 100, "G", 0.5],
        [3, 135, "E", 0.35],
      ],
    },
  },
  {
    rule: "or along a line of its own y",
    text: `${straightedge}-4.5,100,0.5`,
    gives: { straightedge: [[2, 100, -4.5, 0.5]] },
  },
  {
    rule: "the line may be headed string, and y may stand for it",
    text: "string,x,gap\nG,100,0.5",
    gives: { straightedge: [[2, 100, "G", 0.5]] },
  },
  { rule: "a y will do for a straightedge", text: "x,y,gap\n100,0,0.5", gives: { straightedge: [[2, 100, 0, 0.5]] } },
  {
    rule: "columns come in any order, with a note",
    text: "gap,note,x,line\n0.5,shiny,100,G",
    gives: { straightedge: [[2, 100, "G", 0.5]] },
  },
  {
    rule: "a gap under a template lies at x and y",
    text: `${template}20,-8,0.05,42`,
    gives: { template: [[2, 20, -8, 0.05, 42]] },
  },
  {
    rule: "both kinds stand in one file, row by row",
    text: `${both}G,100,,0.5,\n,20,-8,0.05,42`,
    gives: { straightedge: [[2, 100, "G", 0.5]], template: [[3, 20, -8, 0.05, 42]] },
  },
  {
    rule: "a row may leave off the empty template at its end",
    text: `${both}G,100,,0.5`,
    gives: { straightedge: [[2, 100, "G", 0.5]] },
  },
  {
    rule: "gaps may be in hundredths, and places in inches",
    text: "line,x_in,gap 0.01mm\nG,2,50",
    gives: { straightedge: [[2, 50.8, "G", 0.5]] },
  },
  {
    rule: "the setting unit is for gaps too",
    text: `# unit: thou\n${straightedge}G,100,20`,
    gives: { straightedge: [[3, 100, "G", 0.508]] },
  },
  {
    rule: "a template's radius may be in inches",
    text: "x,y,gap,template_in\n20,0,0.1,1.65",
    gives: { template: [[2, 20, 0, 0.1, 41.91]] },
  },
  {
    rule: "semicolons and decimal commas are fine",
    text: "line;x;gap\nG;100;0,5",
    gives: { straightedge: [[2, 100, "G", 0.5]] },
  },
  {
    rule: "an empty gap is none taken",
    text: `${straightedge}G,100,\nG,120,0.5`,
    gives: { straightedge: [[3, 120, "G", 0.5]] },
  },
  {
    rule: "a gap of 0 is where it touches",
    text: `${straightedge}G,0,0`,
    gives: { straightedge: [[2, 0, "G", 0]] },
  },

  { rule: "gaps without x are told", text: "line,gap\nG,0.5", faults: [[1, null, "column-missing"]] },
  { rule: "gaps with neither line nor y are told", text: "x,gap\n100,0.5", faults: [[1, null, "column-missing"]] },
  {
    rule: "line and y without a template are told",
    text: "line,x,y,gap\nG,100,0,0.5",
    faults: [[1, 1, "y-and-line"]],
  },
  {
    rule: "line and y in one row are told",
    text: `${both}G,100,4,0.5,`,
    faults: [[2, 3, "y-and-line"]],
  },
  { rule: "neither line nor y in a row is told", text: `${both},100,,0.5,`, faults: [[2, 1, "y-missing"]] },
  {
    rule: "heights and gaps in one file are told",
    text: "line,x,gap,height\nG,100,0.5,8",
    faults: [[1, 4, "gaps-and-heights"]],
  },
  { rule: "an unknown column is told", text: "line,x,gap,leaf\nG,100,0.5,7", faults: [[1, 4, "column-unknown"]] },
  { rule: "a set-up has no place in gaps", text: "line,x,gap,setup\nG,100,0.5,1", faults: [[1, 4, "column-unknown"]] },
  { rule: "a second column of gaps is told", text: "line,x,gap,gap\nG,100,0.5,0.5", faults: [[1, 4, "column-twice"]] },
  { rule: "a unit that isn't read here is told", text: "line,x,gap_cm\nG,100,0.05", faults: [[1, 3, "unit-unknown"]] },
  { rule: "an unknown line is told", text: `${straightedge}H,100,0.5`, faults: [[2, 1, "line-unknown"]] },
  { rule: "a gap without its x is told", text: `${straightedge}G,,0.5`, faults: [[2, 2, "x-missing"]] },
  { rule: "a gap that is no number is told", text: `${straightedge}G,100,half`, faults: [[2, 3, "not-a-number"]] },
  { rule: "a negative gap is told", text: `${straightedge}G,100,-0.5`, faults: [[2, 3, "gap-negative"]] },
  { rule: "a gap of more than 10 mm is told", text: `${straightedge}G,100,50`, faults: [[2, 3, "gap-too-big"]] },
  { rule: "a gap beyond the board's end is told", text: `${straightedge}G,300,0.5`, faults: [[2, 2, "off-the-board"]] },
  {
    rule: "a gap outside the outline is told",
    text: `${template}20,20,0.5,42`,
    faults: [[2, 2, "outside-the-outline"]],
  },
  { rule: "a template of 4 mm is told", text: `${template}20,0,0.1,4`, faults: [[2, 4, "template-radius"]] },
  { rule: "a template in letters is told", text: `${template}20,0,0.1,R42`, faults: [[2, 4, "not-a-number"]] },
  {
    rule: "a cell too few is told",
    text: `${straightedge}G,100`,
    faults: [[2, null, "cell-count"]],
  },
  { rule: "a header and no gaps is told", text: straightedge, faults: [[null, null, "no-readings"]] },
  {
    rule: "a column of heights among the rows is a second header",
    text: `${straightedge}G,100,0.5\nx,y,height\n10,0,8`,
    faults: [[3, null, "second-header"]],
  },
  {
    rule: "all faults are told together, in the order of the file",
    text: `${straightedge}H,100,0.5\nG,100,-1\nG,400,0.5`,
    faults: [
      [2, 1, "line-unknown"],
      [3, 3, "gap-negative"],
      [4, 2, "off-the-board"],
    ],
  },
];
