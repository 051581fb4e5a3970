/**
 * How time and memory grow with a scan: `boardtrue examine FILE --no-points --json` on 50,000 to 1,000,000 readings of a cello.
 *
 * Each is a program of its own, start and all, as a workshop's script runs it; nothing is warm. Prints wall time, the processor's time
 * (it doesn't grow while others share the machine), the ratio of that to the scan before, and the most memory held.
 * Not part of the tests. Run it with `tsx test/bench/size.bench.ts`.
 */
import { spawnSync } from "node:child_process";
import { mkdtempSync, openSync, rmSync, writeSync } from "node:fs";
import { tmpdir } from "node:os";
import { join } from "node:path";
import type { Took } from "./support/commandMeasured.ts";
import { scanCsv } from "./support/scanCsv.ts";

const sizes = [50_000, 100_000, 200_000, 1_000_000] as const;

const folder = mkdtempSync(join(tmpdir(), "boardtrue-scans-"));

function writtenScan(readings: number): string {
  const path = join(folder, `${readings}.csv`);
  const file = openSync(path, "w");
  for (const piece of scanCsv(readings)) writeSync(file, piece);
  return path;
}

function examined(path: string): Took {
  const command = join(import.meta.dirname, "support/commandMeasured.ts");
  const { status, stdout, stderr } = spawnSync(
    process.execPath,
    ["--import", "tsx", command, "examine", path, "--no-points", "--json"],
    { encoding: "utf8", maxBuffer: 64 * 1024 * 1024 },
  );
  if (status !== 0 || JSON.parse(stdout).readings.count === 0) throw new Error(stderr);
  return JSON.parse(stderr.trim().split("\n").at(-1) ?? "") as Took;
}

try {
  console.log("readings    wall s   processor s   ratio   memory MB");
  let before: Took | null = null;
  for (const readings of sizes) {
    const took = examined(writtenScan(readings));
    const ratio = before === null ? "" : (took.processorS / before.processorS).toFixed(2);
    console.log(
      [
        String(readings).padEnd(9),
        took.wallS.toFixed(1).padStart(8),
        took.processorS.toFixed(1).padStart(13),
        ratio.padStart(7),
        took.mostMemoryMB.toFixed(0).padStart(11),
      ].join(" "),
    );
    before = took;
  }
} finally {
  rmSync(folder, { recursive: true });
}
