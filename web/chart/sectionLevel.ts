/**
 * Level for drawing a section: heights in the gauge's frame hang with its tilt, a drawn section stands straight.
 *
 * Section -> for its k-th place the height, mm, that is drawn as 0: the line through the ends of the unworn arc, raised to the crown. Nothing
 * but the drawing uses it; twist is told in figures.
 */
import type { Section } from "../../server/core/examination.ts";

export function levelOf(section: Section): (k: number) => number {
  const { yMm, unwornMm } = section;
  const first = unwornMm[0] ?? 0;
  const last = unwornMm.at(-1) ?? 0;
  const run = (yMm.at(-1) ?? 1) - (yMm[0] ?? 0);
  const tilt = (k: number) => first + ((last - first) * (yMm[k]! - yMm[0]!)) / run;
  const crown = Math.max(...unwornMm.map((z, k) => z - tilt(k)));
  return (k) => tilt(k) + crown;
}
