/**
 * What an examination says beside wear and cut is on the sheet in the same numbers: set-ups, drift, long waves, humps, what is assumed,
 * the next reading, the rail; and where there is nothing to say nothing stands.
 */
import { readFileSync } from "node:fs";
import { join } from "node:path";
import AxeBuilder from "@axe-core/playwright";
import type { Browser, Page } from "playwright-core";
import { afterAll, beforeAll, describe, expect, test } from "vitest";
import { stringYMm } from "../../server/core/board/stringPaths.ts";
import type { Examination } from "../../server/core/examination.ts";
import { examineFiles } from "../support/examineMade.ts";
import { fixtureExamination } from "../web/fixtureExamination.ts";
import { examplesFolder, startApp } from "./support/appUnderTest.ts";
import { launchChromium } from "./support/chromium.ts";
import { openFixtureBench } from "./support/fixtureBench.ts";
import { planScales } from "./support/sheetOnPage.ts";

let app: Awaited<ReturnType<typeof startApp>>;
let browser: Browser;
beforeAll(async () => {
  [app, browser] = await Promise.all([startApp(), launchChromium()]);
});
afterAll(async () => {
  await browser.close();
  await app.stop();
});

const path = (name: string) => join(examplesFolder, `${name}.csv`);
const text = (name: string) => readFileSync(path(name), "utf8");
const hundredths = (mm: number) => Math.abs(mm).toFixed(2);
const fixture = fixtureExamination("cello");

async function openApp(): Promise<Page> {
  const page = await browser.newPage({ viewport: { width: 1400, height: 900 } });
  await page.goto(app.url);
  await page.locator("h1").first().waitFor();
  return page;
}

async function examinationAfter(page: Page, act: () => Promise<unknown>): Promise<Examination> {
  const response = page.waitForResponse((one) => one.url().endsWith("/api/examinations") && one.ok());
  await act();
  const examination = (await (await response).json()) as Examination;
  await page.waitForFunction(() => document.body.getAttribute("aria-busy") === null);
  return examination;
}

/** Text of the line that stands beside a name under "What was read"; null where there is no such line. */
const readLine = (page: Page, name: string): Promise<string | null> =>
  page
    .locator(".readings dt")
    .evaluateAll(
      (names, wanted) => names.find((one) => one.textContent === wanted)?.nextElementSibling?.textContent ?? null,
      name,
    );

describe("the cello read in several placings of the rail", () => {
  test("says how often the rail was laid", async () => {
    const page = await openApp();
    const { readings } = await examinationAfter(page, () => page.selectOption("#example", "cello-along-strings"));
    expect(readings.setups).toBe(5);
    expect(await readLine(page, "rail set up")).toBe(`${readings.setups} times`);
    await page.close();
  });
});

describe("the viola planed by hand", () => {
  const examination = examineFiles(text("viola-hand-planed"), text("viola-hand-planed.thickness"));
  const { formMm, humps } = examination.surface;
  const [hump] = humps;
  let page: Page;
  beforeAll(async () => {
    page = await openFixtureBench(browser, examination);
  });

  test("has its long waves told as workmanship", async () => {
    expect(await page.locator(".long-waves").textContent()).toBe(
      `Long waves of ±\u00a0${hundredths(formMm!)} mm: workmanship, no wear.`,
    );
  });

  test("has its hump told: under which string, where, how high", async () => {
    const words = await page.locator(".shape .humps").textContent();
    expect(words).toContain(`${hump!.string} string, ${Math.round(hump!.xMm)} mm from the nut`);
    expect(words).toContain(`${hundredths(hump!.heightMm.value)}\u00a0±`);
  });

  test("has its hump marked on that string's profile, where it is, and on no other", async () => {
    expect(await page.locator(".hump-mark").count()).toBe(humps.length);
    const mark = page.locator(`g.profile[data-string="${hump!.string}"] .hump-mark`);
    expect(await mark.locator("text").textContent()).toBe(`hump ${hundredths(hump!.heightMm.value)}`);
    const scales = await planScales(page, examination.instrument);
    // The plan and the profiles share their x; a pixel is what the drawing can show.
    expect(Math.abs(Number(await mark.locator("text").getAttribute("x")) - scales.x(hump!.xMm))).toBeLessThan(1);
  });

  test.each([1400, 820, 768])("lets no words on a profile touch others at %i px", async (width) => {
    await page.setViewportSize({ width, height: 1100 });
    await page.waitForFunction((wanted) => document.querySelector(".plan svg")!.clientWidth <= wanted, width);
    const boxes = await page.locator("g.profile text").evaluateAll((all) =>
      all.map((one) => {
        const { left, right, top, bottom } = one.getBoundingClientRect();
        return { words: one.textContent, left, right, top: top + 2, bottom: bottom - 2 };
      }),
    );
    const touching = boxes.flatMap((a, i) =>
      boxes
        .slice(i + 1)
        .filter((b) => a.left < b.right && b.left < a.right && a.top < b.bottom && b.top < a.bottom)
        .map((b) => `${a.words} / ${b.words}`),
    );
    expect(touching).toEqual([]);
  });
});

describe("a board of which there is nothing more to say", () => {
  test("has no word of waves, humps, drift, set-ups or what is assumed", async () => {
    const { surface, readings } = fixture;
    const plain = { ...fixture, surface: { ...surface, formMm: 0, humps: [], assumed: [] }, readings };
    const page = await openFixtureBench(browser, plain);
    for (const one of [".long-waves", ".shape .humps", ".hump-mark", ".assumed", ".next-reading", ".next"])
      expect(await page.locator(one).count(), one).toBe(0);
    expect(await readLine(page, "gauge drift")).toBeNull();
    expect(await readLine(page, "rail set up")).toBeNull();
    expect(await page.locator(".plan-note").textContent()).not.toContain("[ ]");
    await page.context().close();
  });
});

describe("a board humped from end to end", () => {
  test("is told so with its hollows: no string gets a hump of its own beside that", async () => {
    const examination = examineFiles(text("cello-bent-neck"), text("cello-bent-neck.thickness"));
    expect(examination.surface.hollows.every(({ state }) => state === "humped")).toBe(true);
    expect(examination.surface.humps.length).toBeGreaterThan(0);
    const page = await openFixtureBench(browser, examination);
    expect(await page.locator(".hump-mark, .shape .humps").count()).toBe(0);
    await page.context().close();
  });
});

describe("drift", () => {
  test.each([
    [{ checks: 6, mm: -0.064, corrected: true }, "0.06 mm from first to last, taken out (6 taken again)"],
    [{ checks: 3, mm: 0.008, corrected: false }, "none beyond the readings’ scatter (3 taken again)"],
  ])("%o is told", async (drift, words) => {
    const page = await openFixtureBench(browser, { ...fixture, readings: { ...fixture.readings, drift } });
    expect(await readLine(page, "gauge drift")).toBe(words);
    await page.context().close();
  });
});

describe("what the readings can't tell", () => {
  test("is told as it was taken", async () => {
    const assumed = ["no twist", "the same radius at both ends"];
    const page = await openFixtureBench(browser, { ...fixture, surface: { ...fixture.surface, assumed } });
    expect(await page.locator(".assumed").textContent()).toBe(
      "These readings can’t tell it, so it is taken as usual: no twist; the same radius at both ends.",
    );
    await page.context().close();
  });
});

describe("the next reading", () => {
  const { deepest, verdict } = fixture;
  const asked = (xMm: number, yMm: number): Examination => ({
    ...fixture,
    verdict: { ...verdict, nextReading: { xMm, yMm, what: "height", says: "Read the place once more." } },
  });
  type Box = { readonly left: number; readonly right: number; readonly top: number; readonly bottom: number };
  const boxOf = (one: Element): Box => {
    const { x, y, width, height } = (one as SVGGraphicsElement).getBBox();
    return { left: x, right: x + width, top: y, bottom: y + height };
  };

  test("stands in brackets on the plan where it is to be taken, on the map of wear alone", async () => {
    const page = await openFixtureBench(browser, asked(deepest!.xMm, deepest!.yMm));
    expect(await page.locator(".next").textContent()).toBe("Read the place once more.");
    const scales = await planScales(page, fixture.instrument);
    const mark = await page.locator(".next-reading").evaluate(boxOf);
    // Half a pixel: the drawing rounds nothing.
    expect(Math.abs((mark.left + mark.right) / 2 - scales.x(deepest!.xMm))).toBeLessThan(0.5);
    expect(Math.abs((mark.top + mark.bottom) / 2 - scales.y(deepest!.yMm))).toBeLessThan(0.5);
    expect(await page.locator(".plan-note").textContent()).toContain("[ ] the place to measure next");
    await page.locator('button[data-map="cut"]').click();
    expect(await page.locator(".next-reading").count()).toBe(0);
    await page.context().close();
  });

  test("makes the numbers beside it give way", async () => {
    const plain = await openFixtureBench(browser, fixture);
    const [yMm, xMm] = await plain
      .locator("text.sounding.number")
      .nth(1)
      .evaluate((one) => [Number(one.getAttribute("data-y-mm")), Number(one.getAttribute("data-x-mm"))] as const);
    const scales = await planScales(plain, fixture.instrument);
    await plain.context().close();
    // So far beside that number that the left bracket would stand on it.
    const besideMm = 14 / (scales.x(1) - scales.x(0));
    const page = await openFixtureBench(browser, asked(xMm + besideMm, yMm));
    const mark = await page.locator(".next-reading").evaluate(boxOf);
    const feet = [
      [mark.left, mark.left + 4],
      [mark.right - 4, mark.right],
    ] as const;
    const numbers = await page.locator("text.sounding").evaluateAll((all) =>
      all.map((one) => {
        const { x, y, width, height } = (one as SVGGraphicsElement).getBBox();
        return { words: one.textContent, left: x + 1, right: x + width - 1, middle: y + height / 2 };
      }),
    );
    const covered = numbers.filter(
      ({ left, right, middle }) =>
        middle > mark.top && middle < mark.bottom && feet.some(([from, to]) => from < right && to > left),
    );
    expect(covered).toEqual([]);
    await page.context().close();
  });
});

describe("the quick look with a straightedge", () => {
  test("writes each hollow on its string where it is deepest, and shows nothing empty", async () => {
    const examination = examineFiles(text("violin-quick-look"), null);
    const page = await openFixtureBench(browser, examination);
    const scales = await planScales(page, examination.instrument);
    const looked = await page.locator("text.looked").evaluateAll((all) =>
      all.map((one) => ({
        string: one.getAttribute("data-string"),
        x: Number(one.getAttribute("x")),
        words: one.textContent,
      })),
    );
    expect(looked.map(({ string }) => string)).toEqual(examination.surface.hollows.map(({ string }) => string));
    examination.surface.hollows.forEach(({ hollowMm, deepestAtMm }, i) => {
      expect(looked[i]!.words).toContain(`${hundredths(hollowMm.value)}\u00a0±`);
      expect(Math.abs(looked[i]!.x - scales.x(deepestAtMm))).toBeLessThan(1);
    });
    for (const empty of [".tools", ".lengthwise > svg", ".across", ".keys"])
      expect(await page.locator(empty).isVisible(), empty).toBe(false);
    await page.context().close();
  });
});

describe("a quick look that asks for a gap again", () => {
  test("brackets the place, clear of the hollow written there", async () => {
    const examination = examineFiles(text("violin-quick-look"), null);
    const { string, deepestAtMm } = examination.surface.hollows[0]!;
    const yMm = stringYMm(examination.instrument, examination.instrument.strings.indexOf(string), deepestAtMm);
    const next = { xMm: deepestAtMm, yMm, what: "gap" as const, says: "Take the gap once more." };
    const page = await openFixtureBench(browser, {
      ...examination,
      verdict: { ...examination.verdict, nextReading: next },
    });
    const box = (selector: string) =>
      page.locator(selector).evaluate((one: SVGGraphicsElement) => {
        const { x, width } = one.getBBox();
        return { left: x, right: x + width };
      });
    const [brackets, words] = [await box(".next-reading"), await box(`text.looked[data-string="${string}"]`)];
    // A bracket's foot of 4 px points inwards.
    expect(brackets.left + 4).toBeLessThanOrEqual(words.left);
    expect(brackets.right - 4).toBeGreaterThanOrEqual(words.right);
    await page.context().close();
  });
});

describe("the rail's profile", () => {
  const files = ["violin-slack", "violin-slack.thickness", "violin-slack.rail"].map(path);

  test("is told apart from the readings by its header, sent along, named, and taken off", async () => {
    const page = await openApp();
    const seen = await examinationAfter(page, () => page.setInputFiles("#pick-files", [...files].reverse()));
    const expected = examineFiles(text("violin-slack"), text("violin-slack.thickness"), text("violin-slack.rail"));
    expect(seen.surface.hollows).toEqual(expected.surface.hollows);
    expect(await page.locator(".which-board").textContent()).toContain("+ violin-slack.rail.csv");
    await page.close();
  });

  test("is chosen and left out in the drawer, by keys alone", async () => {
    const page = await openApp();
    const plain = text("violin-slack").replace(/^# rail_error.*\n/m, "");
    const bare = { name: "bare.csv", mimeType: "text/csv", buffer: Buffer.from(plain) };
    const without = await examinationAfter(page, () => page.setInputFiles("#pick-files", bare));
    await page.getByRole("button", { name: "Settings" }).focus();
    await page.keyboard.press("Enter");
    await page.locator("details.more summary").focus();
    await page.keyboard.press("Enter");
    expect(await page.locator('input[name="rail"]').isVisible()).toBe(true);
    expect(await page.locator("#rail-now").textContent()).toContain("None taken along");
    await page.setInputFiles('input[name="rail"]', files[2]!);
    const withRail = await examinationAfter(page, () =>
      page.getByRole("button", { name: "Examine again" }).press("Enter"),
    );
    // The made rail bows by 0.08 mm: what it hid of the hollow comes back; 0.02 is what the noise of a hollow leaves open.
    const hollow = ({ surface }: Examination) => surface.hollows[0]!.hollowMm.value;
    expect(Math.abs(hollow(withRail) - hollow(without) - 0.08)).toBeLessThan(0.02);
    await page.getByRole("button", { name: "Settings" }).press("Enter");
    expect(await page.locator("#rail-now").textContent()).toBe("Taken off the readings now: violin-slack.rail.csv.");
    await page.getByRole("button", { name: "Leave the rail out" }).press("Enter");
    const again = await examinationAfter(page, () =>
      page.getByRole("button", { name: "Examine again" }).press("Enter"),
    );
    expect(hollow(again)).toBe(hollow(without));
    await page.close();
  });

  test("goes on to the next board, and is said to", async () => {
    const page = await openApp();
    await examinationAfter(page, () => page.setInputFiles("#pick-files", files));
    await examinationAfter(page, () => page.setInputFiles("#pick-files", path("violin-to-leave")));
    expect(await page.locator(".notice").textContent()).toContain(
      "Your rail is kept from the board before: violin-slack.rail.csv.",
    );
    await page.close();
  });

  test("alone waits for readings where only an example is on the sheet", async () => {
    const page = await openApp();
    await page.setInputFiles("#pick-files", files[2]!);
    await page.locator(".notice p").first().waitFor();
    expect(await page.locator(".notice").textContent()).toContain("violin-slack.rail.csv waits");
    await page.close();
  });
});

describe("settings of the pull, the ruts and the spare", () => {
  test("are asked for in the drawer and reach the examination", async () => {
    const page = await openApp();
    await examinationAfter(page, () => page.setInputFiles("#pick-files", path("violin-to-leave")));
    await page.getByRole("button", { name: "Settings" }).click();
    await page.selectOption('[name="tension"]', "off");
    await page.fill('[name="pull_lowest"]', "0.12");
    await page.fill('[name="pull_highest"]', "0.08");
    await page.fill('[name="rut_width"]', "2.5");
    await page.selectOption('[name="spare"]', "edges");
    const seen = await examinationAfter(page, () => page.getByRole("button", { name: "Examine again" }).click());
    expect(seen.instrument.rutWidthMm.value).toBe(2.5);
    expect(seen.cautions.join(" ")).toContain("brought to pitch by the pull that was measured");
    expect(await page.locator(".which-board .changed").textContent()).toContain("spare above all the edges");
    await page.close();
  });
});

test("each of the new sheets goes on one sheet of A4", async () => {
  const page = await openApp();
  for (const example of ["cello-along-strings", "viola-hand-planed", "violin-quick-look", "violin-slack"]) {
    await examinationAfter(page, () => page.selectOption("#example", example));
    const sheet = (await page.pdf({ preferCSSPageSize: true })).toString("latin1");
    expect(sheet.match(/\/Type \/Page\b(?!s)/g), example).toHaveLength(1);
  }
  await page.close();
});

test.each([820, 768])("on a tablet %i px wide no new sheet runs off the side", async (width) => {
  const context = await browser.newContext({ viewport: { width, height: 1180 }, hasTouch: true });
  const page = await context.newPage();
  await page.goto(app.url);
  await page.locator("h1").first().waitFor();
  for (const example of ["cello-along-strings", "viola-hand-planed", "violin-quick-look", "violin-slack"]) {
    await examinationAfter(page, () => page.selectOption("#example", example));
    const offSide = await page.evaluate(
      () => document.documentElement.scrollWidth - document.documentElement.clientWidth,
    );
    expect(offSide, example).toBeLessThanOrEqual(0);
  }
  await page.getByRole("button", { name: "Settings" }).tap();
  const small = await page.locator("dialog button, dialog input, dialog select, dialog summary").evaluateAll((all) =>
    all
      .map((one) => ({ name: one.textContent || one.getAttribute("name"), box: one.getBoundingClientRect() }))
      .filter(({ box }) => box.height > 0 && (box.height < 44 || box.width < 44))
      .map(({ name }) => name),
  );
  expect(small).toEqual([]);
  await context.close();
});

test.each(["light", "dark"] as const)("axe finds nothing amiss on the new sheets, %s", async (colorScheme) => {
  for (const example of ["viola-hand-planed", "violin-quick-look", "violin-slack"]) {
    const context = await browser.newContext({ viewport: { width: 1400, height: 900 }, colorScheme });
    const page = await context.newPage();
    await page.goto(app.url);
    await page.locator("h1").first().waitFor();
    await examinationAfter(page, () => page.selectOption("#example", example));
    if (example === "violin-slack") await page.getByRole("button", { name: "Settings" }).click();
    const { violations } = await new AxeBuilder({ page }).analyze();
    expect(violations.map(({ id, nodes }) => `${example}: ${id} ${nodes[0]?.html}`)).toEqual([]);
    await context.close();
  }
});
