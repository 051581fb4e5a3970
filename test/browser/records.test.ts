/**
 * The records in a browser: an instrument added, visits kept from the bench, its story, what is due. The figures on the screen are those that
 * the server tells; nothing runs off the side of a desk's, a tablet's or a phone's screen.
 */
import { join } from "node:path";
import type { Browser, Page } from "playwright-core";
import { afterAll, beforeAll, expect, test } from "vitest";
import type { History } from "../../server/core/history/history.ts";
import { examplesFolder, startApp } from "./support/appUnderTest.ts";
import { launchChromium } from "./support/chromium.ts";

let app: Awaited<ReturnType<typeof startApp>>;
let browser: Browser;
let page: Page;
const troubles: string[] = [];

beforeAll(async () => {
  [app, browser] = await Promise.all([startApp(), launchChromium()]);
  page = await browser.newPage({ viewport: { width: 1400, height: 900 } });
  page.on("pageerror", (error) => troubles.push(error.message));
});
afterAll(async () => {
  await browser.close();
  await app.stop();
});

const go = (path: string) => page.goto(`${app.url}${path}`);
const asked = async (path: string) => (await fetch(`${app.url}${path}`)).json();

async function keepFromBench(readings: string, day: string, reason: string): Promise<void> {
  await page
    .locator("#pick-files")
    .setInputFiles([join(examplesFolder, `${readings}.csv`), join(examplesFolder, `${readings}.thickness.csv`)]);
  await page.getByRole("button", { name: "Keep this visit…" }).click();
  const form = page.locator("dialog.keeping");
  await form.getByLabel("Day of the visit").fill(day);
  await form.getByLabel("Why it came").fill(reason);
  await form.getByRole("button", { name: "Keep", exact: true }).click();
}

test("an empty store says so, and its first instrument is added in one form", async () => {
  await go("instruments");
  await page.getByText("No instrument stands here yet").waitFor();
  expect(await page.evaluate("document.activeElement.id")).toBe("number");
  const form = page.locator("details.add form");
  await form.getByLabel("Number").fill("C-07");
  await form.getByLabel("Kind and size").selectOption("cello 4/4");
  await form.getByLabel("Label").fill('<img src=x onerror="document.title=1"> שלום');
  await form.getByRole("button", { name: "Add it" }).click();
  await page.waitForURL(/\/instruments\/C-07$/);
  // What somebody wrote is text, whatever it looks like.
  expect(await page.locator("main img").count()).toBe(0);
  expect(await page.locator("main").textContent()).toContain("<img src=x onerror");
  expect(await page.locator("main").textContent()).toContain("No visit yet");
});

test("a visit is begun from its story and kept from the bench; the same readings again are asked about", async () => {
  await page.getByRole("link", { name: "Start a visit" }).click();
  await keepFromBench("cello-to-dress", "2024-03-04", "Buzzes on A");
  const kept = page.locator(".kept");
  await kept.waitFor();
  expect(await kept.textContent()).toContain("Kept: C-07, visit of 4 March 2024");

  await go("?instrument=C-07");
  await keepFromBench("cello-to-dress", "2025-03-03", "Back again");
  const trouble = page.locator("dialog.keeping .trouble");
  await trouble.getByText("The same readings are on record already").waitFor();
  expect(await trouble.textContent()).toContain("4 March 2024");
  await trouble.getByRole("button", { name: "Keep them here as well" }).click();
  await page.locator(".kept").waitFor();
  expect((await asked("api/instruments/C-07/visits")).visits).toHaveLength(2);
});

test("the story tells the figures that the server tells, newest first", async () => {
  await go("instruments/C-07");
  const rows = page.locator("table.words tbody tr");
  await rows.first().waitFor();
  const { visits, history } = (await asked("api/instruments/C-07/story")) as {
    visits: { reason: string; findings: { deepest: { depthMm: { value: number } }; edge: { value: number } } }[];
    history: History;
  };
  expect(await rows.count()).toBe(visits.length);
  for (const [i, { reason, findings }] of visits.entries()) {
    const cells = await rows.nth(i).locator("td").allInnerTexts();
    expect(cells[1]).toBe(reason);
    expect(cells[2]).toContain(findings.deepest.depthMm.value.toFixed(2));
    expect(cells[3]).toContain(findings.edge.value.toFixed(2));
  }
  expect(visits.map(({ reason }) => reason)).toEqual(["Back again", "Buzzes on A"]);
  const { dressing } = history.outlook;
  if (dressing.told !== "reached") throw new Error("this board is worn to its limit");
  expect(await page.locator("dd").first().textContent()).toBe(`Due now: ${dressing.says}`);
});

test("a visit's sheet shows its examination, and its readings can be had as they were given", async () => {
  await page.locator("table.words tbody a").first().click();
  await page.waitForURL(/\/visits\//);
  await page.locator(".verdict h1").waitFor();
  expect(await page.locator(".verdict h1").textContent()).toBe("Dress it");
  expect(await page.locator(".sheet-foot").textContent()).toContain("examination 1 of this visit");
  const [download] = await Promise.all([
    page.waitForEvent("download"),
    page.getByRole("link", { name: "readings as given" }).click(),
  ]);
  expect(download.suggestedFilename()).toBe("2025-03-03-readings.csv");
});

test("the due list names what is due and why, and leads to the story", async () => {
  await go("due");
  const row = page.locator("table.words tbody tr").first();
  await row.waitFor();
  const [number, instrument, last, dressing] = await row.locator("td").allInnerTexts();
  expect([number, last]).toEqual(["C-07", "3\u00a0Mar\u00a02025"]);
  expect(instrument).toMatch(/^Cello 4\/4\. <img src=x onerror/);
  expect(dressing).toMatch(/^Due now: /);
  await row.locator("a").click();
  await page.waitForURL(/\/instruments\/C-07$/);
});

test.each([1400, 820, 390])(
  "at %i px nothing of the records runs off the side, and what is pressed is 44 px",
  async (width) => {
    const { visits } = (await asked("api/instruments/C-07/visits")) as { visits: { id: string }[] };
    const paths = [
      ...["instruments", "instruments/C-07", `instruments/C-07/visits/${visits[0]!.id}`, "due", "?instrument=C-07"],
      ...["invented/instruments", "invented/due", "sign-in", "instrumnets"],
    ];
    await page.setViewportSize({ width, height: 900 });
    for (const path of paths) {
      await go(path);
      await page.locator("main").waitFor();
      await page.waitForTimeout(400);
      const over = await page.evaluate(
        () => document.documentElement.scrollWidth - document.documentElement.clientWidth,
      );
      expect([path, over]).toEqual([path, 0]);
      const small = await page
        .locator(".ways a:visible, .ways-on a:visible, main button.bring:visible, main input:visible")
        .evaluateAll((all) => all.filter((one) => one.getBoundingClientRect().height < 44).map((one) => one.outerHTML));
      expect([path, small]).toEqual([path, []]);
    }
  },
);

test("on paper a visit is one sheet with its signatures, and nothing that can only be pressed", async () => {
  const { visits } = (await asked("api/instruments/C-07/visits")) as { visits: { id: string }[] };
  await page.setViewportSize({ width: 1400, height: 900 });
  await go(`instruments/C-07/visits/${visits[0]!.id}`);
  await page.locator(".verdict h1").waitFor();
  const pdf = await page.pdf({ format: "A4", preferCSSPageSize: true });
  expect([...pdf.toString("latin1").matchAll(/\/Type \/Page\b(?!s)/g)]).toHaveLength(1);
  await page.emulateMedia({ media: "print" });
  expect(await page.locator(".ways a:visible, .sheet-ways:visible, .tools:visible").count()).toBe(0);
  await page.emulateMedia({ media: "screen" });
});

test("no page failed on the way", () => {
  expect(troubles).toEqual([]);
});
