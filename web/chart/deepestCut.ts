/**
 * The one deepest cut that the planing map marks.
 *
 * Examination -> place and depth as read, mm; null without a plan. It is the reading with the largest cut, unless the wood between readings or
 * at an edge, where nobody can read but the plane still cuts, loses more. A plan for the least deepest cut names the places that
 * govern it; one that spares the thinnest edge does not, so there it is the deepest cell of the map between the first crossline
 * and the last (beyond them a plan counts no cut).
 */
import type { Examination, Planing } from "../../server/core/examination.ts";
import { halfWidthMm } from "./board.ts";

export type DeepestCut = {
  readonly xMm: number;
  readonly yMm: number;
  readonly cutMm: number;
  readonly isRead: boolean;
  readonly isAtEdge: boolean;
};

/** Half a hundredth: less is not seen on the map. */
const seenMm = 0.005;
/** A place this near to the outline is at the edge, mm. */
const edgeMm = 2;

export function deepestCutOf(examination: Examination): DeepestCut | null {
  const { planing } = examination;
  if (planing === null) return null;
  const read = deepestOf(
    examination.points.flatMap(({ xMm, yMm, cutMm }) => (cutMm === null ? [] : [{ xMm, yMm, cutMm }])),
  );
  const unread = deepestOf(planing.spares === "deepest cut" ? governing(planing) : cells(examination));
  const isAtEdge = ({ xMm, yMm }: Place) => halfWidthMm(examination.instrument, xMm) - Math.abs(yMm) < edgeMm;
  if (unread !== null && (read === null || unread.cutMm > read.cutMm + seenMm)) {
    return { ...unread, isRead: false, isAtEdge: isAtEdge(unread) };
  }
  return read === null ? null : { ...read, isRead: true, isAtEdge: isAtEdge(read) };
}

type Place = { readonly xMm: number; readonly yMm: number; readonly cutMm: number };

const governing = ({ governedBy, planeOffMm }: Planing): readonly Place[] =>
  governedBy
    .filter((place) => place.governs === "depth")
    .map(({ xMm, yMm }) => ({ xMm, yMm, cutMm: planeOffMm.ofReadings }));

function cells({ maps, sections }: Examination): readonly Place[] {
  if (maps === null) return [];
  const firstMm = sections[0]?.xMm ?? 0;
  const lastMm = sections.at(-1)?.xMm ?? 0;
  return maps.cutMm.flatMap((row, i) =>
    row.flatMap((cutMm, k) => {
      const xMm = maps.xMm[k]!;
      return cutMm === null || xMm < firstMm || xMm > lastMm ? [] : [{ xMm, yMm: maps.yMm[i]!, cutMm }];
    }),
  );
}

const deepestOf = (places: readonly Place[]): Place | null =>
  places.reduce<Place | null>((most, place) => (most === null || place.cutMm > most.cutMm ? place : most), null);
