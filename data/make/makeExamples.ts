/**
 * Writes data/examples anew (`npm run examples`). The recipes are seeded: unchanged recipes give unchanged files.
 */
import { mkdirSync, writeFileSync } from "node:fs";
import { exampleFiles } from "./exampleFiles.ts";
import { historyFiles } from "./historyFiles.ts";

const examples = new URL("../examples/", import.meta.url);
const histories = new URL("histories/", examples);
mkdirSync(histories, { recursive: true });
for (const [name, text] of exampleFiles()) writeFileSync(new URL(name, examples), text);
for (const [name, text] of historyFiles()) writeFileSync(new URL(name, histories), text);
