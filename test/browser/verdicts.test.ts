/**
 * Every decision has its headline, and each headline leads with the numbers that carry it.
 */
import type { Browser, Page } from "playwright-core";
import { afterAll, beforeAll, expect, test } from "vitest";
import type { Decision, Examination } from "../../server/core/examination.ts";
import { fixtureExamination } from "../web/fixtureExamination.ts";
import { launchChromium } from "./support/chromium.ts";
import { openFixtureBench } from "./support/fixtureBench.ts";

const fixture = fixtureExamination("cello");
/** A board every place of which the tip reached the bottom of. */
const cello = { ...fixture, wornPlaces: fixture.wornPlaces.map((place) => ({ ...place, atLeast: false })) };
let browser: Browser;

beforeAll(async () => {
  browser = await launchChromium();
});

afterAll(() => browser.close());

const decided = (decision: Decision, more: Partial<Examination> = {}): Examination => ({
  ...cello,
  ...more,
  verdict: { ...(more.verdict ?? cello.verdict), decision },
});

const humped = {
  surface: {
    ...cello.surface,
    hollows: cello.surface.hollows.map((hollow, i) =>
      i === 1 ? { ...hollow, hollowMm: { value: -0.31, u: 0.02 }, state: "humped" as const } : hollow,
    ),
  },
};

/** A place that reads less deep than the deepest, but that the tip may not have reached the bottom of. */
const unbottomed = { wornPlaces: cello.wornPlaces.map((place, i) => ({ ...place, atLeast: i === 1 })) };

/** Nothing calls for wood to go, as far as the readings can tell. */
const soundWhereRead = {
  ...cello.verdict,
  decision: "undecided" as const,
  reasons: [
    {
      code: "sound-where-read",
      says: "As far as read, sound.",
      valueMm: null,
      u: null,
      limitMm: null,
      origin: null,
      probability: null,
    },
  ],
};

const cut =
  "Deepest cut 0.47\u00a0±\u00a00.03 mm. The thinnest edge keeps 5.93\u00a0±\u00a00.05 mm; the limit is 5.40.";
const edgeNow = "The thinnest edge has 6.36\u00a0±\u00a00.05 mm; the limit is 5.40.";

test.each([
  ["dress", "Dress it", cut, {}],
  ["shape", "Shape it", cut, {}],
  ["borderline", "Too close to call", cut, {}],
  ["replace", "New board", cut, {}],
  ["undecided", "Can’t say yet", cut, {}],
  [
    "undecided",
    "Can’t say yet",
    `Deepest wear at least 0.29 mm. ${edgeNow}`,
    { ...unbottomed, verdict: soundWhereRead },
  ],
  ["restorer", "To a restorer first", `Deepest wear at least 0.29 mm. ${edgeNow}`, unbottomed],
  ["leave", "Leave it", `Deepest wear 0.29\u00a0±\u00a00.02 mm. ${edgeNow}`, {}],
  ["leave", "Leave it", `No wear beyond the noise of the readings. ${edgeNow}`, { deepest: null }],
  ["restorer", "To a restorer first", `Deepest wear 0.29\u00a0±\u00a00.02 mm. ${edgeNow}`, {}],
  ["cause", "Find the cause first", `Humped by 0.31\u00a0±\u00a00.02 mm along the G string. ${edgeNow}`, humped],
  [
    "undecided",
    "Can’t say yet",
    "Deepest wear 0.29\u00a0±\u00a00.02 mm. Thickness was not measured.",
    { planing: null, thickness: null },
  ],
] as const)("%s is said as “%s”, with its numbers", async (decision, words, lead, more) => {
  const page: Page = await openFixtureBench(browser, decided(decision, more));
  await expect(page.locator("h1").first().textContent()).resolves.toBe(words);
  await expect(page.locator(".lead").textContent()).resolves.toBe(lead);
  await page.context().close();
});
