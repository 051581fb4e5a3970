/**
 * A board in the mirror, and an examination in the mirror: y turned round, bass for treble, lowest string for highest.
 *
 * Strings stand evenly, so that a mirrored instrument is the same instrument with its hollows exchanged. Names of strings, notes
 * and positions can't be mirrored and are left out, as are all words.
 */
import type { Examination, Side } from "../../server/core/examination.ts";
import type { BoardInNumbers } from "./boardInNumbers.ts";

export function mirroredBoard(board: BoardInNumbers): BoardInNumbers {
  const { hollow_lowest, hollow_highest } = board.settings;
  return {
    ...board,
    settings: { ...board.settings, hollow_lowest: hollow_highest!, hollow_highest: hollow_lowest! },
    readings: board.readings.map((reading) => ({ ...reading, yMm: -reading.yMm })),
    edges: board.edges.map((edge) => ({ ...edge, side: edge.side === "bass" ? "treble" : "bass" })),
  };
}

/** All numbers of an examination that has a plan, as they are or (`turned` −1) in the mirror. */
export function numbersOf(examination: Examination, turned: 1 | -1) {
  const { surface, points, wornPlaces, planing, thickness, maps, profiles, sections, verdict } = examination;
  if (planing === null || maps === null) throw new Error("a full survey was expected");
  const inMirror = turned === -1;
  const inOrder = <T>(list: readonly T[]): readonly T[] => (inMirror ? [...list].reverse() : list);
  const acrossMm = (list: readonly number[]): readonly number[] => inOrder(list).map((yMm) => turned * yMm);
  const sideOf = (side: Side): Side => (!inMirror || side === "centre" ? side : side === "bass" ? "treble" : "bass");
  const { hollowMm, crownMm, ...target } = planing.target;
  return {
    decision: verdict.decision,
    reasons: verdict.reasons.map(({ code, valueMm, u, limitMm, probability }) => ({
      ...{ code, valueMm, u, limitMm, probability },
    })),
    surface: {
      ...surface,
      humps: surface.humps.length,
      twistMm: surface.twistMm && { ...surface.twistMm, value: turned * surface.twistMm.value },
      hollows: inOrder(surface.hollows).map((hollow) => ({ ...hollow, string: null })),
    },
    points: points.map((point) => ({ ...point, givenYMm: turned * point.givenYMm, yMm: turned * point.yMm })),
    wornPlaces: wornPlaces.map(({ yMm, ...place }) => ({
      ...place,
      ...{ string: null, note: null, position: null },
      yMm: acrossMm(yMm),
    })),
    planing: {
      ...planing,
      governedBy: inPlaceOrder(planing.governedBy.map((place) => ({ ...place, yMm: turned * place.yMm }))),
      target: {
        ...target,
        hollowMm: inOrder([hollowMm.lowest, hollowMm.highest]),
        crownMm: { nut: turned * crownMm.nut, end: turned * crownMm.end },
      },
    },
    thickness: thickness && {
      ...thickness,
      before: { ...thickness.before, side: sideOf(thickness.before.side) },
      places: thickness.places.map((place) => ({ ...place, side: sideOf(place.side) })),
    },
    maps: { xMm: maps.xMm, yMm: acrossMm(maps.yMm), wearMm: inOrder(maps.wearMm), cutMm: inOrder(maps.cutMm) },
    profiles: inOrder(profiles).map((profile) => ({
      ...profile,
      string: null,
      yMm: profile.yMm.map((yMm) => turned * yMm),
    })),
    sections: sections.map((section) => ({
      ...section,
      yMm: acrossMm(section.yMm),
      measuredMm: inOrder(section.measuredMm),
      unwornMm: inOrder(section.unwornMm),
      targetMm: section.targetMm && inOrder(section.targetMm),
      templateMm: inOrder(section.templateMm),
    })),
  };
}

/** From nut to bridge and from bass to treble: the order in which a plan tells the places that govern it has no meaning. */
export function inPlaceOrder<Of extends { readonly xMm: number; readonly yMm: number }>(places: readonly Of[]): Of[] {
  // Places on one crossline may differ by rounding along it.
  return [...places].sort((a, b) => Math.round(a.xMm * 1000) - Math.round(b.xMm * 1000) || a.yMm - b.yMm);
}
