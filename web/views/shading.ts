/**
 * Shading of depth under the plan, and the same shading as its legend.
 *
 * Field in mm and a ramp -> pixels of a canvas that lies under the drawing. Every pixel of the board gets the colour of the depth at its
 * place (bilinear), so the colour at a node of the map is the legend's colour for the map's value. Clear outside the outline.
 */
import { rgb } from "d3";
import type { Instrument } from "../../server/core/board/instrument.ts";
import { halfWidthMm } from "../chart/board.ts";
import { depthAt } from "../chart/field.ts";
import type { Ramp } from "../chart/palette.ts";
import type { PlanScales } from "../chart/scales.ts";
import { type Sheet, shadeOf } from "../chart/sheet.ts";
import type { LegendPlace } from "./legend.ts";

export function drawShading(
  canvas: HTMLCanvasElement,
  instrument: Instrument,
  sheet: Sheet,
  ramp: Ramp,
  scales: PlanScales,
  legend: LegendPlace,
): void {
  const density = Math.min(2, window.devicePixelRatio || 1);
  canvas.width = Math.round(scales.widthPx * density);
  canvas.height = Math.round(scales.heightPx * density);
  const context = canvas.getContext("2d");
  if (context === null) return;
  const image = context.createImageData(canvas.width, canvas.height);
  const colours = Array.from({ length: 256 }, (_, i) => rgb(ramp(i / 255)));
  const put = (column: number, row: number, share: number) => {
    const colour = colours[Math.round(255 * Math.min(1, Math.max(0, share)))]!;
    image.data.set([colour.r, colour.g, colour.b, 255], 4 * (row * canvas.width + column));
  };
  const { field } = sheet;
  if (field !== null) {
    const lengthMm = instrument.boardLengthMm.value;
    const left = Math.max(0, Math.floor(scales.margins.left * density));
    const right = Math.min(canvas.width, Math.ceil((scales.widthPx - scales.margins.right) * density));
    for (let column = left; column < right; column++) {
      const xMm = scales.x.invert((column + 0.5) / density);
      if (xMm < 0 || xMm > lengthMm) continue;
      const half = halfWidthMm(instrument, xMm);
      const top = Math.floor(scales.y(half) * density);
      const bottom = Math.ceil(scales.y(-half) * density);
      for (let row = top; row < bottom; row++) {
        const yMm = scales.y.invert((row + 0.5) / density);
        if (Math.abs(yMm) > half) continue;
        const depthMm = depthAt(field, xMm, yMm);
        if (!Number.isNaN(depthMm)) put(column, row, shadeOf(sheet, depthMm));
      }
    }
    for (let row = Math.round(legend.topPx * density); row < Math.round(legend.bottomPx * density); row++) {
      const share = (legend.bottomPx - (row + 0.5) / density) / (legend.bottomPx - legend.topPx);
      for (let column = Math.round(legend.leftPx * density); column < Math.round(legend.rightPx * density); column++) {
        put(column, row, shadeOf(sheet, share * sheet.fullMm));
      }
    }
  }
  context.putImageData(image, 0, 0);
}
