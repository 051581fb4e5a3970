/**
 * Builds the page where it has not been built yet, or where any of its sources is newer than what was built: a fresh checkout serves it
 * without a second step, and an old page is never served in silence.
 *
 * In: the web folder. Out: the folder of the built page.
 */
import { readdirSync, statSync } from "node:fs";
import { join, relative, sep } from "node:path";

const builtName = "dist";

export async function builtPage(webFolder: string): Promise<string> {
  const built = join(webFolder, builtName);
  if (isStale(webFolder)) {
    const { build } = await import("vite");
    await build({ root: webFolder, logLevel: "warn" });
  }
  return built;
}

/** Whether the built page is missing, or older than any source of it. */
export function isStale(webFolder: string): boolean {
  const builtMs = changedMs(join(webFolder, builtName, "index.html"));
  if (builtMs === null) return true;
  return readdirSync(webFolder, { recursive: true, withFileTypes: true }).some((entry) => {
    const path = join(entry.parentPath, entry.name);
    const isSource = entry.isFile() && relative(webFolder, path).split(sep)[0] !== builtName;
    return isSource && (changedMs(path) ?? 0) > builtMs;
  });
}

/** When a file was last changed, ms since 1970; null where there is none. */
const changedMs = (path: string): number | null => statSync(path, { throwIfNoEntry: false })?.mtimeMs ?? null;
