/**
 * The command as it stands, with what it took said at its end: a last line on standard error, JSON, time in s and memory in MB.
 *
 * Started as a program of its own, so that nothing before it counts: `tsx test/bench/support/commandMeasured.ts examine FILE --json`.
 */
import { performance } from "node:perf_hooks";

export type Took = { readonly wallS: number; readonly processorS: number; readonly mostMemoryMB: number };

process.on("exit", () => {
  const { userCPUTime, systemCPUTime, maxRSS } = process.resourceUsage();
  const took: Took = {
    wallS: performance.now() / 1e3,
    processorS: (userCPUTime + systemCPUTime) / 1e6,
    mostMemoryMB: maxRSS / 1024,
  };
  process.stderr.write(`${JSON.stringify(took)}\n`);
});

await import("../../../server/command.ts");
