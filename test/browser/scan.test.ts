/**
 * A probe's scan of 100,000 readings on the page, with the whole program behind it: told, answered, drawn thin.
 */
import type { Browser, Page } from "playwright-core";
import { afterAll, beforeAll, describe, expect, test } from "vitest";
import type { Examination } from "../../server/core/examination.ts";
import { scanCsv } from "../bench/support/scanCsv.ts";
import { startApp } from "./support/appUnderTest.ts";
import { launchChromium } from "./support/chromium.ts";

const count = 100_000;

let app: Awaited<ReturnType<typeof startApp>>;
let browser: Browser;
let page: Page;
let examination: Examination;
/** What the line at the foot said, in turn. */
let said: readonly string[];
/** Whether the page answered a press of its button while the scan was examined. */
let answeredMeanwhile: boolean;

beforeAll(async () => {
  [app, browser] = await Promise.all([startApp(), launchChromium()]);
  page = await (await browser.newContext({ viewport: { width: 1400, height: 900 } })).newPage();
  await page.goto(app.url);
  await page.locator("h1").first().waitFor();
  await page.evaluate(() => {
    const busy = document.querySelector(".busy")!;
    const heard: string[] = [];
    new MutationObserver(() => heard.push(busy.textContent ?? "")).observe(busy, { childList: true });
    Object.assign(window, { heard });
  });
  const answer = page.waitForResponse((one) => one.url().includes("/api/examinations?points=few"), {
    timeout: 120_000,
  });
  const buffer = Buffer.from([...scanCsv(count)].join(""));
  await page.setInputFiles("#pick-files", { name: "scan.csv", mimeType: "text/csv", buffer });
  await page.locator(".busy", { hasText: "Examining" }).waitFor();
  await page.getByRole("button", { name: "Settings" }).click();
  answeredMeanwhile = await page.evaluate(
    () => document.querySelector("dialog[open], .drawer:not([hidden])") !== null && document.body.ariaBusy === "true",
  );
  await page.keyboard.press("Escape");
  examination = (await (await answer).json()) as Examination;
  await page.locator(".which-board", { hasText: `${count} readings` }).waitFor();
  said = await page.evaluate(() => (window as unknown as { heard: string[] }).heard);
}, 180_000);

afterAll(async () => {
  await browser.close();
  await app.stop();
});

describe("a scan of 100,000 readings", () => {
  test("is told to be sent, then to be examined, and the page answers meanwhile", () => {
    // Reckoned from the first lines, which are a little longer than the rest.
    expect(said[0]).toMatch(/^Sending scan\.csv, about (9[6-9]|100),000 readings: 0 %$/);
    expect(said.filter((text) => /^Examining scan\.csv, about (9[6-9]|100),000 readings…$/.test(text))).toHaveLength(1);
    expect(said.at(-1)).toBe("");
    expect(answeredMeanwhile).toBe(true);
  });

  test("comes back with the few points that a drawing can show", () => {
    expect(examination.readings.count).toBe(count);
    expect(examination.readings.pointsTold).toBe("few");
    // Some four thousand cells, and those that stand out in the pits.
    expect(examination.points.length).toBeGreaterThan(3_500);
    expect(examination.points.length).toBeLessThan(9_000);
  });

  test("is drawn with no more marks than a bench's readings are", async () => {
    // Nine pits hold a number each at least, however many are left over for chance.
    expect(await page.locator("text.sounding").count()).toBeGreaterThan(8);
    // At most 700 soundings (chart/soundings.ts), their marks, contours and outline; 100,000 would freeze the page.
    expect(await page.locator(".plan svg *").count()).toBeLessThan(2_500);
  });

  test("shows no ground as unread, but for a hair along the edge, where no ball can stand", async () => {
    const unread = await page.locator(".plan .unread path").evaluate((path: SVGGeometryElement) => {
      const svg = path.ownerSVGElement!;
      const board = (svg.querySelector(".outline") as SVGGraphicsElement).getBBox();
      const places = Array.from({ length: 2_000 }, (_, i) => ({
        x: board.x + (board.width * (0.5 + (i % 200))) / 200,
        y: board.y + board.height * (0.3 + (0.4 * Math.floor(i / 200)) / 9),
      }));
      return places.filter(({ x, y }) => path.isPointInFill(new DOMPoint(x, y))).length;
    });
    expect(unread).toBe(0);
  });
});
