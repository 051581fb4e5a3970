/**
 * The table of settings: every key that a workshop may write, what it means, what it takes.
 *
 * One table serves the reader of settings, the help text, the form and the faults. Lengths in mm whatever `unit` says:
 * `unit` and `place_unit` are about the readings alone. Ranges guard against slips (a radius in cm, a stray exponent),
 * not against taste: they are wider than any board.
 */
import type { FigureName } from "./instrument.ts";
import type { SettingDescription } from "./settings.ts";

/** Names under which the settings carry the facet's figures; kept apart since most boards have none. */
type FacetFigureName = "flatRidgeNutMm" | "flatRidgeEndMm" | "flatSlopeNut" | "flatSlopeEnd";

const plain = { unit: null, choices: null, range: null, figure: null } as const;

function length(
  key: string,
  meaning: string,
  range: readonly [number, number],
  example: string,
  figure: FigureName | FacetFigureName | null,
): SettingDescription {
  return { ...plain, key, meaning, takes: "length", unit: "mm", range, example, figure };
}

function choice(key: string, meaning: string, choices: readonly string[], example: string): SettingDescription {
  return { ...plain, key, meaning, takes: "choice", choices, example };
}

function yesOrNo(key: string, meaning: string): SettingDescription {
  return { ...plain, key, meaning, takes: "yes or no", choices: ["yes", "no"], example: "yes" };
}

const units = ["mm", "0.01mm", "in", "thou"] as const;

export const settingTable: readonly SettingDescription[] = [
  {
    ...plain,
    key: "instrument",
    meaning: "which instrument, with its size where it is not the usual one",
    takes: "instrument",
    example: "viola 390",
  },
  {
    ...plain,
    key: "strings",
    meaning: "names of the strings, lowest first, where they differ from the usual tuning; an octave may follow (E2)",
    takes: "names",
    example: "B E A D G",
  },
  choice("unit", "unit of the readings", units, "0.01mm"),
  choice("place_unit", "unit of x and y in the readings", units, "mm"),
  choice(
    "reads",
    "whether the gauge's number grows as the board rises (height) or as it falls away (depth)",
    ["height", "depth"],
    "depth",
  ),
  length("tip_radius", "radius of the gauge's ball tip; 0 for a point", [0, 20], "1.5", null),
  length(
    "resolution",
    "smallest step that the gauge shows; of a feeler gauge, from leaf to leaf (0.05 if left out)",
    [0, 1],
    "0.01",
    null,
  ),
  length("gauge_error", "the gauge maker's limit of error, plus or minus", [0, 1], "0.015", null),
  length(
    "calliper_error",
    "limit of error of the calliper or micrometer for thickness, plus or minus",
    [0, 1],
    "0.01",
    null,
  ),
  {
    ...plain,
    key: "rail_error",
    meaning: "profile of the rail's own error, as a file",
    takes: "file",
    example: "rail.csv",
  },
  length("edge_inset", "how far inside the board's edge the edge lines run", [0, 20], "2", "edgeInsetMm"),
  length("rut_width", "width of the ruts under the strings, if measured", [0.05, 20], "1", "rutWidthMm"),
  choice("tension", "whether the strings were at pitch while the board was measured", ["on", "off", "unknown"], "on"),
  length("pull_lowest", "hollow at pitch less hollow slack, under the lowest string", [-3, 3], "0.2", null),
  length("pull_highest", "hollow at pitch less hollow slack, under the highest string", [-3, 3], "0.2", null),
  length("board_length", "length of the board, nut to bridge end", [100, 1500], "270", "boardLengthMm"),
  length("width_nut", "width of the board at the nut", [8, 120], "24", "widthNutMm"),
  length("width_end", "width of the board at the bridge end", [15, 250], "42", "widthEndMm"),
  length("string_length", "vibrating length of the open strings, nut to bridge", [150, 2000], "328", "stringLengthMm"),
  length("spacing_nut", "from the lowest string to the highest at the nut, centres", [4, 110], "16.5", "spacingNutMm"),
  length(
    "spacing_bridge",
    "from the lowest string to the highest at the bridge, centres",
    [8, 240],
    "33.5",
    "spacingBridgeMm",
  ),
  length("radius_nut", "radius of the board's arc at the nut", [15, 2000], "42", "radiusNutMm"),
  length(
    "radius_middle",
    "radius of the board's arc halfway along; left out: the mean of both ends",
    [15, 2000],
    "42",
    "radiusMiddleMm",
  ),
  length("radius_end", "radius of the board's arc at the bridge end", [15, 2000], "42", "radiusEndMm"),
  {
    ...plain,
    key: "templates",
    meaning: "radii of the templates that the workshop owns",
    takes: "lengths",
    unit: "mm",
    range: [15, 2000],
    example: "60 62 65",
  },
  length("hollow_lowest", "hollow wanted under the lowest string, by straightedge", [0, 8], "0.7", "hollowLowestMm"),
  length("hollow_highest", "hollow wanted under the highest string, by straightedge", [0, 8], "0.5", "hollowHighestMm"),
  {
    ...plain,
    key: "hollow_deepest",
    meaning: "where the hollow is deepest, as a part of the board's length from the nut",
    takes: "fraction",
    unit: "of the board's length",
    range: [0.3, 0.7],
    example: "0.5",
    figure: "hollowDeepest" satisfies FigureName,
  },
  choice("aim", "the workshop's shape, or the board's own shape renewed", ["workshop", "own"], "own"),
  choice(
    "spare",
    "what to take least of once the deepest cut is small: wood in all, or the edges (for them it may be 0.02 mm deeper)",
    ["wood", "edges"],
    "edges",
  ),
  length(
    "radius_tolerance",
    "how far the radius may be off and still count as right, plus or minus",
    [0, 200],
    "1.5",
    "radiusToleranceMm",
  ),
  length(
    "hollow_tolerance",
    "how far a hollow may be off and still count as right, plus or minus",
    [0, 5],
    "0.1",
    "hollowToleranceMm",
  ),
  length(
    "radius_band",
    "how far the target's radius may float to save wood, plus or minus; left out: the tolerance",
    [0, 200],
    "0",
    "radiusBandMm",
  ),
  length(
    "hollow_band",
    "how far the target's hollows may float to save wood, plus or minus; left out: the tolerance",
    [0, 5],
    "0",
    "hollowBandMm",
  ),
  length(
    "flat_ridge_nut",
    "y of the ridge where the flat facet begins, at the nut (negative: bass side)",
    [-120, 0],
    "-6",
    "flatRidgeNutMm",
  ),
  length(
    "flat_ridge_end",
    "y of the ridge where the flat facet begins, at the bridge end (negative: bass side)",
    [-120, 0],
    "-12",
    "flatRidgeEndMm",
  ),
  slope("flat_slope_nut", "slope of the flat facet across the board at the nut; left out: as it is", "flatSlopeNut"),
  slope(
    "flat_slope_end",
    "slope of the flat facet across the board at the bridge end; left out: as it is",
    "flatSlopeEnd",
  ),
  length("edge_limit", "least thickness to be left at the edges", [0, 60], "4", "edgeLimitMm"),
  length("centre_limit", "least thickness to be left over the hollowed underside", [0, 60], "4", "centreLimitMm"),
  length("dress_at", "depth of wear that calls for a dressing", [0.01, 5], "0.2", "dressAtMm"),
  length("dressing_spend", "thickness that a dressing usually costs", [0.01, 5], "0.3", "dressingSpendMm"),
  length("allowance", "least cut to be taken everywhere", [0, 3], "0", "allowanceMm"),
  length(
    "finish_allowance",
    "thickness left by the plane for scraper and paper to take",
    [0, 1],
    "0.05",
    "finishAllowanceMm",
  ),
  length(
    "projection_bound",
    "how far the target may raise or lower the projection at the bridge",
    [0, 20],
    "1",
    "projectionBoundMm",
  ),
  length("crown_bound", "how far the target's crown may stand aside of the board's", [0, 20], "1", "crownBoundMm"),
  choice("build", "what the board is made of", ["solid", "veneered", "dyed", "unknown"], "solid"),
  yesOrNo("valuable", "whether the instrument is old or valuable, so that a restorer decides"),
  yesOrNo("loose", "whether the board has come loose from the neck"),
  yesOrNo("new_board", "whether the board is new and still to be brought to shape"),
];

function slope(key: string, meaning: string, figure: FacetFigureName): SettingDescription {
  return {
    ...plain,
    key,
    meaning,
    takes: "slope",
    unit: "mm of height per mm towards treble",
    range: [-1, 3],
    example: "0.2",
    figure,
  };
}
