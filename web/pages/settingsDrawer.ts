/**
 * The settings drawer: the settings most often changed, each empty until said, each showing what holds now and where that comes from.
 *
 * Keys are those of the readings file. What is said here wins over the file. Lengths in mm, as text, unparsed: the server checks them.
 */
import type { FigureName } from "../../server/core/board/instrument.ts";
import type { Examination } from "../../server/core/examination.ts";
import { depthText, radiusText } from "../chart/format.ts";
import { element, fill } from "../views/element.ts";

type Entry = {
  readonly key: string;
  readonly name: string;
  /** What may be chosen; null: a number is typed. */
  readonly choices: readonly string[] | null;
  /** The figure that holds now. */
  readonly figure: FigureName | null;
  /** What holds where nothing is said, for keys that no figure shows. */
  readonly unsaid: string;
};

const choice = (key: string, name: string, choices: readonly string[], unsaid: string): Entry => ({
  key,
  name,
  choices,
  figure: null,
  unsaid,
});
const length = (key: string, name: string, figure: FigureName): Entry => ({
  key,
  name,
  choices: null,
  figure,
  unsaid: "",
});
const gauge = (key: string, name: string, unsaid: string): Entry => ({
  key,
  name,
  choices: null,
  figure: null,
  unsaid,
});

const chapters: readonly { readonly name: string; readonly entries: readonly Entry[] }[] = [
  {
    name: "The gauge",
    entries: [
      choice("unit", "Unit of the readings", ["mm", "0.01mm", "in", "thou"], "as the file says, else mm"),
      choice("reads", "The gauge reads", ["height", "depth"], "as the file says, else height"),
      gauge("tip_radius", "Radius of the tip, mm", "as the file says, else a point (0)"),
      gauge("resolution", "Resolution, mm", "as the file says"),
      choice("tension", "Strings while measuring", ["on", "off"], "as the file says, else unknown"),
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

export type SettingsDrawer = {
  readonly show: (examination: Examination | null, said: Readonly<Record<string, string>>) => void;
};

export function settingsDrawer(
  parent: HTMLElement,
  onSaid: (said: Readonly<Record<string, string>>) => void,
): SettingsDrawer {
  const dialog = element("dialog", { class: "settings", "aria-labelledby": "settings-title" });
  parent.append(dialog);
  return {
    show: (examination, said) => {
      const form = element("form", { method: "dialog" });
      for (const chapter of chapters) {
        form.append(
          element("h2", {}, chapter.name),
          ...chapter.entries.map((entry) => field(entry, examination, said[entry.key] ?? "")),
        );
      }
      const clear = element("button", { type: "button" }, "Clear all");
      clear.addEventListener("click", () => {
        for (const input of form.querySelectorAll<HTMLInputElement | HTMLSelectElement>("input, select"))
          input.value = "";
      });
      const leave = element("button", { type: "button" }, "Leave as it was");
      leave.addEventListener("click", () => dialog.close());
      form.append(
        element(
          "div",
          { class: "buttons" },
          element("button", { type: "submit", class: "bring" }, "Examine again"),
          clear,
          leave,
        ),
      );
      form.addEventListener("submit", () => {
        const entries = [...new FormData(form)].map(([key, value]) => [key, String(value).trim()] as const);
        onSaid(Object.fromEntries(entries.filter(([, value]) => value !== "")));
      });
      fill(
        dialog,
        element("h1", { id: "settings-title" }, "Settings"),
        element("p", { class: "origin" }, "Leave a line empty to keep what holds now."),
        form,
      );
      dialog.showModal();
    },
  };
}

function field(entry: Entry, examination: Examination | null, said: string): HTMLLabelElement {
  const now = origin(entry, examination);
  const input =
    entry.choices === null
      ? element("input", {
          name: entry.key,
          inputmode: entry.key === "templates" ? null : "decimal",
          autocomplete: "off",
          value: said,
        })
      : element(
          "select",
          { name: entry.key },
          element("option", { value: "" }, "–"),
          ...entry.choices.map((one) => element("option", { value: one }, one)),
        );
  input.value = said;
  return element("label", {}, entry.name, input, element("span", { class: "origin" }, now));
}

function origin(entry: Entry, examination: Examination | null): string {
  if (entry.figure === null) return entry.unsaid;
  if (examination === null) return "from the table of instruments";
  const figure = examination.instrument[entry.figure];
  const value = entry.key.startsWith("radius") ? radiusText(figure.value) : depthText(figure.value);
  return `now ${value}: ${figure.origin}`;
}
