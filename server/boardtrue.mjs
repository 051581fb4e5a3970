#!/usr/bin/env node
// The package's command: lets Node read TypeScript, then runs command.ts.
import { register } from "tsx/esm/api";

register();
await import("./command.ts");
