/**
 * Whether a board shows long waves of workmanship (form.ts), and the fit that takes them as part of the unworn surface.
 *
 * The waves are looked for in what the unworn readings leave over: how much of it would the waves explain beyond what as many
 * numbers explain of mere noise (the F ratio)? Only where that is far from chance is the form fitted, so that a board
 * without waves is not bent to its noise. How great the waves are is then told by the waves themselves, round by round
 * (expectation-maximisation), and never taken to be more than `mostSpreadMm`: wear is deeper than workmanship.
 *
 * A hollow of a wave is easily taken for wear: so the waves are looked for on the board as if it had no wear, too.
 *
 * in: the surfaces of a worn and of an unworn board -> out: the one to believe in, with form where waves show. Lengths in mm.
 */
import { addEquation, noEquations, solveEquations } from "../maths/normalEquations.ts";
import type { FitReadings } from "./fitReadings.ts";
import { formModes, noForm, writeFormModes } from "./form.ts";
import { parameterNames, writeHeightGradient } from "./idealSurface.ts";
import { type Fit, type Rivals, refit, type SurfaceProblem } from "./mixtureFit.ts";
import { writeSetUp } from "./setUps.ts";
import { isSurelyWorn, showsWear } from "./showsWear.ts";
import { residualsMm } from "./surfaceStep.ts";
import { mostSpreadMm, spreadOf } from "./waveSpread.ts";

/** Noise alone reaches this ratio once in two hundred boards (F distribution, 21 and some 40 degrees of freedom). */
const leastRatio = 2.5;
/** Unworn readings that waves need to be told from chance. */
const fewestReadings = 45;
const spreadRounds = 4;

/** Of a worn and an unworn board's surface, each with its waves where they show, the one to believe in. */
export function believedFit({ worn, unworn }: Rivals, readings: FitReadings, problem: SurfaceProblem): Fit {
  const withWaves = (fit: Fit): Fit => fitWithForm(fit, readings, problem) ?? fit;
  if (worn === null) return withWaves(unworn);
  if (isSurelyWorn(worn, unworn, readings, problem)) return withWaves(worn);
  const rival = withWaves(unworn);
  const withWear = withWaves(worn);
  return showsWear(withWear, rival, readings, problem) ? withWear : rival;
}

function fitWithForm(fit: Fit, readings: FitReadings, problem: SurfaceProblem): Fit | null {
  if (ratioOfWaves(fit, readings, problem) < leastRatio) return null;
  let spreadMm = mostSpreadMm / 2;
  let standing: Fit = { ...fit, placed: { ...fit.placed, form: new Float64Array(formModes) } };
  for (let round = 0; round < spreadRounds; round += 1) {
    const next = refit(standing, readings, withSpread(problem, spreadMm));
    if (next === null) return null;
    standing = next;
    spreadMm = spreadOf(next);
  }
  return standing;
}

export function withSpread(problem: SurfaceProblem, formSpreadMm: number): SurfaceProblem {
  return { ...problem, known: { ...problem.known, formSpreadMm } };
}

/** What the waves explain of the unworn readings' scatter, a wave, against what is left, a reading. */
function ratioOfWaves({ placed, unworn }: Fit, readings: FitReadings, { plan }: SurfaceProblem): number {
  const residuals = residualsMm(readings, plan, { ...placed, form: noForm });
  const fitted = parameterNames.length + readings.setUps.unknowns;
  const equations = noEquations(fitted + formModes);
  const row = new Float64Array(fitted + formModes);
  let squares = 0;
  let counted = 0;
  for (let i = 0; i < readings.count; i += 1) {
    writeHeightGradient(plan, placed.shape, readings.xMm[i], readings.yMm[i], row);
    writeSetUp(readings.setUps, readings.setUp[i], readings.xMm[i], readings.yMm[i], row, parameterNames.length);
    writeFormModes(plan, readings.xMm[i], readings.yMm[i], row, fitted);
    addEquation(equations, row, residuals[i], unworn[i]);
    squares += unworn[i] * residuals[i] ** 2;
    counted += unworn[i];
  }
  if (counted < fewestReadings) return 0;
  holdAll(equations.columns, row, (held) => addEquation(equations, held, 0, 1e-6));
  const solved = solveEquations(equations);
  if (solved.outcome === "undetermined") return 0;
  const explained = solved.step.reduce((sum, step, j) => sum + step * equations.side[j], 0);
  const left = Math.max(squares - explained, Number.MIN_VALUE);
  return explained / formModes / (left / (counted - fitted - formModes));
}

/** Holds each unknown ever so softly, so that waves much like the ideal shape's own don't leave the equations undetermined. */
function holdAll(columns: number, row: Float64Array, hold: (row: Float64Array) => void): void {
  for (let j = 0; j < columns; j += 1) {
    row.fill(0);
    row[j] = 1;
    hold(row);
  }
}
