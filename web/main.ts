/**
 * Boots the page: the bench, with the server behind it.
 */
import * as service from "./api.ts";
import { openBench } from "./pages/bench.ts";

void openBench(document.body, service);
