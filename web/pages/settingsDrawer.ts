/**
 * The settings drawer: the settings most often changed, each empty until said, each showing what holds now and where that comes from.
 *
 * Keys are those of the readings file. What is said here wins over the file. Lengths in mm, as text, unparsed: the server checks them.
 */
import type { Examination } from "../../server/core/examination.ts";
import { depthText, radiusText } from "../chart/format.ts";
import { element, fill } from "../views/element.ts";
import { type SettingEntry, settingChapters } from "./settingEntries.ts";

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
      for (const chapter of settingChapters) {
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

function field(entry: SettingEntry, examination: Examination | null, said: string): HTMLLabelElement {
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

function origin(entry: SettingEntry, examination: Examination | null): string {
  if (entry.figure === null) return entry.unsaid;
  if (examination === null) return "from the table of instruments";
  const figure = examination.instrument[entry.figure];
  const value = entry.key.startsWith("radius") ? radiusText(figure.value) : depthText(figure.value);
  return `now ${value}: ${figure.origin}`;
}
