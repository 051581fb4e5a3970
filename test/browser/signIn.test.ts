/**
 * Signing in and out in a browser, where passwords are asked for: what one sees, and what stays behind.
 */
import type { Browser, Page } from "playwright-core";
import { afterAll, beforeAll, expect, test } from "vitest";
import { hashPassword } from "../../server/passwords.ts";
import { openStore } from "../../server/records/openStore.ts";
import type { Store } from "../../server/records/store.ts";
import { startApp } from "./support/appUnderTest.ts";
import { launchChromium } from "./support/chromium.ts";

const password = "spruce and maple";
let store: Store;
let app: Awaited<ReturnType<typeof startApp>>;
let browser: Browser;

beforeAll(async () => {
  store = await openStore({ memory: true }, { version: "0.0.0-test" });
  await store.setPasswordHash("owner", await hashPassword(password));
  [app, browser] = await Promise.all([startApp({ store, keys: store }), launchChromium()]);
});
afterAll(async () => {
  await browser.close();
  await app.stop();
  await store.close();
});

async function signIn(page: Page, typed: string): Promise<void> {
  await page.locator("select[name=role]").selectOption("owner");
  await page.locator("input[name=password]").fill(typed);
  await page.locator("button[type=submit]").click();
}

test("whoever has not signed in is asked to, gets where they were going, and out again", async () => {
  const context = await browser.newContext();
  const page = await context.newPage();
  await page.goto(`${app.url}due`);
  await page.waitForURL(/\/sign-in/);
  await signIn(page, "spruce and Maple");
  await page.getByText("That is not the password").waitFor();

  await signIn(page, password);
  await page.waitForURL(/\/due$/);
  await page.locator("h1").first().waitFor();
  // No script can read the cookie, and no address holds it.
  expect(await page.evaluate("document.cookie")).toBe("");
  const [cookie] = await context.cookies();
  expect(cookie).toMatchObject({ name: "boardtrue-session", httpOnly: true, sameSite: "Strict", path: "/" });
  expect(page.url()).not.toContain(cookie!.value);

  await page.getByText("Sign out").click();
  await page.waitForURL(/\/sign-in/);
  expect(await context.cookies()).toEqual([]);
  const answer = await context.request.get(`${app.url}api/due`, {
    headers: { cookie: `${cookie!.name}=${cookie!.value}` },
  });
  expect(answer.status()).toBe(401);
  await context.close();
});
