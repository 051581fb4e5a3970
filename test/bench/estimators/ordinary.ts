/**
 * Ordinary least squares: every reading counts the same, so the surface sinks into the wear. The floor of naivety.
 */
import { type Estimator, plainStart } from "./estimator.ts";
import { expectile } from "./gaussNewton.ts";

export const ordinary: Estimator = (task) => expectile(task, plainStart(task), 1);
