/**
 * What the loan store's instruments went through before they came in last: invented, each with growth of wear that is known.
 *
 * Most of the latest visits are the example boards. Reasons and works are in the words of a bench; nothing of it ever happened.
 */
import type { InstrumentHistory } from "../history.ts";
import { basses } from "./bassesOverYears.ts";
import { cellos } from "./cellosOverYears.ts";
import { violas } from "./violasOverYears.ts";
import { violins } from "./violinsOverYears.ts";

/** In the order in which they are shown: the cello that the page opens with first. */
export const histories: readonly InstrumentHistory[] = [...cellos, ...violas, ...violins, ...basses];
