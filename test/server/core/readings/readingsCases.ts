/**
 * Small readings files, each with the rule it stands for and what must come of it: readings in mm, or exactly these faults.
 *
 * The board is a violin's unless the file says otherwise: 270 long, 24 wide at the nut and 42 at the end, so its half-width
 * is 12 + x/30. A reading is [line of the file, x, y or the line's name, height, mark]; a fault [line, cell, code].
 */
import type { Mark } from "../../../../server/core/readings/readings.ts";

export type ExpectedReading = readonly [
  row: number,
  xMm: number,
  across: number | string,
  gaugeMm: number,
  mark?: Mark,
];
export type ExpectedFault = readonly [line: number | null, column: number | null, code: string];

export type ReadingsCase = { readonly rule: string; readonly text: string } & (
  | { readonly gives: readonly ExpectedReading[] }
  | { readonly faults: readonly ExpectedFault[] }
);

const list = "x,y,height\n";
const one: readonly ExpectedReading[] = [[2, 10, -5, 0.45]];

const headers: readonly ReadingsCase[] = [
  {
    rule: "a list gives one reading a row",
    text: `${list}10,-5,0.45\n20,0,1`,
    gives: [
      [2, 10, -5, 0.45],
      [3, 20, 0, 1],
    ],
  },
  { rule: "columns of a list come in any order", text: "height,x,y\n0.45,10,-5", gives: one },
  { rule: "a list may end in a line end", text: `${list}10,-5,0.45\n`, gives: one },
  { rule: "headings don't mind capitals and blanks", text: " X , Y , Height \n10,-5,0.45", gives: one },
  { rule: "headings may name mm with an underscore", text: "x_mm,y_mm,height_mm\n10,-5,0.45", gives: one },
  { rule: "headings may name mm in brackets", text: "x (mm),y [mm],height (mm)\n10,-5,0.45", gives: one },
  {
    rule: "headings may name mm after a stroke, as a quantity over its unit",
    text: "x / mm,y/mm,z / mm\n10,-5,0.45",
    gives: one,
  },
  { rule: "a heading may name inches", text: "x,y,height_in\n10,-5,0.02", gives: [[2, 10, -5, 0.508]] },
  { rule: "a heading may spell inches out", text: "x,y,height (inches)\n10,-5,0.02", gives: [[2, 10, -5, 0.508]] },
  { rule: "a heading may name thou", text: "x,y,height_thou\n10,-5,20", gives: [[2, 10, -5, 0.508]] },
  { rule: "a heading may name hundredths of a millimetre", text: "x,y,height 0.01mm\n10,-5,45", gives: one },
  { rule: "a heading may write hundredths with a decimal comma", text: "x;y;height (0,01 mm)\n10;-5;45", gives: one },
  {
    rule: "places may be in inches while heights are in mm",
    text: "x_in,y_in,height_mm\n1,-0.5,0.45",
    gives: [[2, 25.4, -12.7, 0.45]],
  },
  {
    rule: "crossline, across and reading are other words for x, y and height",
    text: "crossline,across,reading\n10,-5,0.45",
    gives: one,
  },
  { rule: "z is another word for height", text: "x,y,z\n10,-5,0.45", gives: one },
  { rule: "string is another word for line", text: "x,string,height\n10,G,0.45", gives: [[2, 10, "G", 0.45]] },
  { rule: "a note column is read past", text: "x,y,height,note\n10,-5,0.45,shiny here", gives: one },
  {
    rule: "a note may hold the delimiter between quotes",
    text: 'x,y,height,note\n10,-5,0.45,"shiny, here"',
    gives: one,
  },
  { rule: "two remark columns are read past", text: "x,y,height,note,comment\n10,-5,0.45,a,b", gives: one },
  { rule: "headings may stand in quotes", text: '"x","y","height"\n10,-5,0.45', gives: one },
  {
    rule: "a line announcing the delimiter is read past",
    text: "sep=;\nx;y;height\n10;-5;0,45",
    gives: [[3, 10, -5, 0.45]],
  },
  { rule: "empty columns at the header's end are a spreadsheet's", text: "x,y,height,,\n10,-5,0.45,,", gives: one },
  { rule: "a header's end may be emptier than the rows'", text: `${list}10,-5,0.45,,`, gives: one },
  {
    rule: "an unknown column is told, not dropped",
    text: "x,y,height,operator\n10,-5,0.45,7",
    faults: [[1, 4, "column-unknown"]],
  },
  { rule: "a misspelled height is told", text: "x,y,hieght\n10,-5,0.45", faults: [[1, 3, "column-unknown"]] },
  { rule: "a list without heights is told", text: "x,y\n10,-5", faults: [[1, null, "column-missing"]] },
  { rule: "a list without x is told", text: "y,height\n-5,0.45", faults: [[1, null, "column-missing"]] },
  { rule: "a list with neither y nor line is told", text: "x,height\n10,0.45", faults: [[1, null, "column-missing"]] },
  { rule: "a list with y and line is told", text: "x,y,line,height\n10,-5,G,0.45", faults: [[1, 3, "y-and-line"]] },
  { rule: "a second column x is told", text: "x,y,height,x\n10,-5,0.45,10", faults: [[1, 4, "column-twice"]] },
  {
    rule: "height and depth together are told",
    text: "x,y,height,depth\n10,-5,0.45,0.45",
    faults: [[1, 4, "column-twice"]],
  },
  {
    rule: "a nameless column amid a list is told",
    text: "x,,y,height\n10,,-5,0.45",
    faults: [[1, 2, "column-unknown"]],
  },
  { rule: "a unit that isn't read here is told", text: "x_cm,y,height\n1,-5,0.45", faults: [[1, 1, "unit-unknown"]] },
  {
    rule: "micrometres are told",
    text: "x,y,height (µm)\n10,-5,450",
    faults: [[1, 3, "unit-unknown"]],
  },
  {
    rule: "micrometres are told with the Greek letter too",
    text: "x,y,height (\u03bcm)\n10,-5,450",
    faults: [[1, 3, "unit-unknown"]],
  },
  { rule: "rows without a header are told once", text: "10,-5,0.45\n20,-5,0.5", faults: [[1, null, "header-missing"]] },
  {
    rule: "rows of a decimal comma file without a header are told once",
    text: "10;-5;0,45",
    faults: [[1, null, "header-missing"]],
  },
  { rule: "blanks don't separate columns", text: "x y height\n10 -5 0.45", faults: [[1, null, "header-one-column"]] },
  {
    rule: "a setting without # is no header",
    text: "instrument: violin\nx,y,height\n10,-5,0.45",
    faults: [[1, null, "header-one-column"]],
  },
  {
    rule: "a setting in cells, without #, is no header",
    text: "instrument,violin\nx,y,height\n10,-5,0.45",
    faults: [[1, null, "setting-without-hash"]],
  },
  {
    rule: "a thickness file given as readings is told",
    text: "x,side,thickness\n10,bass,4.5",
    faults: [[1, null, "thickness-file"]],
  },
  {
    rule: "a quote left open in the header ends the reading",
    text: 'x,"y,height\n10,-5,0.45',
    faults: [[1, null, "quote-open"]],
  },
];

const grids: readonly ReadingsCase[] = [
  {
    rule: "a grid gives one reading a cell",
    text: "x,-5,0\n10,0.45,0.6\n20,0.5,0.7",
    gives: [
      [2, 10, -5, 0.45],
      [2, 10, 0, 0.6],
      [3, 20, -5, 0.5],
      [3, 20, 0, 0.7],
    ],
  },
  {
    rule: "a grid's lines may be named",
    text: "x,G,D\n10,0.1,0.2",
    gives: [
      [2, 10, "G", 0.1],
      [2, 10, "D", 0.2],
    ],
  },
  {
    rule: "a grid's lines may be named midway and at the edges",
    text: "x,bass edge,G/D,centre,treble edge\n10,0.1,0.2,0.3,0.4",
    gives: [
      [2, 10, "bass edge", 0.1],
      [2, 10, "G/D", 0.2],
      [2, 10, "centre", 0.3],
      [2, 10, "treble edge", 0.4],
    ],
  },
  {
    rule: "a grid's first heading may be anything",
    text: "mm from nut,G,D\n10,0.1,0.2",
    gives: [
      [2, 10, "G", 0.1],
      [2, 10, "D", 0.2],
    ],
  },
  {
    rule: "a grid's first heading may be empty",
    text: ",G,D\n10,0.1,0.2",
    gives: [
      [2, 10, "G", 0.1],
      [2, 10, "D", 0.2],
    ],
  },
  { rule: "a grid's first heading may name the unit of x", text: "x_in,G\n1,0.1", gives: [[2, 25.4, "G", 0.1]] },
  {
    rule: "names and numbers may stand side by side in a grid",
    text: "x,G,0\n10,0.1,0.2",
    gives: [
      [2, 10, "G", 0.1],
      [2, 10, 0, 0.2],
    ],
  },
  {
    rule: "an empty cell of a grid is a missing reading",
    text: "x,G,D\n10,,0.2\n20,0.1,",
    gives: [
      [2, 10, "D", 0.2],
      [3, 20, "G", 0.1],
    ],
  },
  {
    rule: "a crossline without any reading is left out",
    text: "x,G,D\n10,,\n20,0.1,0.2",
    gives: [
      [3, 20, "G", 0.1],
      [3, 20, "D", 0.2],
    ],
  },
  {
    rule: "a grid's row of delimiters alone is blank",
    text: "x,G,D\n,,\n20,0.1,0.2",
    gives: [
      [3, 20, "G", 0.1],
      [3, 20, "D", 0.2],
    ],
  },
  {
    rule: "a crossline read twice gives repeats",
    text: "x,G\n10,0.1\n10,0.12",
    gives: [
      [2, 10, "G", 0.1],
      [3, 10, "G", 0.12],
    ],
  },
  { rule: "a grid of one column is a grid", text: "x,0\n10,0.1", gives: [[2, 10, 0, 0.1]] },
  {
    rule: "a grid takes decimal commas in its header, between semicolons",
    text: "x;-5,5;5,5\n10;0,1;0,2",
    gives: [
      [2, 10, -5.5, 0.1],
      [2, 10, 5.5, 0.2],
    ],
  },
  {
    rule: "a grid's y may have mm behind it",
    text: "x,-5 mm,5mm\n10,0.1,0.2",
    gives: [
      [2, 10, -5, 0.1],
      [2, 10, 5, 0.2],
    ],
  },
  {
    rule: "line names don't mind case",
    text: "x,g,BASS EDGE\n10,0.1,0.2",
    gives: [
      [2, 10, "G", 0.1],
      [2, 10, "bass edge", 0.2],
    ],
  },
  { rule: "a grid's line named twice is told", text: "x,G,D,G\n10,0.1,0.2,0.3", faults: [[1, 4, "column-twice"]] },
  {
    rule: "a grid's line named twice is told, small or capital",
    text: "x,G,g\n10,0.1,0.2",
    faults: [[1, 3, "column-twice"]],
  },
  {
    rule: "a grid's y given twice is told, however written",
    text: "x,5,5.0\n10,0.1,0.2",
    faults: [[1, 3, "column-twice"]],
  },
  {
    rule: "a nameless column amid a grid is told",
    text: "x,G,,D\n10,0.1,,0.2",
    faults: [[1, 3, "column-without-name"]],
  },
  { rule: "a rail's profile is no readings", text: "x,error\n10,0.1", faults: [[1, null, "rail-profile"]] },
  { rule: "a set-up column has no place in a grid", text: "x,G,setup\n10,0.1,1", faults: [[1, 3, "column-unknown"]] },
  {
    rule: "a grid's unknown line is told at its heading, once",
    text: "x,G,B\n10,0.1,0.2\n20,0.1,0.2",
    faults: [[1, 3, "line-unknown"]],
  },
  {
    rule: "a bad number in a grid's header is told there",
    text: "x,G,1O\n10,0.1,0.2",
    faults: [[1, 3, "letter-in-number"]],
  },
  {
    rule: "a grid's line outside the outline is told once, at its first crossline",
    text: "x,0,40\n10,0.1,0.2\n20,0.1,0.2",
    faults: [[2, 3, "outside-the-outline"]],
  },
  {
    rule: "a grid's crossline off the board is told once",
    text: "x,G,D\n271,0.1,0.2",
    faults: [[2, 1, "off-the-board"]],
  },
  { rule: "a crossline without x is told", text: "x,G,D\n,0.1,0.2", faults: [[2, 1, "x-missing"]] },
  { rule: "a grid's row with a cell too few is told", text: "x,G,D\n10,0.1", faults: [[2, null, "cell-count"]] },
  {
    rule: "a grid's row with a cell too many is told",
    text: "x,G,D\n10,0.1,0.2,0.3",
    faults: [[2, null, "cell-count"]],
  },
  { rule: "a reading under an empty heading is told", text: "x,G,\n10,0.1,0.2", faults: [[2, null, "cell-count"]] },
  {
    rule: "a grid turned the wrong way round is told at its names",
    text: "line,10,20\nG,0.1,0.2",
    faults: [
      [1, 2, "column-unknown"],
      [1, 3, "column-unknown"],
    ],
  },
  {
    rule: "every bad cell of a row is told",
    text: "x,G,D\n1O,a,b",
    faults: [
      [2, 1, "letter-in-number"],
      [2, 2, "not-a-number"],
      [2, 3, "not-a-number"],
    ],
  },
];

const delimiters: readonly ReadingsCase[] = [
  { rule: "semicolons may separate", text: "x;y;height\n10;-5;0.45", gives: one },
  { rule: "tabs may separate", text: "x\ty\theight\n10\t-5\t0.45", gives: one },
  { rule: "semicolons let a comma be decimal", text: "x;y;height\n10,0;-5;0,45", gives: one },
  { rule: "tabs let a comma be decimal", text: "x\ty\theight\n10\t-5\t0,45", gives: one },
  {
    rule: "decimal points and commas may mix where neither is in doubt",
    text: "x;y;height\n10.0;-5,0;0,45",
    gives: one,
  },
  { rule: "a decimal comma may lead", text: "x;y;height\n10;-5;,45", gives: one },
  { rule: "three decimals behind a comma are decimals", text: "x;y;height\n10;-5;0,450", gives: one },
  { rule: "numbers may stand in quotes", text: `${list}"10","-5","0.45"`, gives: one },
  { rule: "blanks around cells don't matter", text: `${list}  10 ,\t-5 , 0.45  `, gives: one },
  {
    rule: "a decimal comma between commas is told: twice the cells",
    text: `${list}10,0,-5,0,0,45`,
    faults: [[2, null, "decimal-comma"]],
  },
  { rule: "some decimal commas between commas are told", text: `${list}10,-5,0,45`, faults: [[2, null, "cell-count"]] },
  {
    rule: "a decimal comma in quotes between commas is told",
    text: `${list}10,-5,"0,45"`,
    faults: [[2, 3, "decimal-comma"]],
  },
  {
    rule: "rows with another delimiter than the header's are told",
    text: `${list}10;-5;0.45`,
    faults: [[2, null, "cell-count"]],
  },
  { rule: "a row cut short is told", text: `${list}10,-5,0.45\n20,-5`, faults: [[3, null, "cell-count"]] },
  { rule: "a row with a cell too many is told", text: `${list}10,-5,0.45,7`, faults: [[2, null, "cell-count"]] },
  {
    rule: "a quote left open spoils its own line only",
    text: `${list}10,-5,"0.45\n20,-5,0.5\n30,-5,O.5`,
    faults: [
      [2, null, "quote-open"],
      [4, 3, "letter-in-number"],
    ],
  },
  { rule: "an inch mark is a quote left open", text: `${list}10,-5,0.02"`, faults: [[2, null, "quote-open"]] },
  { rule: "quotes amid a cell are told", text: `${list}10,-5,0."4"5`, faults: [[2, 3, "not-a-number"]] },
  {
    rule: "text behind a closed quote is told, on its line only",
    text: `${list}"10"1,-5,0.45\n20,-5,x`,
    faults: [
      [2, null, "quote-misplaced"],
      [3, 3, "not-a-number"],
    ],
  },
  {
    rule: "quotes that would pair across two lines are told on each",
    text: 'x,y,height,note\n10,-5,a"b,"c\nd",0,0.5,a"b',
    faults: [
      [2, null, "quote-misplaced"],
      [3, 1, "not-a-number"],
    ],
  },
  {
    rule: "a quoted cell that runs over two lines is told on both",
    text: `${list}10,-5,"0\n45"`,
    faults: [
      [2, null, "quote-open"],
      [3, null, "quote-open"],
    ],
  },
  {
    rule: "a line can't be endless",
    text: `${list}10,-5,0.45\n${"9".repeat(100_001)}\n20,-5,x`,
    faults: [
      [3, null, "line-too-long"],
      [4, 3, "not-a-number"],
    ],
  },
  { rule: "a header can't be endless", text: `x,${"G,".repeat(60_000)}\n10,-5`, faults: [[1, null, "line-too-long"]] },
];

const lines: readonly ReadingsCase[] = [
  {
    rule: "blank lines count as lines but hold nothing",
    text: "\n\nx,y,height\n\n10,-5,0.45\n\n",
    gives: [[5, 10, -5, 0.45]],
  },
  { rule: "lines of blanks are blank", text: `${list}   \n10,-5,0.45\n\t\n`, gives: [[3, 10, -5, 0.45]] },
  { rule: "rows of delimiters alone are blank", text: `${list},,\n10,-5,0.45\n,,,,`, gives: [[3, 10, -5, 0.45]] },
  { rule: "lines may end with CR LF", text: "x,y,height\r\n10,-5,0.45\r\n", gives: one },
  { rule: "lines may end with CR alone", text: "x,y,height\r10,-5,0.45\r", gives: one },
  {
    rule: "line ends may mix, each counting one line",
    text: "\r\n\n\rx,y,height\r\n10,-5,0.45",
    gives: [[5, 10, -5, 0.45]],
  },
  { rule: "a byte order mark is dropped", text: "\uFEFFx,y,height\n10,-5,0.45", gives: one },
  {
    rule: "# begins a remark above the header",
    text: `# loan store, spring\n${list}10,-5,0.45`,
    gives: [[3, 10, -5, 0.45]],
  },
  { rule: "# begins a remark among the rows", text: `${list}# second pass\n10,-5,0.45`, gives: [[3, 10, -5, 0.45]] },
  {
    rule: "a remark may hold an odd quote",
    text: `# 1/2" wide\n${list}# 3" more\n10,-5,0.45`,
    gives: [[4, 10, -5, 0.45]],
  },
  { rule: "a time in a remark is no setting", text: `# begun at 10:30\n${list}10,-5,0.45`, gives: [[3, 10, -5, 0.45]] },
  {
    rule: "an address in a remark is no setting",
    text: `# https://example.org\n${list}10,-5,0.45`,
    gives: [[3, 10, -5, 0.45]],
  },
  {
    rule: "a remark that isn't UTF-8 does no harm",
    text: `# pr\uFFFDfer\n${list}10,-5,0.45`,
    gives: [[3, 10, -5, 0.45]],
  },
  { rule: "an empty file is told", text: "", faults: [[null, null, "empty-file"]] },
  { rule: "a file of blank lines is empty", text: "\n \n\t\n", faults: [[null, null, "empty-file"]] },
  { rule: "a byte order mark alone is empty", text: "\uFEFF", faults: [[null, null, "empty-file"]] },
  { rule: "settings alone are told", text: "# instrument: violin\n# unit: mm", faults: [[null, null, "empty-file"]] },
  { rule: "a header alone is told", text: "x,y,height\n", faults: [[null, null, "no-readings"]] },
  { rule: "rows without any height are told", text: `${list}10,-5,\n20,-5,`, faults: [[null, null, "no-readings"]] },
  {
    rule: "an empty grid, as printed for the bench, is told",
    text: "x,G,D\n10,,\n20,,",
    faults: [[null, null, "no-readings"]],
  },
  {
    rule: "the same header again is told, and reading goes on",
    text: `${list}10,-5,0.45\nx,y,height\n20,-5,a`,
    faults: [
      [3, null, "second-header"],
      [4, 3, "not-a-number"],
    ],
  },
  {
    rule: "another header among the rows ends the reading",
    text: `${list}10,-5,0.45\nx,line,height\n20,G,a`,
    faults: [[3, null, "second-header"]],
  },
  {
    rule: "another grid's header ends the reading",
    text: "x,G,D\n10,0.1,0.2\nx,A,E\n10,a,b",
    faults: [[3, null, "second-header"]],
  },
];

const settings: readonly ReadingsCase[] = [
  {
    rule: "heights may be set to hundredths of a millimetre",
    text: `# unit: 0.01mm\n${list}10,-5,45`,
    gives: [[3, 10, -5, 0.45]],
  },
  { rule: "heights may be set to thou", text: `# unit: thou\n${list}10,-5,20`, gives: [[3, 10, -5, 0.508]] },
  { rule: "heights may be set to inches", text: `# unit: in\n${list}10,-5,0.02`, gives: [[3, 10, -5, 0.508]] },
  {
    rule: "places may be set to inches",
    text: `# place_unit: in\n${list}1,-0.5,0.45`,
    gives: [[3, 25.4, -12.7, 0.45]],
  },
  {
    rule: "the place unit holds for a line given as y",
    text: "# place_unit: in\nx,line,height\n1,-0.5,0.45",
    gives: [[3, 25.4, -12.7, 0.45]],
  },
  {
    rule: "the place unit holds for a grid's lines",
    text: "# place_unit: in\nx,-0.5\n1,0.45",
    gives: [[3, 25.4, -12.7, 0.45]],
  },
  { rule: "a depth is a height turned round", text: `# reads: depth\n${list}10,-5,0.45`, gives: [[3, 10, -5, -0.45]] },
  { rule: "a depth of nought is a height of nought", text: `# reads: depth\n${list}10,-5,0`, gives: [[3, 10, -5, 0]] },
  {
    rule: "depth may be said in the heading too",
    text: "# reads: depth\nx,y,depth\n10,-5,0.45",
    gives: [[3, 10, -5, -0.45]],
  },
  {
    rule: "keys don't mind capitals, blanks and hyphens",
    text: `# Place Unit: in\n${list}1,-0.5,0.45`,
    gives: [[3, 25.4, -12.7, 0.45]],
  },
  {
    rule: "a spreadsheet may trail its delimiters behind a setting",
    text: `# unit: 0.01mm,,\n${list}10,-5,45`,
    gives: [[3, 10, -5, 0.45]],
  },
  {
    rule: "a spreadsheet may put a setting in quotes",
    text: `"# strings: G, D, A, E",,\n${list}10,-5,0.45`,
    gives: [[3, 10, -5, 0.45]],
  },
  {
    rule: "the instrument decides where the lines run",
    text: "# instrument: cello\nx,C,C/G\n100,0.1,0.2",
    gives: [
      [3, 100, "C", 0.1],
      [3, 100, "C/G", 0.2],
    ],
  },
  {
    rule: "the instrument decides how long the board is",
    text: `# instrument: cello\n${list}500,-5,0.45`,
    gives: [[3, 500, -5, 0.45]],
  },
  {
    rule: "a given board length counts",
    text: `# board_length: 265\n${list}268,-5,0.45`,
    faults: [[3, 1, "off-the-board"]],
  },
  {
    rule: "a setting that agrees with the heading is fine",
    text: "# unit: in\nx,y,height_in\n10,-5,0.02",
    gives: [[3, 10, -5, 0.508]],
  },
  {
    rule: "a setting that contradicts the heading is told",
    text: "# unit: thou\nx,y,height_in\n10,-5,0.02",
    faults: [[2, 3, "unit-contradicts"]],
  },
  {
    rule: "mm in the settings contradicts inches in the heading",
    text: "# unit: mm\nx,y,height_in\n10,-5,0.02",
    faults: [[2, 3, "unit-contradicts"]],
  },
  {
    rule: "a setting contradicts the heading however its key is spelled",
    text: "# Unit : mm\nx,y,height_in\n10,-5,0.02",
    faults: [[2, 3, "unit-contradicts"]],
  },
  {
    rule: "a place unit that contradicts both headings is told twice",
    text: "# place_unit: in\nx_mm,y_mm,height\n1,-0.5,0.45",
    faults: [
      [2, 1, "unit-contradicts"],
      [2, 2, "unit-contradicts"],
    ],
  },
  { rule: "a column of depths needs its setting", text: "x,y,depth\n10,-5,0.45", faults: [[1, 3, "depth-column"]] },
  {
    rule: "a setting under the header is told, since it would not be heeded",
    text: `${list}# unit: in\n10,-5,0.02`,
    faults: [[2, null, "setting-after-header"]],
  },
  {
    rule: "a remark with a colon under the header is a remark",
    text: `${list}# second pass: strings off\n10,-5,0.45`,
    gives: [[3, 10, -5, 0.45]],
  },
];

/** A cell that must be read as 0.45, in a list whose cells commas or semicolons separate. */
const fortyFive: readonly (readonly [rule: string, cell: string, delimiter: "," | ";"])[] = [
  ["a number may begin with its point", ".45", ","],
  ["a number may have a plus", "+0.45", ","],
  ["a number may have noughts behind it", "0.4500", ","],
  ["a number may have noughts before it", "00.45", ","],
  ["a number may have an exponent", "4.5e-1", ","],
  ["a number may have a capital exponent", "45E-2", ","],
  ["a number may have a decimal comma and an exponent", "4,5e-1", ";"],
  ["a number may have mm behind it", "0.45 mm", ","],
  ["mm may stand close behind the number", "0.45mm", ","],
  ["mm may stand in capitals", "0.45 MM", ","],
  ["mm may stand behind a decimal comma", "0,45 mm", ";"],
];

/** A cell that is no number, and the code that says why. */
const noNumbers: readonly (readonly [rule: string, cell: string, code: string])[] = [
  ["a letter O is no nought", "O.45", "letter-in-number"],
  ["a letter l is no one", "0.l5", "letter-in-number"],
  ["NaN is no number", "NaN", "not-a-number"],
  ["infinity is no number", "Infinity", "not-a-number"],
  ["minus infinity is no number", "-inf", "not-a-number"],
  ["n/a is no number", "n/a", "not-a-number"],
  ["a spreadsheet's error is no number", "#VALUE!", "not-a-number"],
  ["a dash is no number", "-", "not-a-number"],
  ["a word is no number", "worn", "not-a-number"],
  ["two numbers are no number", "0.45 0.46", "not-a-number"],
  ["two points are no number", "0.4.5", "not-a-number"],
  ["two signs are no number", "--0.45", "not-a-number"],
  ["a sign behind is no number", "0.45-", "not-a-number"],
  ["a hexadecimal is no number", "0x1F", "not-a-number"],
  ["an exponent alone is no number", "e5", "not-a-number"],
  ["a broken exponent is no number", "4e", "not-a-number"],
  ["a fraction is no number", "1/2", "not-a-number"],
  ["a mixed fraction is no number", "3 1/2", "not-a-number"],
  ["a per cent is no number", "45%", "not-a-number"],
  ["a formula is no number", "=A1+1", "not-a-number"],
  ["a control character is no number", "\u00070.45", "not-a-number"],
  ["digits of another script are no number", "٠٫٤٥", "not-a-number"],
  ["an apostrophe between thousands is told", "1'234.5", "thousands-separator"],
  ["a blank between thousands is told", "1 234", "thousands-separator"],
  ["a hard blank between thousands is told", "1\u00A0234", "thousands-separator"],
  ["inches behind a number are told", "0.02 in", "unit-in-cell"],
  ["micrometres behind a number are told", "450 µm", "unit-in-cell"],
  ["thou behind a number are told", "20 thou", "unit-in-cell"],
  ["a date is told", "01.05.2026", "date-in-cell"],
  ["a date in ISO order is told", "2026-05-01", "date-in-cell"],
  ["a day and month are told", "1-May", "date-in-cell"],
  ["a number beyond all numbers is told", "1e999", "number-too-big"],
  ["a cell that isn't UTF-8 is told", "0\uFFFD45", "not-utf8"],
];

const numbers: readonly ReadingsCase[] = [
  ...fortyFive.map(([rule, cell, delimiter]) => ({
    rule,
    text: ["x", "y", "height\n10", "-5", cell].join(delimiter),
    gives: one,
  })),
  ...noNumbers.map(
    ([rule, cell, code]): ReadingsCase => ({ rule, text: `${list}10,-5,${cell}`, faults: [[2, 3, code]] }),
  ),
  { rule: "a printed minus sign is a minus", text: `${list}10,\u22125,0.45`, gives: one },
  { rule: "a dash before a number is a minus", text: `${list}10,\u20135,0.45`, gives: one },
  { rule: "minus nought is nought", text: `${list}10,-0,0.45`, gives: [[2, 10, 0, 0.45]] },
  {
    rule: "two thousands marks are told",
    text: "x;y;height\n10;-5;1,234,567",
    faults: [[2, 3, "thousands-separator"]],
  },
  {
    rule: "a point between thousands before a decimal comma is told",
    text: "x;y;height\n10;-5;1.234,5",
    faults: [[2, 3, "thousands-separator"]],
  },
  {
    rule: "mm behind a number contradicts a file in inches",
    text: `# unit: in\n${list}10,-5,0.45 mm`,
    faults: [[3, 3, "unit-in-cell"]],
  },
  {
    rule: "mm behind an x contradicts places in inches",
    text: `# place_unit: in\n${list}1 mm,-0.5,0.45`,
    faults: [[3, 1, "unit-in-cell"]],
  },
  {
    rule: "mm behind a grid's y contradicts places in inches",
    text: "# place_unit: in\nx,-0.5 mm\n1,0.45",
    faults: [[2, 2, "unit-in-cell"]],
  },
  {
    rule: "a bad x and a bad height of one row are both told",
    text: `${list}1O,-5,a`,
    faults: [
      [2, 1, "letter-in-number"],
      [2, 3, "not-a-number"],
    ],
  },
  {
    rule: "a line's name under y is told",
    text: `${list}10,G,0.45\n20,A/E,0.45`,
    faults: [
      [2, 2, "name-for-y"],
      [3, 2, "name-for-y"],
    ],
  },
  { rule: "a bad y is told", text: `${list}10,left,0.45`, faults: [[2, 2, "not-a-number"]] },
];

const lists: readonly ReadingsCase[] = [
  {
    rule: "a row without a height is a missing reading",
    text: `${list}10,-5,\n20,-5,0.45`,
    gives: [[3, 20, -5, 0.45]],
  },
  {
    rule: "the same place twice is a repeat",
    text: `${list}10,-5,0.45\n10,-5,0.46`,
    gives: [
      [2, 10, -5, 0.45],
      [3, 10, -5, 0.46],
    ],
  },
  { rule: "a height without x is told", text: `${list},-5,0.45`, faults: [[2, 1, "x-missing"]] },
  { rule: "a height without y is told", text: `${list}10,,0.45`, faults: [[2, 2, "y-missing"]] },
  { rule: "a height without a line is told", text: "x,line,height\n10,,0.45", faults: [[2, 2, "y-missing"]] },
  { rule: "a line may be a y", text: "x,line,height\n10,-5,0.45", gives: one },
  { rule: "a line may be a string", text: "x,line,height\n10,E,0.45", gives: [[2, 10, "E", 0.45]] },
  { rule: "a line may be midway between strings", text: "x,line,height\n10,A/E,0.45", gives: [[2, 10, "A/E", 0.45]] },
  {
    rule: "a line named across more blanks is the same line",
    text: "x,line,height\n10,bass   edge,0.45",
    gives: [[2, 10, "bass edge", 0.45]],
  },
  {
    rule: "an unknown line is told once, where it first stands",
    text: "x,line,height\n10,G,0.4\n20,H,0.4\n30,H,0.4",
    faults: [[3, 2, "line-unknown"]],
  },
  {
    rule: "a line that begins like a number must be one",
    text: "x,line,height\n10,5x,0.45",
    faults: [[2, 2, "not-a-number"]],
  },
  {
    rule: "a mark may say that the lowest near the place was sought",
    text: "x,y,height,mark\n10,-5,0.45,lowest near here",
    gives: [[2, 10, -5, 0.45, "lowest"]],
  },
  {
    rule: "a mark doesn't mind capitals and blanks",
    text: "x,y,height,mark\n10,-5,0.45, Lowest  near here ",
    gives: [[2, 10, -5, 0.45, "lowest"]],
  },
  {
    rule: "a mark may say that the place was read again as a check",
    text: "x,y,height,mark\n10,-5,0.45,check\n20,-5,0.5,",
    gives: [
      [2, 10, -5, 0.45, "check"],
      [3, 20, -5, 0.5],
    ],
  },
  { rule: "a mark may be left off with its delimiter", text: "x,y,height,mark\n10,-5,0.45", gives: one },
  { rule: "an unknown mark is told", text: "x,y,height,mark\n10,-5,0.45,pit", faults: [[2, 4, "mark-unknown"]] },
  {
    rule: "one set-up throughout is fine",
    text: "x,y,height,setup\n10,-5,0.45,1\n20,-5,0.5,1",
    gives: [
      [2, 10, -5, 0.45],
      [3, 20, -5, 0.5],
    ],
  },
  { rule: "an unnamed set-up throughout is fine", text: "x,y,height,set-up\n10,-5,0.45,", gives: one },
  {
    rule: "several set-ups are fine",
    text: "x,y,height,setup\n10,-5,0.45,G rail\n20,-5,0.5,D rail\n30,-5,0.55,G rail",
    gives: [
      [2, 10, -5, 0.45],
      [3, 20, -5, 0.5],
      [4, 30, -5, 0.55],
    ],
  },
  {
    rule: "a label for each of hundreds of readings is told once",
    text: `x,y,height,setup\n${Array.from({ length: 300 }, (_, i) => `10,-5,0.45,${i}`).join("\n")}`,
    faults: [[202, 4, "too-many-setups"]],
  },
  {
    rule: "a row without a set-up among rows with one is told once",
    text: "x,y,height,setup\n10,-5,0.45,1\n20,-5,0.5,\n30,-5,0.5,",
    faults: [[3, 4, "setup-missing"]],
  },
  {
    rule: "a label that comes after rows without one is told",
    text: "x,y,height,setup\n10,-5,0.45,\n20,-5,0.5,1",
    faults: [[3, 4, "setup-missing"]],
  },
];

const places: readonly ReadingsCase[] = [
  { rule: "the nut is on the board", text: `${list}0,0,0.45`, gives: [[2, 0, 0, 0.45]] },
  { rule: "the board's end is on the board", text: `${list}270,0,0.45`, gives: [[2, 270, 0, 0.45]] },
  { rule: "half a millimetre past the end is let pass", text: `${list}270.5,0,0.45`, gives: [[2, 270.5, 0, 0.45]] },
  { rule: "past the end is off the board", text: `${list}270.6,0,0.45`, faults: [[2, 1, "off-the-board"]] },
  { rule: "behind the nut is off the board", text: `${list}-1,0,0.45`, faults: [[2, 1, "off-the-board"]] },
  {
    rule: "the edge is on the board",
    text: `${list}30,-13,0.45\n30,13,0.45`,
    gives: [
      [2, 30, -13, 0.45],
      [3, 30, 13, 0.45],
    ],
  },
  { rule: "half a millimetre past the edge is let pass", text: `${list}30,13.5,0.45`, gives: [[2, 30, 13.5, 0.45]] },
  {
    rule: "past the treble edge is outside the outline",
    text: `${list}30,13.6,0.45`,
    faults: [[2, 2, "outside-the-outline"]],
  },
  {
    rule: "past the bass edge is outside the outline",
    text: `${list}30,-13.6,0.45`,
    faults: [[2, 2, "outside-the-outline"]],
  },
  { rule: "the outline widens towards the end", text: `${list}270,-21,0.45`, gives: [[2, 270, -21, 0.45]] },
  { rule: "a height may be 200 mm", text: `${list}10,0,200`, gives: [[2, 10, 0, 200]] },
  { rule: "a height over 200 mm asks for the unit", text: `${list}10,0,201`, faults: [[2, 3, "height-too-big"]] },
  {
    rule: "a depth over 200 mm asks for the unit",
    text: `# reads: depth\n${list}10,0,-201`,
    faults: [[3, 3, "height-too-big"]],
  },
  { rule: "an absurd height is told", text: `${list}10,0,1e308`, faults: [[2, 3, "height-too-big"]] },
  { rule: "a height in inches is judged in mm", text: `# unit: in\n${list}10,0,8`, faults: [[3, 3, "height-too-big"]] },
  { rule: "an absurd x is told", text: `${list}1e300,0,0.45`, faults: [[2, 1, "off-the-board"]] },
  {
    rule: "a lost decimal point is told at its cell",
    text: `${list}10,0,0.45\n20,0,46\n30,0,0.47`,
    faults: [[3, 3, "typing-slip"]],
  },
  {
    rule: "a lost decimal point is told in a grid",
    text: "x,G,D\n10,0.4,0.4\n20,0.4,45\n30,0.4,0.5",
    faults: [[3, 3, "typing-slip"]],
  },
  {
    rule: "a lost decimal point is found in whatever order the rows stand",
    text: `${list}10,0,0.45\n30,0,0.47\n20,0,46`,
    faults: [[4, 3, "typing-slip"]],
  },
  {
    rule: "a lost decimal point is told at the nut end of a line",
    text: `${list}10,0,45\n20,0,0.46\n30,0,0.47\n40,0,0.5`,
    faults: [[2, 3, "typing-slip"]],
  },
  {
    rule: "a lost decimal point is told at the bridge end of a line",
    text: `${list}10,0,0.45\n20,0,0.46\n30,0,0.47\n40,0,50`,
    faults: [[5, 3, "typing-slip"]],
  },
  {
    rule: "with few others to compare, a step at a line's end is left alone",
    text: `${list}10,0,45\n20,0,0.46\n30,0,0.47`,
    gives: [
      [2, 10, 0, 45],
      [3, 20, 0, 0.46],
      [4, 30, 0, 0.47],
    ],
  },
  {
    rule: "on a steep line, a step at its end is left alone",
    text: `${list}10,0,0\n20,0,11\n30,0,16\n40,0,21`,
    gives: [
      [2, 10, 0, 0],
      [3, 20, 0, 11],
      [4, 30, 0, 16],
      [5, 40, 0, 21],
    ],
  },
  {
    rule: "a steep pitch is no slip",
    text: `${list}10,0,0\n20,0,15\n30,0,30`,
    gives: [
      [2, 10, 0, 0],
      [3, 20, 0, 15],
      [4, 30, 0, 30],
    ],
  },
  {
    rule: "a doubtful height is left to the fit",
    text: `${list}10,0,0.45\n20,0,4.6\n30,0,0.47`,
    gives: [
      [2, 10, 0, 0.45],
      [3, 20, 0, 4.6],
      [4, 30, 0, 0.47],
    ],
  },
  {
    rule: "faults of text and of place are told together, in the order of the file",
    text: `${list}10,30,0.45\n20,0,a\n300,0,0.5`,
    faults: [
      [2, 2, "outside-the-outline"],
      [3, 3, "not-a-number"],
      [4, 1, "off-the-board"],
    ],
  },
  { rule: "a spreadsheet workbook is told", text: "PK\u0003\u0004\u0014\nx,y", faults: [[null, null, "not-text"]] },
  { rule: "a PDF is told", text: "%PDF-1.7\n10,0,0", faults: [[null, null, "not-text"]] },
  {
    rule: "a NUL byte is told at its line, alone",
    text: `${list}10,a,0.45\n20,\u00005,0.4\n`,
    faults: [[3, null, "not-text"]],
  },
];

export const readingsCases: readonly ReadingsCase[] = [
  ...headers,
  ...grids,
  ...delimiters,
  ...lines,
  ...settings,
  ...numbers,
  ...lists,
  ...places,
];
