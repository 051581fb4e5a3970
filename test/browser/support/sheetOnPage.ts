/**
 * The drawn sheet as a test reads it: places in px back to mm from the outline as drawn, colours from the canvas.
 */
import type { Page } from "playwright-core";
import type { Instrument } from "../../../server/core/board/instrument.ts";

/** mm -> px of the plan, read off the drawn outline (nut bass, nut treble, end treble, end bass). */
export async function planScales(
  page: Page,
  instrument: Instrument,
): Promise<{ readonly x: (mm: number) => number; readonly y: (mm: number) => number }> {
  const path = (await page.locator("path.outline").getAttribute("d")) ?? "";
  const corners = [...path.matchAll(/(-?[\d.]+),(-?[\d.]+)/g)].map((match) => [Number(match[1]), Number(match[2])]);
  const [nutBass, , endTreble, endBass] = corners as [number[], number[], number[], number[]];
  const perMmX = (endBass[0]! - nutBass[0]!) / instrument.boardLengthMm.value;
  const perMmY = (endTreble[1]! - endBass[1]!) / instrument.widthEndMm.value;
  const middle = (endTreble[1]! + endBass[1]!) / 2;
  return { x: (mm) => nutBass[0]! + mm * perMmX, y: (mm) => middle + mm * perMmY };
}

/** Colours of the canvas at places in px of the drawing, as [red, green, blue]. */
export function coloursAt(page: Page, places: readonly (readonly [number, number])[]): Promise<number[][]> {
  return page.evaluate((at) => {
    const canvas = document.querySelector<HTMLCanvasElement>(".plan canvas")!;
    const context = canvas.getContext("2d")!;
    const density = canvas.width / canvas.getBoundingClientRect().width;
    return at.map(([x, y]) => [
      ...context.getImageData(Math.floor(x! * density), Math.floor(y! * density), 1, 1).data.slice(0, 3),
    ]);
  }, places);
}

/** The legend's colours with the depth each stands for, from its graduations. */
export async function legend(page: Page): Promise<readonly { readonly mm: number; readonly colour: number[] }[]> {
  const marks = await page.locator("g.legend g.mark").evaluateAll((groups) =>
    groups.map((group) => ({
      mm: Number(group.querySelector("text")!.textContent),
      y: Number(/,\s*(-?[\d.]+)/.exec(group.getAttribute("transform")!)![1]),
    })),
  );
  const frame = await page.locator("g.legend rect").evaluate((rect) => ({
    x: Number(rect.getAttribute("x")),
    top: Number(rect.getAttribute("y")),
    height: Number(rect.getAttribute("height")),
  }));
  const [first, last] = [marks[0]!, marks.at(-1)!];
  const rows = Array.from({ length: frame.height }, (_, i) => frame.top + i + 0.5);
  const colours = await coloursAt(
    page,
    rows.map((y): [number, number] => [frame.x + 6, y]),
  );
  return rows.map((y, i) => ({
    mm: first.mm + ((y - first.y) * (last.mm - first.mm)) / (last.y - first.y),
    colour: colours[i]!,
  }));
}
