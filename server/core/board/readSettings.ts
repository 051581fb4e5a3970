/**
 * Reads settings: `key: value` as written -> settings with every value parsed and in its range, or every fault.
 *
 * Callers put the file's entries first and those of the command line or the form last: the later entry of a key wins.
 * A known key left blank in the file says nothing, so that an empty grid can ask for it.
 * A faulty entry is told even where a later one would have won, since it is wrong where it stands.
 * What is left out keeps a default that claims little: no tip compensation, a dial of 0.01 mm steps whose limit of error
 * is 0.01 mm (JIS B 7503:2011, one revolution, ranges from 1 to 10 mm), unknown build and tension.
 */
import { countingFault, type Fault, mostFaultsListed } from "../fault.ts";
import { legible } from "./legible.ts";
import { nearestWord } from "./nearestWord.ts";
import { settingFault } from "./settingFault.ts";
import type { ReadSettings, SettingDescription, SettingEntry, Settings } from "./settings.ts";
import { settingTable } from "./settingTable.ts";
import { type Parsed, parseSettingValue, type SettingValue } from "./settingValue.ts";

/** mm per unit, for each choice of `unit` and `place_unit`. An inch is 25.4 mm exactly. */
const unitMm: Readonly<Record<string, number>> = { mm: 1, "0.01mm": 0.01, in: 25.4, thou: 0.0254 };

type Said = { readonly value: SettingValue; readonly entry: SettingEntry };

export function readSettings(entries: readonly SettingEntry[]): ReadSettings {
  const said = new Map<string, Said>();
  const written = new Set<string>();
  const faults: Fault[] = [];
  const untold = new Map<SettingEntry["where"], number>();
  const tell = (where: SettingEntry["where"], fault: () => Fault) => {
    if (faults.length < mostFaultsListed) faults.push(fault());
    else untold.set(where, (untold.get(where) ?? 0) + 1);
  };
  for (const entry of entries) {
    const key = plainKey(entry.key);
    const description = settingTable.find((candidate) => candidate.key === key);
    if (description === undefined) {
      tell(entry.where, () => unknownKey(entry, key));
      continue;
    }
    if (entry.where === "readings" && entry.value.trim() === "") continue;
    written.add(key);
    const parsed = parseSettingValue(description, entry.value);
    if (parsed.outcome === "refused") {
      tell(entry.where, () => refusedValue(entry, description, parsed));
      continue;
    }
    said.set(key, { value: parsed.value, entry: { ...entry, key } });
  }
  faults.push(...[...untold].map(([where, more]) => countingFault(where, more)));
  faults.push(...facetFaults(said, written), ...pullFaults(said, written));
  return faults.length > 0 ? { outcome: "faulty", faults } : { outcome: "read", settings: settingsFrom(said) };
}

/** Of a usual digital calliper, ±mm, where nobody said. From memory. */
const usualCalliperErrorMm = 0.05;

function settingsFrom(said: ReadonlyMap<string, Said>): Settings {
  const number = (key: string, otherwise: number): number => {
    const value = said.get(key)?.value;
    return typeof value === "number" ? value : otherwise;
  };
  const word = (key: string): string | null => {
    const value = said.get(key)?.value;
    return typeof value === "string" ? value : null;
  };
  const yes = (key: string): boolean => said.get(key)?.value === true;
  const reads = word("reads");
  const tension = word("tension");
  const build = word("build");
  const strings = said.get("strings")?.value;
  const templates = said.get("templates")?.value;
  return {
    instrument: word("instrument"),
    strings: isWords(strings) ? strings : null,
    gauge: {
      unitMm: unitMm[word("unit") ?? "mm"] ?? 1,
      placeUnitMm: unitMm[word("place_unit") ?? "mm"] ?? 1,
      reads: reads === "depth" ? "depth" : "height",
      tipRadiusMm: number("tip_radius", 0),
      resolutionMm: number("resolution", 0.01),
      errorLimitMm: number("gauge_error", 0.01),
      calliperErrorMm: number("calliper_error", usualCalliperErrorMm),
      tension: tension === "on" || tension === "off" ? tension : "unknown",
      pull: pullFrom(said),
    },
    job: {
      aim: word("aim") === "own" ? "own" : "workshop",
      spare: word("spare") === "edges" ? "edges" : "wood",
      templateRadiiMm: isNumbers(templates) ? templates : [],
      build: build === "solid" || build === "veneered" || build === "dyed" ? build : "unknown",
      valuable: yes("valuable"),
      loose: yes("loose"),
      newBoard: yes("new_board"),
    },
    figures: figuresFrom(said),
    given: new Map([...said].map(([key, { entry }]) => [key, entry])),
  };
}

function figuresFrom(said: ReadonlyMap<string, Said>): Settings["figures"] {
  const figures = new Map<string, { readonly value: number; readonly entry: SettingEntry }>();
  for (const { key, figure } of settingTable) {
    const one = said.get(key);
    if (figure !== null && one !== undefined && typeof one.value === "number") {
      figures.set(figure, { value: one.value, entry: one.entry });
    }
  }
  return figures;
}

/** A facet needs its ridge at both ends before anything else about it can be said. */
function facetFaults(said: ReadonlyMap<string, Said>, written: ReadonlySet<string>): readonly Fault[] {
  const ridgeKeys = ["flat_ridge_nut", "flat_ridge_end"];
  const missing = ridgeKeys.filter((key) => !written.has(key));
  const first = [...ridgeKeys, "flat_slope_nut", "flat_slope_end"].map((key) => said.get(key)).find((one) => one);
  if (missing.length === 0 || first === undefined) return [];
  return [
    settingFault(
      first.entry,
      "facet-incomplete",
      `\`${first.entry.key}\` speaks of a flat facet, but ${missing.join(" and ")} ${missing.length > 1 ? "are" : "is"} not given`,
      "Give the ridge at both ends with flat_ridge_nut and flat_ridge_end, or leave the facet out.",
    ),
  ];
}

function pullFrom(said: ReadonlyMap<string, Said>): Settings["gauge"]["pull"] {
  const [lowestMm, highestMm] = pullKeys.map((key) => said.get(key)?.value);
  return typeof lowestMm === "number" && typeof highestMm === "number" ? { lowestMm, highestMm } : null;
}

const pullKeys = ["pull_lowest", "pull_highest"] as const;

/** The strings' pull differs from one side of the board to the other: half of it is not enough. */
function pullFaults(said: ReadonlyMap<string, Said>, written: ReadonlySet<string>): readonly Fault[] {
  const missing = pullKeys.find((key) => !written.has(key));
  const given = pullKeys.map((key) => said.get(key)).find((one) => one);
  if (missing === undefined || given === undefined) return [];
  return [
    settingFault(
      given.entry,
      "pull-incomplete",
      `\`${given.entry.key}\` without \`${missing}\``,
      "Measure the hollow at pitch and slack under both outer strings and give both differences, or leave both out.",
    ),
  ];
}

/** "Rail error" and "rail-error" are `rail_error`. */
export function plainKey(key: string): string {
  return key
    .trim()
    .toLowerCase()
    .replace(/[\s-]+/g, "_");
}

function isWords(value: SettingValue | undefined): value is readonly string[] {
  return Array.isArray(value) && value.every((one) => typeof one === "string");
}

function isNumbers(value: SettingValue | undefined): value is readonly number[] {
  return Array.isArray(value) && value.every((one) => typeof one === "number");
}

function unknownKey(entry: SettingEntry, key: string): Fault {
  return settingFault(
    entry,
    "unknown-key",
    `\`${legible(entry.key)}\` is not a setting`,
    `Did you mean \`${likelyKey(key)}\`? \`boardtrue help settings\` lists them all.`,
  );
}

/** A key of which only a part was written, else the nearest by edits. */
function likelyKey(written: string): string {
  const known = settingTable.map((description) => description.key);
  const begun = known.find((key) => key.startsWith(written)) ?? known.find((key) => key.includes(written));
  return begun ?? nearestWord(written, known);
}

function refusedValue(
  entry: SettingEntry,
  description: SettingDescription,
  parsed: Parsed & { outcome: "refused" },
): Fault {
  return settingFault(
    entry,
    parsed.code,
    `\`${description.key}\` is \`${legible(entry.value.trim())}\`: ${parsed.why}`,
    `${parsed.remedy} For example \`${description.key}: ${description.example}\`.`,
  );
}
