/**
 * The built page with answers of our own: every request is met from web/dist or from a fixture, nothing else is reached.
 *
 * For tests of the drawing, where the truth must be known by formula. What the real server says is tested in bench.test.ts.
 */
import { existsSync, readFileSync } from "node:fs";
import { extname, join } from "node:path";
import type { Browser, BrowserContextOptions, Page } from "playwright-core";
import type { Examination } from "../../../server/core/examination.ts";

const dist = join(import.meta.dirname, "../../../web/dist");
const types: Readonly<Record<string, string>> = {
  ".html": "text/html",
  ".js": "text/javascript",
  ".css": "text/css",
  ".svg": "image/svg+xml",
};
const policy = "default-src 'none'; script-src 'self'; style-src 'self'; img-src 'self'; connect-src 'self'";

export async function openFixtureBench(
  browser: Browser,
  examination: Examination,
  options: BrowserContextOptions = {},
): Promise<Page> {
  const context = await browser.newContext({ viewport: { width: 1400, height: 900 }, ...options });
  const page = await context.newPage();
  await page.route("**/*", async (route) => {
    const { pathname } = new URL(route.request().url());
    if (pathname === "/api/examinations") return route.fulfill({ json: examination });
    if (pathname === "/api/kinds") return route.fulfill({ json: { kinds: [] } });
    if (pathname === "/api/examples") return route.fulfill({ json: { examples: [example(examination)] } });
    if (pathname.startsWith("/api/examples/")) return route.fulfill({ contentType: "text/csv", body: "x,y,height\n" });
    const path = join(dist, pathname === "/" ? "index.html" : pathname);
    if (!existsSync(path)) return route.fulfill({ status: 404 });
    return route.fulfill({
      contentType: types[extname(path)] ?? "application/octet-stream",
      headers: { "content-security-policy": policy },
      body: readFileSync(path),
    });
  });
  await page.goto("http://bench.test/");
  await page.locator("h1").first().waitFor();
  return page;
}

const example = (examination: Examination) => ({
  id: "board",
  number: "07",
  title: `a ${examination.instrument.kind} from the loan store`,
  story: "An invented board.",
  readings: "/api/examples/board/readings.csv",
  thickness: null,
  rail: null,
});
