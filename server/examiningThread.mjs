/** The entry of an examining thread: lets Node read TypeScript there too, then runs examiningThread.ts. */
import { register } from "tsx/esm/api";

register();
await import("./examiningThread.ts");
