/**
 * The settings most often changed, by chapter, as the drawer shows them: key of the readings file, name, what may be chosen.
 *
 * Lengths in mm. The whole table of settings is the server's; a file may use any of it.
 */
import type { FigureName } from "../../server/core/board/instrument.ts";

export type SettingEntry = {
  readonly key: string;
  readonly name: string;
  /** What may be chosen; null: a number is typed. */
  readonly choices: readonly string[] | null;
  /** The figure that holds now. */
  readonly figure: FigureName | null;
  /** What holds where nothing is said, for keys that no figure shows. */
  readonly unsaid: string;
};

const choice = (key: string, name: string, choices: readonly string[], unsaid: string): SettingEntry => ({
  key,
  name,
  choices,
  figure: null,
  unsaid,
});
const length = (key: string, name: string, figure: FigureName): SettingEntry => ({
  key,
  name,
  choices: null,
  figure,
  unsaid: "",
});
const gauge = (key: string, name: string, unsaid: string): SettingEntry => ({
  key,
  name,
  choices: null,
  figure: null,
  unsaid,
});

export const settingChapters: readonly { readonly name: string; readonly entries: readonly SettingEntry[] }[] = [
  {
    name: "The gauge",
    entries: [
      choice("unit", "Unit of the readings", ["mm", "0.01mm", "in", "thou"], "as the file says, else mm"),
      choice("reads", "The gauge reads", ["height", "depth"], "as the file says, else height"),
      gauge("tip_radius", "Radius of the tip, mm", "as the file says, else a point (0)"),
      gauge("resolution", "Resolution, mm", "as the file says"),
      choice("tension", "Strings while measuring", ["on", "off", "unknown"], "as the file says, else unknown"),
    ],
  },
  {
    name: "The board",
    entries: [
      choice("build", "Build", ["solid", "veneered", "dyed", "unknown"], "unknown until said"),
      choice("valuable", "Valuable", ["no", "yes"], "no"),
      choice("loose", "Loose on the neck", ["no", "yes"], "no"),
      choice("new_board", "New board", ["no", "yes"], "no"),
    ],
  },
  {
    name: "The right shape",
    entries: [
      choice("aim", "Aim", ["workshop", "own"], "the workshop's shape"),
      length("radius_nut", "Radius at the nut, mm", "radiusNutMm"),
      length("radius_middle", "Radius in the middle, mm", "radiusMiddleMm"),
      length("radius_end", "Radius at the end, mm", "radiusEndMm"),
      length("hollow_lowest", "Hollow, lowest string, mm", "hollowLowestMm"),
      length("hollow_highest", "Hollow, highest string, mm", "hollowHighestMm"),
      length("hollow_tolerance", "Tolerance of the hollow, ± mm", "hollowToleranceMm"),
      gauge("templates", "Your templates, radii in mm", "none said"),
    ],
  },
  {
    name: "Limits",
    entries: [
      length("edge_limit", "Least thickness at the edge, mm", "edgeLimitMm"),
      length("centre_limit", "Least thickness at the centre, mm", "centreLimitMm"),
      length("dress_at", "Wear that calls for a dressing, mm", "dressAtMm"),
      length("finish_allowance", "What scraper and paper take, mm", "finishAllowanceMm"),
    ],
  },
];
