/**
 * What a workshop says about an instrument, as a form: to add one, or to correct one.
 *
 * Table of instruments, and the record as it stands (null: a new one) -> form, what is said in it, faults beside their fields.
 * Dimensions in mm, as text: the server reads and checks them. Those that are as the table has them are left empty.
 */
import type { Fault } from "../../server/core/fault.ts";
import type { KindEntry, Kinds, SettingMeaning } from "../api/bench.ts";
import type { Instrument, InstrumentSaid } from "../api/instruments.ts";
import { settingText } from "../chart/format.ts";
import { element, fill } from "../views/element.ts";
import { choiceInput, type Field, fieldOf, tellFaults, textInput } from "../views/formFields.ts";

export type InstrumentForm = {
  readonly element: HTMLElement;
  readonly said: () => InstrumentSaid;
  readonly tell: (faults: readonly Fault[]) => void;
  readonly number: HTMLInputElement;
};

const builds = ["unknown", "solid", "veneered", "dyed"].map((one) => [one, one] as const);

export function instrumentForm(kinds: Kinds, was: Instrument | null): InstrumentForm {
  const number = textInput(was?.number ?? "", { required: true, maxlength: "40", spellcheck: false });
  const kind = choiceInput(
    kinds.kinds.map((entry) => [entry.instrument, entry.instrument] as const),
    was === null ? (kinds.kinds.find((entry) => entry.usual)?.instrument ?? "") : `${was.kind} ${was.size}`,
  );
  const label = textInput(was?.label ?? "", { maxlength: "200" });
  const build = choiceInput(builds, was?.build ?? "unknown");
  const valuable = choiceInput(
    [
      ["no", "no"],
      ["yes", "yes"],
    ],
    was?.valuable === true ? "yes" : "no",
  );
  const strings = textInput(was?.strings ?? "", { spellcheck: false });
  const chosen = (): KindEntry | undefined => kinds.kinds.find((entry) => entry.instrument === kind.value);

  const stringsField = fieldOf(strings, { name: "Strings, lowest first", about: ["the strings", "`strings`"] });
  const stringsHint = element("span", { class: "origin" });
  stringsField.element.append(stringsHint);
  const dimensions = kinds.settings
    .filter(({ figure }) => figure !== null)
    .map((setting) => dimensionField(setting, was?.dimensions[setting.key] ?? ""));
  const sayTable = () => {
    const entry = chosen();
    stringsHint.textContent = `Where they differ from ${entry?.strings.join(" ") ?? "the table"}.`;
    for (const dimension of dimensions) dimension.sayTable(entry);
  };
  kind.addEventListener("change", sayTable);
  sayTable();

  const fields: readonly Field[] = [
    fieldOf(number, {
      name: "Number",
      about: ["the number", "number-missing", "number-dots", "number-taken"],
      hint: "Your own, such as C-07.",
    }),
    fieldOf(kind, { name: "Kind and size", about: ["kind", "`instrument`"] }),
    fieldOf(label, {
      name: "Label",
      about: ["the label"],
      hint: "Free words: maker, colour, case. No names of players: those stand apart, with each visit.",
    }),
    fieldOf(build, { name: "Board", about: ["the build", "`build`"] }),
    fieldOf(valuable, {
      name: "Valuable",
      about: ["`valuable`"],
      hint: "Then nothing is planed before a restorer has seen it.",
    }),
  ];
  const others = element("div", { class: "in-the-way", role: "alert" });
  const more = element(
    "details",
    { class: "more", open: was !== null && (was.strings !== null || Object.keys(was.dimensions).length > 0) },
    element("summary", {}, "More: strings and dimensions that differ"),
    element("p", { class: "origin" }, "Lengths in mm. Leave a line empty where it is as the table has it."),
    stringsField.element,
    ...dimensions.map(({ field }) => field.element),
  );
  const all = [...fields, stringsField, ...dimensions.map(({ field }) => field)];
  return {
    element: element("div", { class: "fields" }, others, ...fields.map((field) => field.element), more),
    number,
    said: () => {
      const entry = chosen();
      return {
        number: number.value.trim(),
        kind: entry?.kind ?? kind.value,
        size: entry?.size ?? "",
        label: label.value.trim(),
        strings: strings.value.trim() === "" ? null : strings.value.trim(),
        build: builds.find(([one]) => one === build.value)?.[0] as InstrumentSaid["build"],
        valuable: valuable.value === "yes",
        dimensions: Object.fromEntries(
          dimensions
            .map(({ key, field }) => [key, field.input.value.trim()] as const)
            .filter(([, text]) => text !== ""),
        ),
      };
    },
    tell: (faults) => {
      const isInMore = [stringsField, ...dimensions.map(({ field }) => field)].some((field) =>
        faults.some((fault) => field.about.some((words) => fault.saw.includes(words))),
      );
      if (isInMore) more.open = true;
      tellFaults(all, faults, others);
    },
  };
}

type DimensionField = {
  readonly key: string;
  readonly field: Field;
  readonly sayTable: (entry: KindEntry | undefined) => void;
};

function dimensionField({ key, meaning, figure, unit }: SettingMeaning, value: string): DimensionField {
  const input = textInput(value, { inputmode: "decimal" });
  const name = key.replaceAll("_", " ");
  const field = fieldOf(input, { name: name.charAt(0).toUpperCase() + name.slice(1), about: [`\`${key}\``] });
  const hint = element("span", { class: "origin" });
  field.element.append(hint);
  return {
    key,
    field,
    sayTable: (entry) => {
      const inTable = figure === null ? undefined : entry?.figures[figure];
      const unitText = unit === null ? "" : ` ${unit}`;
      fill(
        hint,
        inTable === undefined ? meaning : `${meaning}; the table has ${settingText(inTable.value)}${unitText}`,
      );
    },
  };
}
