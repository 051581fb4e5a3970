/**
 * Humps of workmanship: where a short straightedge, slid along under a string, rocks on the unworn surface.
 *
 * A hump behind a dip makes the string buzz. The straightedge is a little over a third of the board long (100 mm on a violin: common
 * practice, no source); it rocks by as much as the surface rises above the line between its ends. Each string's highest such rise
 * is told where it is greater than its uncertainty and worth naming. Lengths in mm, heights positive.
 *
 * in: unworn surface, form and all, strings' paths -> out: humps, one per string at most.
 */
import type { Instrument } from "../board/instrument.ts";
import { stringYMm } from "../board/stringPaths.ts";
import type { HumpUnderString } from "../examination.ts";
import { coverageFactor } from "../units.ts";
import { type Form, formMm } from "./form.ts";
import { heightMm, type SurfaceShape } from "./idealSurface.ts";
import { varianceOf } from "./surfaceUncertainty.ts";
import type { UnwornSurface } from "./unwornSurface.ts";

const straightedgeShare = 0.37;
const stations = 72;
/** A rise of less than this, mm, is not worth naming. */
const leastMm = 0.01;

export function humpsOf(surface: UnwornSurface, instrument: Instrument): readonly HumpUnderString[] {
  return instrument.strings.flatMap((string, index) => {
    const yMm = (xMm: number): number => stringYMm(instrument, index, xMm);
    const z = (shape: SurfaceShape, form: Form, xMm: number): number =>
      heightMm(surface.plan, shape, xMm, yMm(xMm)) + formMm(surface.plan, form, xMm, yMm(xMm));
    const { fromMm, atMm, toMm } = highestRise(surface.plan.lengthMm, (xMm) => z(surface.shape, surface.form, xMm));
    const rise = (shape: SurfaceShape, form: Form): number => {
      const share = (atMm - fromMm) / (toMm - fromMm);
      return z(shape, form, atMm) - (1 - share) * z(shape, form, fromMm) - share * z(shape, form, toMm);
    };
    const value = rise(surface.shape, surface.form);
    if (value < leastMm) return [];
    const u = coverageFactor * Math.sqrt(varianceOf(surface, rise));
    return value > u ? [{ string, xMm: atMm, heightMm: { value, u } }] : [];
  });
}

type Rise = { readonly fromMm: number; readonly atMm: number; readonly toMm: number; readonly mm: number };

function highestRise(lengthMm: number, heightAtMm: (xMm: number) => number): Rise {
  const stepMm = lengthMm / stations;
  const heights = Array.from({ length: stations + 1 }, (_, i) => heightAtMm(i * stepMm));
  const reach = Math.round(straightedgeShare * stations);
  let highest: Rise = { fromMm: 0, atMm: stepMm, toMm: reach * stepMm, mm: Number.NEGATIVE_INFINITY };
  for (let from = 0; from + reach <= stations; from += 1) {
    for (let at = from + 1; at < from + reach; at += 1) {
      const share = (at - from) / reach;
      const mm = heights[at] - (1 - share) * heights[from] - share * heights[from + reach];
      if (mm > highest.mm) {
        highest = { fromMm: from * stepMm, atMm: at * stepMm, toMm: (from + reach) * stepMm, mm };
      }
    }
  }
  return highest;
}
