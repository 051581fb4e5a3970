/**
 * The settings most often changed, by chapter, as the drawer shows them: key of the readings file, name, what may be chosen.
 *
 * Lengths in mm. The whole table of settings is the server's; a file may use any of it.
 */
import type { FigureName } from "../../server/core/board/instrument.ts";

export type SettingEntry = {
  readonly key: string;
  readonly name: string;
  readonly isLength: boolean;
  /** What may be chosen, with other words where the value alone says too little; null: a number is typed. */
  readonly choices: readonly string[] | null;
  readonly words: Readonly<Record<string, string>>;
  /** The examination's figure that holds now. */
  readonly figure: FigureName | null;
  /** What holds where nobody says anything, for keys that no figure shows. */
  readonly otherwise: string;
};

const plain = { isLength: false, choices: null, words: {}, figure: null, otherwise: "" } as const;

const choice = (
  key: string,
  name: string,
  choices: readonly string[],
  otherwise: string,
  words: SettingEntry["words"] = {},
): SettingEntry => ({ ...plain, key, name, choices, otherwise, words });
const length = (key: string, name: string, figure: FigureName): SettingEntry => ({
  ...plain,
  key,
  name,
  isLength: true,
  figure,
});
const gauge = (key: string, name: string, otherwise: string, words: SettingEntry["words"] = {}): SettingEntry => ({
  ...plain,
  key,
  name,
  isLength: true,
  otherwise,
  words,
});

export const settingChapters: readonly { readonly name: string; readonly entries: readonly SettingEntry[] }[] = [
  {
    name: "The gauge",
    entries: [
      choice("unit", "Unit of the readings", ["mm", "0.01mm", "in", "thou"], "mm"),
      choice("reads", "The gauge reads", ["height", "depth"], "height"),
      gauge("tip_radius", "Tip radius", "0", { "0": "0 mm, a point" }),
      gauge("resolution", "Resolution", "0.01"),
      gauge("gauge_error", "Gauge error, ±", "0.01"),
      gauge("calliper_error", "Calliper error, ±", "0.05"),
      length("rut_width", "Width of the ruts, if measured", "rutWidthMm"),
      choice("tension", "Strings while measuring", ["on", "off", "unknown"], "unknown"),
      gauge("pull_lowest", "Pull under the lowest string", "not measured"),
      gauge("pull_highest", "Pull under the highest string", "not measured"),
    ],
  },
  {
    name: "The board",
    entries: [
      choice("build", "Build", ["solid", "veneered", "dyed", "unknown"], "unknown"),
      choice("valuable", "Valuable", ["no", "yes"], "no"),
      choice("loose", "Loose on the neck", ["no", "yes"], "no"),
      choice("new_board", "New board", ["no", "yes"], "no"),
    ],
  },
  {
    name: "The right shape",
    entries: [
      choice("aim", "Aim", ["workshop", "own"], "workshop", {
        workshop: "workshop’s shape",
        own: "own shape, renewed",
      }),
      length("radius_nut", "Radius at the nut", "radiusNutMm"),
      length("radius_middle", "Radius in the middle", "radiusMiddleMm"),
      length("radius_end", "Radius at the end", "radiusEndMm"),
      length("radius_tolerance", "Tolerance of the radius, ±", "radiusToleranceMm"),
      length("hollow_lowest", "Hollow, lowest string", "hollowLowestMm"),
      length("hollow_highest", "Hollow, highest string", "hollowHighestMm"),
      length("hollow_tolerance", "Tolerance of the hollow, ±", "hollowToleranceMm"),
      gauge("templates", "Your templates, radii", "none"),
      choice("spare", "Spare above all", ["wood", "edges"], "wood", { wood: "wood in all", edges: "the edges" }),
    ],
  },
  {
    name: "Limits",
    entries: [
      length("edge_limit", "Least thickness at the edge", "edgeLimitMm"),
      length("centre_limit", "Least thickness at the centre", "centreLimitMm"),
      length("dress_at", "Wear that calls for a dressing", "dressAtMm"),
      length("finish_allowance", "What scraper and paper take", "finishAllowanceMm"),
    ],
  },
];

export const settingEntries: readonly SettingEntry[] = settingChapters.flatMap((chapter) => chapter.entries);
