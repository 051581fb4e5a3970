/**
 * A reporter that ends the run with one line to read or to match: `N passed, N failed`, and `, N skipped` when any are.
 *
 * A test file that can't be loaded, and an error outside every test, count as one failed each: the line never says
 * "0 failed" of a run that went wrong. It is written as the process ends, so that nothing comes after it, and the exit status
 * agrees with it.
 */
import type { Reporter, TestModule } from "vitest/node";

export type Tally = { readonly passed: number; readonly failed: number; readonly skipped: number };

export function tallyInWords(tally: Tally): string {
  const skipped = tally.skipped > 0 ? `, ${tally.skipped} skipped` : "";
  return `${tally.passed} passed, ${tally.failed} failed${skipped}`;
}

function tallyOf(modules: readonly TestModule[], errorsOutside: number): Tally {
  const states = modules.flatMap((module) => [...module.children.allTests()].map((test) => test.result().state));
  const brokenFiles = modules.filter((module) => module.errors().length > 0).length;
  const count = (state: string) => states.filter((one) => one === state).length;
  return {
    passed: count("passed"),
    failed: count("failed") + brokenFiles + errorsOutside,
    skipped: count("skipped") + count("pending"),
  };
}

export default class TallyReporter implements Reporter {
  private tally: Tally | null = null;

  onInit(): void {
    process.on("exit", () => {
      if (this.tally === null) return;
      // A package that a test loads may end the process by a hook of its own, with 0 whatever happened (PostgreSQL's does).
      if (this.tally.failed > 0) process.exitCode = 1;
      process.stdout.write(`${tallyInWords(this.tally)}\n`);
    });
  }

  onTestRunEnd(modules: readonly TestModule[], unhandledErrors: readonly unknown[]): void {
    this.tally = tallyOf(modules, unhandledErrors.length);
  }
}
