/**
 * A quick look on the page: the answer as the headline, no map, and nothing breaks where most of an examination is left open.
 */
import type { Browser } from "playwright-core";
import { afterAll, beforeAll, describe, expect, test } from "vitest";
import { examineFiles } from "../support/examineMade.ts";
import { fifteenHeights, gapsFile } from "../support/quickLookFiles.ts";
import { launchChromium } from "./support/chromium.ts";
import { openFixtureBench } from "./support/fixtureBench.ts";

let browser: Browser;
beforeAll(async () => {
  browser = await launchChromium();
});
afterAll(() => browser.close());

describe.each([
  ["gaps", gapsFile(0.8), "Dressing likely"],
  ["fifteen heights", fifteenHeights(), null],
])("a quick look at %s", (_, csv, headline) => {
  test("shows its answer, its reasons, and that no map is carried", async () => {
    const examination = examineFiles(csv, null);
    const page = await openFixtureBench(browser, examination);
    const broken: string[] = [];
    page.on("pageerror", (error) => broken.push(error.message));
    await page.locator(".reasons li").first().waitFor();
    if (headline !== null) expect(await page.locator("h1").textContent()).toBe(headline);
    expect(await page.locator(".reasons li").count()).toBe(examination.verdict.reasons.length);
    await page.locator(".lengthwise").focus();
    for (const key of ["ArrowRight", "ArrowUp", "+", "0"]) await page.keyboard.press(key);
    expect(await page.locator(".plan-note").textContent()).toContain("can’t carry this map");
    expect(await page.locator("body").textContent()).not.toMatch(/NaN|undefined|null/);
    expect(broken).toEqual([]);
  });
});
