/**
 * Builds the page once, where it has not been built yet: a fresh checkout serves it without a second step.
 *
 * In: the web folder. Out: the folder of the built page.
 */
import { existsSync } from "node:fs";
import { join } from "node:path";

export async function builtPage(webFolder: string): Promise<string> {
  const built = join(webFolder, "dist");
  if (!existsSync(join(built, "index.html"))) {
    const { build } = await import("vite");
    await build({ root: webFolder, logLevel: "warn" });
  }
  return built;
}
