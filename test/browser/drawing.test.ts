/**
 * The drawing says what the examination says: every number, place and colour on the sheet is held against a board made by formula.
 */
import type { Browser, Page } from "playwright-core";
import { afterAll, beforeAll, describe, expect, test } from "vitest";
import { known } from "../support/known.ts";
import { fixtureExamination } from "../web/fixtureExamination.ts";
import { launchChromium } from "./support/chromium.ts";
import { openFixtureBench } from "./support/fixtureBench.ts";
import { coloursAt, legend, planScales } from "./support/sheetOnPage.ts";

const cello = fixtureExamination("cello");
const { instrument } = cello;

/** Half a pixel: paths are written to hundredths, centres of pixels lie half a pixel off. */
const pixel = 0.5;

let browser: Browser;
let page: Page;

beforeAll(async () => {
  browser = await launchChromium();
  page = await openFixtureBench(browser, cello);
});

afterAll(() => browser.close());

const numbersIn = (text: string | null): number[] =>
  [...(text ?? "").replaceAll("\u2212", "-").matchAll(/-?\d+(\.\d+)?/g)].map((match) => Number(match[0]));

describe("the headline", () => {
  test("says the decision, the deepest cut, what is left and the limit", async () => {
    await expect(page.locator("h1").textContent()).resolves.toBe("Dress it");
    const { planing, thickness } = cello;
    expect(numbersIn(await page.locator(".lead").textContent())).toEqual([
      planing!.planeOffMm.value,
      planing!.planeOffMm.u,
      Number(thickness!.edgeAfterMm.value.toFixed(2)),
      thickness!.edgeAfterMm.u,
      thickness!.limitMm,
    ]);
  });

  test("gives every reason with its limit and origin, and what would turn it", async () => {
    const reasons = await page.locator(".reasons li").allTextContents();
    expect(reasons).toHaveLength(cello.verdict.reasons.length);
    cello.verdict.reasons.forEach((reason, i) => {
      expect(reasons[i]).toContain(reason.says);
      expect(reasons[i]).toContain(`limit ${reason.limitMm!.toFixed(2)} mm, ${reason.origin}`);
    });
    const changes = await page.locator(".changes li").allTextContents();
    expect(changes).toEqual(
      cello.verdict.wouldChange.map((change, i) => `${change.says}: ${["too close to call", "leave it"][i]}.`),
    );
  });
});

describe("the plan", () => {
  test("is drawn with the nut at the left and the treble side on top", async () => {
    const scales = await planScales(page, instrument);
    expect(scales.x(0)).toBeLessThan(scales.x(instrument.boardLengthMm.value));
    expect(scales.y(10)).toBeLessThan(scales.y(-10));
    await expect(page.locator(".plan .string-name").allTextContents()).resolves.toEqual([...instrument.strings]);
  });

  test("rings the deepest place where it is, and says so", async () => {
    const scales = await planScales(page, instrument);
    const ring = page.locator("circle.deepest-ring");
    expect(Number(await ring.getAttribute("cx"))).toBeCloseTo(scales.x(cello.deepest!.xMm), 0);
    expect(Number(await ring.getAttribute("cy"))).toBeCloseTo(scales.y(cello.deepest!.yMm), 0);
    const { depthMm, string, note, xMm, kind } = cello.deepest!;
    // The tip may hang in the rut under another string, so the deepest of all may be deeper than it reads.
    expect(cello.wornPlaces.some((place) => place.atLeast)).toBe(true);
    await expect(page.locator(".deepest-words").textContent()).resolves.toBe(
      `deepest at least ${depthMm.toFixed(2)} mm: ${kind}, ${string} string, ${note}, ${xMm} mm from the nut`,
    );
  });

  test("writes soundings in hundredths of a millimetre where the readings stand", async () => {
    const scales = await planScales(page, instrument);
    const soundings = await page.locator("text.sounding").evaluateAll((texts) =>
      texts.map((text) => ({
        text: text.textContent,
        isBeside: text.classList.contains("beside"),
        x: Number(text.getAttribute("x")),
        y: Number(text.getAttribute("y")),
        xMm: Number(text.getAttribute("data-x-mm")),
        yMm: Number(text.getAttribute("data-y-mm")),
      })),
    );
    expect(soundings.length).toBeGreaterThan(25);
    for (const sounding of soundings) {
      const point = cello.points.find((p) => p.xMm === sounding.xMm && p.yMm === sounding.yMm)!;
      expect(sounding.text).toBe(String(Math.round(point.wearMm * 100)));
      // A number beside its place stands next to a mark of 5 px at that place.
      const away = Math.abs(sounding.x - scales.x(point.xMm));
      if (sounding.isBeside) expect(away).toBeLessThan(30);
      else expect(away).toBeLessThan(pixel);
      expect(Math.abs(sounding.y - scales.y(point.yMm))).toBeLessThan(pixel);
    }
    const depths = soundings.map((sounding) => Number(sounding.text));
    expect(Math.max(...depths)).toBe(Math.round(cello.deepest!.depthMm * 100));
  });

  test("shows a reading within its noise as a dot, never as a number", async () => {
    const floor = 2 * known(cello.surface.noiseMm);
    const numbers = await page.locator("text.sounding").allTextContents();
    expect(Math.min(...numbers.map(Number))).toBeGreaterThanOrEqual(Math.floor(floor * 100));
    const dots = await page.locator("circle.reading.noise").count();
    expect(dots).toBeGreaterThan(20);
    expect(dots + numbers.length).toBeLessThanOrEqual(cello.points.length);
  });

  test("lets no two labels touch", async () => {
    const boxes = await page.locator("text.sounding, text.contour-name").evaluateAll((texts) =>
      texts.map((text) => {
        const box = (text as SVGTextElement).getBBox();
        // A line of text is taller than its figures: 0.72 of it is ink.
        return {
          left: box.x,
          right: box.x + box.width,
          top: box.y + box.height * 0.16,
          bottom: box.y + box.height * 0.84,
        };
      }),
    );
    const touching = boxes.flatMap((a, i) =>
      boxes.slice(i + 1).filter((b) => a.left < b.right && b.left < a.right && a.top < b.bottom && b.top < a.bottom),
    );
    expect(touching).toEqual([]);
  });

  test("shades every place in the colour that the legend gives its depth", async () => {
    const scales = await planScales(page, instrument);
    const depths = await legend(page);
    // Within the noise all is bare paper.
    const floorMm = 2 * known(cello.surface.noiseMm);
    const { xMm, yMm, wearMm } = cello.maps!;
    const nodes = xMm.flatMap((x, column) =>
      yMm.flatMap((y, row) => {
        const depth = wearMm[row]![column]!;
        return depth === null || x % 20 !== 0 || y % 3 !== 0 ? [] : [{ x, y, depth }];
      }),
    );
    const inside = nodes.filter(({ x, y }) => x > 1 && x < 579 && Math.abs(y) < 14);
    expect(inside.length).toBeGreaterThan(100);
    expect(inside.filter(({ depth }) => depth > 0.1).length).toBeGreaterThan(10);
    const colours = await coloursAt(
      page,
      inside.map(({ x, y }): [number, number] => [scales.x(x), scales.y(y)]),
    );
    const away = inside.map(({ depth }, i) => {
      const nearest = depths.reduce((best, step) =>
        far(step.colour, colours[i]!) < far(best.colour, colours[i]!) ? step : best,
      );
      return Math.abs(Math.max(nearest.mm, floorMm) - Math.max(depth, floorMm));
    });
    // Half a pixel across a pit wall of 0.1 mm per mm at 3.5 px per mm is 0.015 mm; a row of the legend is 0.004 mm.
    expect(Math.max(...away)).toBeLessThan(0.02);
  });

  test("draws and names the depth contours", async () => {
    const levels = await page
      .locator("path.contour")
      .evaluateAll((paths) => paths.map((path) => path.getAttribute("data-level-mm")));
    expect(levels).toEqual(["0.05", "0.1", "0.2", "0.3", "0.4"]);
    const names = await page.locator("text.contour-name").allTextContents();
    expect(names).toContain("0.05");
    expect(names.every((name) => levels.includes(name))).toBe(true);
  });

  test("makes room for more soundings when drawn nearer, and comes back", async () => {
    const before = await page.locator("text.sounding").count();
    const perMm = (await planScales(page, instrument)).x(1) - (await planScales(page, instrument)).x(0);
    await page.getByRole("button", { name: "Draw the board larger" }).click();
    const scales = await planScales(page, instrument);
    expect(scales.x(1) - scales.x(0)).toBeCloseTo(1.5 * perMm, 1);
    await page.getByRole("button", { name: "Whole board" }).click();
    await expect(page.locator("text.sounding").count()).resolves.toBe(before);
  });
});

describe("the planing map", () => {
  test("gives the cut at every sounding, where the plane stops, and what governs", async () => {
    await page.getByRole("button", { name: "Planing map" }).click();
    const soundings = await page
      .locator("text.sounding")
      .evaluateAll((texts) =>
        texts.map(
          (text) =>
            [text.textContent, Number(text.getAttribute("data-x-mm")), Number(text.getAttribute("data-y-mm"))] as const,
        ),
      );
    expect(soundings.length).toBeGreaterThan(40);
    for (const [text, xMm, yMm] of soundings) {
      const point = cello.points.find((p) => p.xMm === xMm && p.yMm === yMm)!;
      expect(text).toBe(String(Math.round(point.cutMm! * 100)));
    }
    await expect(page.locator("path.contact").count()).resolves.toBe(1);
    await expect(page.locator("path.plane-stops").getAttribute("data-finish-allowance-mm")).resolves.toBe("0.05");
    await page.getByRole("button", { name: "Wear" }).click();
  });

  test("turns to the humps, which are no wear", async () => {
    await page.getByRole("button", { name: "Humps" }).click();
    const highest = Math.round(100 * Math.max(...cello.points.map((point) => -point.wearMm)));
    const soundings = (await page.locator("text.sounding").allTextContents()).map(Number);
    expect(Math.max(...soundings)).toBe(highest);
    await page.getByRole("button", { name: "Wear" }).click();
  });
});

describe("the deepest cut", () => {
  const most = cello.points.reduce((deepest, point) => (point.cutMm! > deepest.cutMm! ? point : deepest));
  const asReadMm = most.cutMm!;
  let planed: Page;

  beforeAll(async () => {
    const planeOffMm = { ...cello.planing!.planeOffMm, value: asReadMm - 0.013, ofReadings: asReadMm };
    planed = await openFixtureBench(browser, { ...cello, planing: { ...cello.planing!, planeOffMm } });
    await planed.getByRole("button", { name: "Planing map" }).click();
  });

  afterAll(() => planed.context().close());

  test("is marked once, with a ring about its number and words over the board", async () => {
    const ring = planed.locator("circle.deepest-ring");
    await expect(ring.count()).resolves.toBe(1);
    await expect(ring.getAttribute("data-x-mm")).resolves.toBe(String(most.xMm));
    await expect(ring.getAttribute("data-y-mm")).resolves.toBe(String(most.yMm));
    await expect(planed.locator(".deepest-words").textContent()).resolves.toContain(
      `deepest cut ${asReadMm.toFixed(2)} mm as read`,
    );
  });

  test("and no other mark covers a number", async () => {
    const boxes = (selector: string) =>
      planed.locator(selector).evaluateAll((all) =>
        all.map((one) => {
          const { left, right, top, bottom, height } = one.getBoundingClientRect();
          // A line of text is taller than its figures.
          const inset = one.tagName === "text" ? height * 0.16 : 0;
          return { left, right, top: top + inset, bottom: bottom - inset };
        }),
      );
    const numbers = await boxes("text.sounding");
    const marks = await boxes("path.contact, path.reading");
    expect(marks.length).toBeGreaterThan(0);
    for (const mark of marks) {
      const covered = numbers.filter(
        (n) => n.left < mark.right && mark.left < n.right && n.top < mark.bottom && mark.top < n.bottom,
      );
      expect(covered).toEqual([]);
    }
  });

  test("as the headline and the map have it differ by what noise adds, and the note says so", async () => {
    const note = await planed.locator(".plan-note").textContent();
    expect(note).toContain(
      `as read, ${asReadMm.toFixed(2)} at the deepest; the headline’s ${(asReadMm - 0.013).toFixed(2)} allows for noise`,
    );
    expect(note).not.toContain("thinnest edge");
  });

  test("of a plan that spares the thinnest edge is said to be deeper for its sake", async () => {
    const planing = { ...cello.planing!, spares: "thinnest place" as const };
    const other = await openFixtureBench(browser, { ...cello, planing });
    await other.getByRole("button", { name: "Planing map" }).click();
    await expect(other.locator(".plan-note").textContent()).resolves.toContain(
      "cuts deeper elsewhere to keep the thinnest edge",
    );
    await other.context().close();
  });
});

describe("true widths", () => {
  test("draw the board to scale, and are taken back by the same switch", async () => {
    const perMm = async () => {
      const scales = await planScales(page, instrument);
      return { along: scales.x(1) - scales.x(0), across: scales.y(0) - scales.y(1) };
    };
    const before = await perMm();
    expect(before.across).toBeGreaterThan(1.9 * before.along);
    const widths = page.getByRole("button", { name: "Draw widths to the same scale as lengths" });
    await widths.click();
    const true_ = await perMm();
    expect(true_.along).toBeCloseTo(before.along, 6);
    // Heights of the drawing are whole pixels.
    expect(Math.abs(true_.across - true_.along)).toBeLessThan(0.01);
    await expect(page.locator(".plan-note").textContent()).resolves.toMatch(/^Drawn to scale;/);
    await widths.click();
    await expect(perMm()).resolves.toEqual(before);
  });
});

describe("the tables", () => {
  test("give the camber's range and state as they give the hollow's", async () => {
    const rows = await page.locator(".shape table").last().locator("tbody tr").allTextContents();
    const { radiusNutMm, radiusToleranceMm } = instrument;
    const range = [-1, 1].map((side) => (radiusNutMm.value + side * radiusToleranceMm.value).toFixed(1)).join("–");
    expect(rows[0]).toContain(range);
    const off = known(cello.surface.camberRadiusMm.nut).value - radiusNutMm.value;
    expect(rows[0]).toMatch(Math.abs(off) <= radiusToleranceMm.value ? /right$/ : off > 0 ? /flat$/ : /round$/);
  });

  test("call a radius that is too large flat, one that is too small round", async () => {
    const nut = known(cello.surface.camberRadiusMm.nut);
    const end = known(cello.surface.camberRadiusMm.end);
    const camberRadiusMm = {
      ...cello.surface.camberRadiusMm,
      nut: { ...nut, value: nut.value + 20 },
      end: { ...end, value: end.value - 20 },
    };
    const other = await openFixtureBench(browser, { ...cello, surface: { ...cello.surface, camberRadiusMm } });
    const rows = await other.locator(".shape table").last().locator("tbody tr").allTextContents();
    expect(rows[0]).toMatch(/too flat$/);
    expect(rows[2]).toMatch(/too round$/);
    await other.context().close();
  });

  test("put the workshop's own template that costs least first", async () => {
    const rows = await page.locator(".planing tbody tr").allTextContents();
    expect(rows).toEqual(["on your 67 template0.381", "on your 62 template0.560"]);
  });
});

describe("the profiles", () => {
  test("stand under the plan on the same scale", async () => {
    const plan = (await page.locator(".plan").boundingBox())!;
    const marks = await page.locator("g.scale g").evaluateAll((groups) =>
      groups.map((group) => ({
        mm: Number(group.querySelector("text")!.textContent),
        left: group.querySelector("line")!.getBoundingClientRect().left,
      })),
    );
    const scales = await planScales(page, instrument);
    for (const mark of marks) expect(Math.abs(plan.x + scales.x(mark.mm) - mark.left)).toBeLessThan(2 * pixel);
  });

  test("carry each string's hollow with the range it should have", async () => {
    const hollows = await page.locator("text.hollow").allTextContents();
    const ranges = await page.locator("text.hollow-range").allTextContents();
    cello.surface.hollows.forEach((hollow, i) => {
      expect(numbersIn(hollows[i]!)).toEqual([Number(hollow.hollowMm.value.toFixed(2)), hollow.hollowMm.u]);
      expect(ranges[i]).toBe(`of ${hollow.withinMm[0].toFixed(2)}–${hollow.withinMm[1].toFixed(2)}`);
    });
  });
});

describe("choosing", () => {
  const readout = () => page.locator("#readout").textContent();
  const straightedge = () => page.locator("path.gap").getAttribute("data-gap-mm");
  const gapUnder = (string: number) =>
    Math.max(...cello.profiles[string]!.straightedgeMm.map((z, i) => z - cello.profiles[string]!.measuredMm[i]!));

  test("begins at the deepest place", async () => {
    await expect(readout()).resolves.toContain(
      `${cello.deepest!.string} string · ${cello.deepest!.xMm} mm from the nut`,
    );
  });

  test("moves string and crossline in all three views by arrow keys", async () => {
    await page.locator(".lengthwise").focus();
    const at = cello.sections.findIndex((section) => section.xMm === cello.deepest!.xMm);
    expect(Number(await straightedge())).toBeCloseTo(gapUnder(3), 6);
    await page.keyboard.press("ArrowDown");
    await page.keyboard.press("ArrowRight");
    const section = cello.sections[at + 1]!;
    const profile = cello.profiles[2]!;
    expect(await readout()).toContain(`D string · ${section.xMm} mm from the nut`);
    expect(Number(await straightedge())).toBeCloseTo(gapUnder(2), 6);
    await expect(page.locator("g.profile.chosen").getAttribute("data-string")).resolves.toBe("D");
    await expect(page.locator("g.section.chosen .crossline-name").textContent()).resolves.toBe(String(section.xMm));
    await expect(page.locator(".section path.template").getAttribute("data-radius-mm")).resolves.toBe(
      String(section.templateRadiusMm),
    );
    for (const line of await page.locator("line.chosen-crossline").all()) {
      expect(await line.getAttribute("data-x-mm")).toBe(String(section.xMm));
    }
    const yMm = profile.yMm[profile.xMm.findIndex((x) => x >= section.xMm)]!;
    const point = cello.points.find((p) => p.xMm === section.xMm && Math.abs(p.yMm - yMm) < 1)!;
    expect(await readout()).toContain(`${point.wearMm.toFixed(2)} mm lost · ${point.cutMm!.toFixed(2)} mm to take off`);
  });

  test("stops at the last string and the last crossline", async () => {
    for (let i = 0; i < 20; i++) {
      await page.keyboard.press("ArrowRight");
      await page.keyboard.press("ArrowUp");
    }
    expect(await readout()).toContain(`A string · ${cello.sections.at(-1)!.xMm} mm from the nut`);
  });

  test("follows the pointer on plan, profiles and sections", async () => {
    const scales = await planScales(page, instrument);
    const section = cello.sections[4]!;
    await page.locator(".plan svg").click({ position: { x: scales.x(section.xMm + 3), y: scales.y(-10) } });
    expect(await readout()).toContain(`C string · ${section.xMm} mm from the nut`);
    await page.locator('g.section[data-crossline="7"]').click();
    expect(await readout()).toContain(`C string · ${cello.sections[7]!.xMm} mm from the nut`);
  });

  test("goes to a worn place from its row, by Enter too", async () => {
    await page.getByRole("button", { name: /finger pit, A string/ }).focus();
    await page.keyboard.press("Enter");
    expect(await readout()).toContain(`A string · ${cello.deepest!.xMm} mm from the nut`);
  });
});

describe("other boards", () => {
  test.each(["violin", "bass"] as const)("a %s gets soundings as legible as a cello's", async (kind) => {
    const other = await openFixtureBench(browser, fixtureExamination(kind));
    const count = await other.locator("text.sounding").count();
    expect(count).toBeGreaterThan(25);
    const size = await other
      .locator("text.sounding")
      .first()
      .evaluate((text) => Number.parseFloat(getComputedStyle(text).fontSize));
    expect(size).toBeGreaterThanOrEqual(13);
    await other.context().close();
  });

  test("a quick look without maps draws its readings and says what it can't", async () => {
    const quick = await openFixtureBench(browser, { ...cello, maps: null, planing: null, thickness: null });
    await expect(quick.locator(".plan-note").textContent()).resolves.toContain("can’t carry this map");
    expect(await quick.locator("text.sounding").count()).toBeGreaterThan(20);
    await expect(quick.locator(".lead").textContent()).resolves.toContain("Thickness was not measured");
    await quick.context().close();
  });
});

const far = (a: readonly number[], b: readonly number[]): number =>
  Math.hypot(...a.map((channel, i) => channel - b[i]!));
