/**
 * Writes data/examples anew (`npm run examples`). The recipes are seeded: unchanged recipes give unchanged files.
 */
import { mkdirSync, writeFileSync } from "node:fs";
import { exampleFiles } from "./exampleFiles.ts";

const folder = new URL("../examples/", import.meta.url);
mkdirSync(folder, { recursive: true });
for (const [name, text] of exampleFiles()) writeFileSync(new URL(name, folder), text);
