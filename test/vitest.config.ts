/**
 * The test runner's settings.
 *
 * Two projects: everything that runs in Node alone (with a real PostgreSQL once a test asks for one), and the tests that open the page in a browser (test/browser), which may
 * take longer and may have a set-up of their own (test/browser/globalSetup.ts).
 */
import { existsSync } from "node:fs";
import { fileURLToPath } from "node:url";
import { defineConfig } from "vitest/config";

const root = fileURLToPath(new URL("..", import.meta.url));
const browserSetup = fileURLToPath(new URL("browser/globalSetup.ts", import.meta.url));

export default defineConfig({
  root,
  cacheDir: fileURLToPath(new URL(".cache/vite", import.meta.url)),
  test: {
    reporters: ["default", "./test/support/tally.ts"],
    projects: [
      {
        extends: true,
        test: {
          name: "node",
          include: ["test/**/*.test.ts"],
          exclude: ["test/browser/**"],
          globalSetup: [fileURLToPath(new URL("support/postgresForTests.ts", import.meta.url))],
          testTimeout: 20_000,
        },
      },
      {
        extends: true,
        test: {
          name: "browser",
          include: ["test/browser/**/*.test.ts"],
          globalSetup: existsSync(browserSetup) ? [browserSetup] : [],
          testTimeout: 60_000,
          hookTimeout: 120_000,
        },
      },
    ],
  },
});
