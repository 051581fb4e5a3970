/**
 * An instrument with every figure resolved: the workshop's figure where it gave one, else the table's.
 *
 * table, settings -> instrument, or every fault found. Left out of both: the bands equal the tolerances; the middle
 * radius is the mean of the ends where the workshop gave an end. Lengths in mm.
 */
import type { Fault } from "../fault.ts";
import { facetFaults, planFaults } from "./checkInstrument.ts";
import { findInstrument } from "./findInstrument.ts";
import { type Facet, type Figure, type FigureName, figureNames, type Instrument } from "./instrument.ts";
import type { InstrumentTable, TableInstrument, TableKind } from "./instrumentTable.ts";
import { openStrings } from "./openStrings.ts";
import type { SettingEntry, Settings } from "./settings.ts";

export type ResolvedInstrument =
  | { readonly outcome: "resolved"; readonly instrument: Instrument }
  | { readonly outcome: "faulty"; readonly faults: readonly Fault[] };

export function resolveInstrument(table: InstrumentTable, settings: Settings): ResolvedInstrument {
  const found = findInstrument(table, settings);
  if (found.outcome === "faulty") return found;
  const strings = openStrings(found.kind, settings.strings ?? found.instrument.strings, settings.given.get("strings"));
  if (strings.outcome === "faulty") return strings;
  const instrument = assemble(found.kind, found.instrument, strings, settings);
  const faults = [...planFaults(instrument, found.instrument, settings), ...facetFaults(instrument, settings)];
  return faults.length > 0 ? { outcome: "faulty", faults } : { outcome: "resolved", instrument };
}

function assemble(
  kind: TableKind,
  tableInstrument: TableInstrument,
  strings: { readonly names: readonly string[]; readonly pitches: readonly number[] },
  settings: Settings,
): Instrument {
  const figure = (name: FigureName): Figure => givenFigure(settings, name) ?? otherwise(name);
  const otherwise = (name: FigureName): Figure => {
    if (name === "radiusBandMm") return sameAs(figure("radiusToleranceMm"), "as wide as the radius tolerance");
    if (name === "hollowBandMm") return sameAs(figure("hollowToleranceMm"), "as wide as the hollow tolerance");
    if (name === "radiusMiddleMm" && (settings.figures.has("radiusNutMm") || settings.figures.has("radiusEndMm"))) {
      return meanOf(figure("radiusNutMm"), figure("radiusEndMm"));
    }
    const { value, source, origin } = tableInstrument.figures[name];
    return { value, source, origin };
  };
  return {
    ...everyFigure(figure),
    kind: kind.kind,
    size: tableInstrument.size,
    strings: strings.names,
    openPitches: strings.pitches,
    positions: kind.positions.named,
    facet: facetFrom(settings),
  };
}

function everyFigure(figure: (name: FigureName) => Figure): { readonly [name in FigureName]: Figure } {
  const entries = figureNames.map((name) => [name, figure(name)] as const);
  return Object.fromEntries(entries) as { readonly [name in FigureName]: Figure };
}

function sameAs(other: Figure, how: string): Figure {
  return { value: other.value, source: other.source, origin: `${how} (${other.origin})` };
}

function meanOf(nut: Figure, end: Figure): Figure {
  return {
    value: (nut.value + end.value) / 2,
    source: "derived",
    origin: "mean of the radii at nut and end, since none was given for the middle",
  };
}

function facetFrom(settings: Settings): Facet | null {
  const ridgeNutMm = givenFigure(settings, "flatRidgeNutMm");
  const ridgeEndMm = givenFigure(settings, "flatRidgeEndMm");
  if (ridgeNutMm === null || ridgeEndMm === null) return null;
  return {
    ridgeNutMm,
    ridgeEndMm,
    slopeNut: givenFigure(settings, "flatSlopeNut"),
    slopeEnd: givenFigure(settings, "flatSlopeEnd"),
  };
}

function givenFigure(settings: Settings, name: string): Figure | null {
  const given = settings.figures.get(name);
  if (given === undefined) return null;
  return { value: given.value, source: "given", origin: `given by the workshop (${placeInWords(given.entry)})` };
}

function placeInWords(entry: SettingEntry): string {
  return entry.line === null ? `setting ${entry.key}` : `file line ${entry.line}`;
}
