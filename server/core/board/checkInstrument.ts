/**
 * Figures that contradict each other: a board that can't be built, or limits above any new board.
 *
 * Only what is truly impossible is a fault; taste is left to the workshop. Each fault stands where the figure was given
 * and names the setting that mends it. Lengths in mm.
 */
import type { Fault } from "../fault.ts";
import type { Instrument } from "./instrument.ts";
import type { TableInstrument } from "./instrumentTable.ts";
import { halfWidthMm } from "./outline.ts";
import { settingFault } from "./settingFault.ts";
import type { Settings } from "./settings.ts";
import { stringYMm } from "./stringPaths.ts";

type Check = {
  /** Figures that the contradiction is about; the fault stands at the first of them that the workshop gave. */
  readonly about: readonly string[];
  readonly holds: boolean;
  readonly saw: string;
  readonly remedy: string;
};

export function planFaults(
  instrument: Instrument,
  tableInstrument: TableInstrument,
  settings: Settings,
): readonly Fault[] {
  const { boardLengthMm, stringLengthMm, widthNutMm, widthEndMm, spacingNutMm, edgeInsetMm } = instrument;
  const lengthMm = boardLengthMm.value;
  const highest = instrument.strings.length - 1;
  const spacingEndMm = stringYMm(instrument, highest, lengthMm) - stringYMm(instrument, 0, lengthMm);
  const checks: Check[] = [
    {
      about: ["stringLengthMm", "boardLengthMm"],
      holds: stringLengthMm.value > lengthMm,
      saw: `the strings (${stringLengthMm.value} mm) are no longer than the board (${lengthMm} mm)`,
      remedy: "Check string_length (nut to bridge) and board_length (nut to the board's end).",
    },
    {
      about: ["widthEndMm", "widthNutMm"],
      holds: widthEndMm.value >= widthNutMm.value,
      saw: `the board is narrower at the end (${widthEndMm.value} mm) than at the nut (${widthNutMm.value} mm)`,
      remedy: "Check width_nut and width_end: they may have been swapped.",
    },
    {
      about: ["spacingNutMm", "widthNutMm"],
      holds: spacingNutMm.value < widthNutMm.value,
      saw: `the outer strings (${spacingNutMm.value} mm) don't fit on the board at the nut (${widthNutMm.value} mm)`,
      remedy: "Check spacing_nut (lowest to highest string, all of them) and width_nut.",
    },
    {
      about: ["spacingBridgeMm", "widthEndMm", "spacingNutMm"],
      holds: spacingEndMm < widthEndMm.value,
      saw: `the outer strings are ${spacingEndMm.toFixed(1)} mm apart at the board's end, which is ${widthEndMm.value} mm wide`,
      remedy: "Check spacing_bridge (lowest to highest string, all of them) and width_end.",
    },
    {
      about: ["edgeInsetMm", "widthNutMm"],
      holds: edgeInsetMm.value < widthNutMm.value / 2,
      saw: `edge lines ${edgeInsetMm.value} mm inside the edges cross on a board ${widthNutMm.value} mm wide`,
      remedy: "Make edge_inset smaller than half of width_nut.",
    },
    radiusCheck(instrument, "radiusNutMm", "radius_nut", 0),
    radiusCheck(instrument, "radiusMiddleMm", "radius_middle", lengthMm / 2),
    radiusCheck(instrument, "radiusEndMm", "radius_end", lengthMm),
    limitCheck("edgeLimitMm", "edge_limit", instrument.edgeLimitMm.value, tableInstrument.asNew.edgeThicknessMm.value),
    limitCheck(
      "centreLimitMm",
      "centre_limit",
      instrument.centreLimitMm.value,
      tableInstrument.asNew.centreThicknessMm.value,
    ),
  ];
  return faultsOf(checks, settings);
}

/** A facet's ridge must lie on the board, on the bass side of the centreline. */
export function facetFaults(instrument: Instrument, settings: Settings): readonly Fault[] {
  if (instrument.facet === null) return [];
  const ridges = [
    { figure: "flatRidgeNutMm", key: "flat_ridge_nut", yMm: instrument.facet.ridgeNutMm.value, xMm: 0 },
    {
      figure: "flatRidgeEndMm",
      key: "flat_ridge_end",
      yMm: instrument.facet.ridgeEndMm.value,
      xMm: instrument.boardLengthMm.value,
    },
  ];
  const checks = ridges.map(({ figure, key, yMm, xMm }) => {
    const halfMm = halfWidthMm(instrument, xMm);
    return {
      about: [figure],
      holds: yMm < 0 && yMm > -halfMm,
      saw: `the facet's ridge at y = ${yMm} mm is not on the bass side of a board that ends at ${-halfMm} mm there`,
      remedy: `Give ${key} as a negative number, from the centreline towards the lowest string, inside the edge.`,
    };
  });
  return faultsOf(checks, settings);
}

function radiusCheck(
  instrument: Instrument,
  figure: "radiusNutMm" | "radiusMiddleMm" | "radiusEndMm",
  key: string,
  xMm: number,
): Check {
  const radiusMm = instrument[figure].value;
  const halfMm = halfWidthMm(instrument, xMm);
  return {
    about: [figure, "radiusNutMm", "radiusEndMm", "widthEndMm", "widthNutMm"],
    holds: radiusMm > halfMm,
    saw: `an arc of radius ${radiusMm} mm does not span the board, which is ${2 * halfMm} mm wide there`,
    remedy: `Make ${key} larger than half the board's width.`,
  };
}

/** A limit far above a new board's thickness would condemn every board: twice is surely a slip. */
function limitCheck(figure: string, key: string, limitMm: number, newMm: number): Check {
  return {
    about: [figure],
    holds: limitMm <= 2 * newMm,
    saw: `a limit of ${limitMm} mm is more than twice what a new board has (${newMm} mm)`,
    remedy: `Check ${key}: it is the least thickness to be left, in mm.`,
  };
}

function faultsOf(checks: readonly Check[], settings: Settings): readonly Fault[] {
  return checks
    .filter((check) => !check.holds)
    .map(({ about, saw, remedy }) => {
      const entry = about.map((figure) => settings.figures.get(figure)?.entry).find((one) => one !== undefined);
      return settingFault(entry, "figures-disagree", saw, remedy);
    });
}
