/**
 * The settings drawer: the settings most often changed, each empty until said, each showing what holds now and where that comes from.
 *
 * Keys are those of the readings file. What is said here wins over the file. Lengths in mm, as text, unparsed: the server checks them.
 * Folded away at the end: the rail's own error, a file (railField.ts).
 */
import type { Examination } from "../../server/core/examination.ts";
import { element, fill } from "../views/element.ts";
import type { FileSettings } from "./fileSettings.ts";
import { railField } from "./railField.ts";
import { type SettingEntry, settingChapters, settingEntries } from "./settingEntries.ts";
import { inForce, type Said } from "./settingsSaid.ts";

export type SettingsDrawer = {
  readonly show: (examination: Examination | null, file: FileSettings, said: Said, rail: File | null) => void;
};

export function settingsDrawer(parent: HTMLElement, onSaid: (said: Said, rail: File | null) => void): SettingsDrawer {
  const dialog = element("dialog", { class: "settings", "aria-labelledby": "settings-title" });
  parent.append(dialog);
  return {
    show: (examination, file, said, rail) => {
      const form = element("form", { method: "dialog" });
      for (const chapter of settingChapters) {
        form.append(
          element("h2", {}, chapter.name),
          ...chapter.entries.map((entry) => {
            const now = inForce(entry, examination, file, said);
            return field(entry, `now ${now.value}: ${now.from}`, said[entry.key] ?? "");
          }),
        );
      }
      const railNow = railField(rail);
      form.append(railNow.element);
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
        const entries = [...new FormData(form)].flatMap(([key, value]) =>
          typeof value === "string" ? [[key, value.trim()] as const] : [],
        );
        const others = Object.entries(said).filter(([key]) => settingEntries.every((entry) => entry.key !== key));
        onSaid(Object.fromEntries([...others, ...entries.filter(([, value]) => value !== "")]), railNow.chosen());
      });
      fill(
        dialog,
        element("h1", { id: "settings-title" }, "Settings"),
        element("p", { class: "origin" }, "Leave a line empty to keep what the file or the table says. Lengths in mm."),
        form,
      );
      dialog.showModal();
    },
  };
}

function field(entry: SettingEntry, now: string, said: string): HTMLLabelElement {
  const input =
    entry.choices === null
      ? element("input", {
          name: entry.key,
          inputmode: entry.key === "templates" ? null : "decimal",
          autocomplete: "off",
        })
      : element(
          "select",
          { name: entry.key },
          element("option", { value: "" }, "–"),
          ...entry.choices.map((one) => element("option", { value: one }, entry.words[one] ?? one)),
        );
  input.value = said;
  return element("label", {}, entry.name, input, element("span", { class: "origin" }, now));
}
