/**
 * Before the browser tests: the page is built and the browser unpacked, so that `npm test` needs no step before it.
 */
import { join } from "node:path";
import { build } from "vite";
import { unpackChromium } from "./support/chromium.ts";

export default async function setup(): Promise<void> {
  await build({ root: join(import.meta.dirname, "../../web"), logLevel: "warn" });
  await unpackChromium();
}
