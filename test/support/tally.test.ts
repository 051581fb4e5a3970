/**
 * The last line of a test run.
 */
import { expect, test } from "vitest";
import { tallyInWords } from "./tally.ts";

test("a run ends with what passed and what failed, and with what was skipped only where something was", () => {
  expect(tallyInWords({ passed: 12, failed: 0, skipped: 0 })).toBe("12 passed, 0 failed");
  expect(tallyInWords({ passed: 12, failed: 3, skipped: 1 })).toBe("12 passed, 3 failed, 1 skipped");
});
