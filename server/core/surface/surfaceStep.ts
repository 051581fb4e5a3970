/**
 * One Gauss–Newton step of the surface towards weighted readings.
 *
 * Unknowns: the shape's parameters, each further set-up's height and pitch, and the form's coefficients where there is a form.
 * What is known beforehand is held softly: each soft constraint, and each coefficient of the form, counts as one more reading of
 * weight (noise / spread)².
 *
 * in: readings, where the surface stands, residuals (mm), weights of the readings -> out: where it stands next and the unscaled
 * covariance of all unknowns in this order, (GᵀWG)⁻¹; or "undetermined".
 * Gauss–Newton with the analytic gradient of idealSurface.ts; radii and u0 are kept where the formulas hold.
 */
import { addEquation, noEquations, solveEquations } from "../maths/normalEquations.ts";
import type { FitReadings } from "./fitReadings.ts";
import { type Form, formModes, writeFormModes } from "./form.ts";
import { heightMm, parameterNames, type SurfacePlan, type SurfaceShape, writeHeightGradient } from "./idealSurface.ts";
import { heightSpreadMm, pitchSpread, setUpMm, writeSetUp } from "./setUps.ts";
import { combinedOn, type SoftConstraint } from "./softConstraints.ts";

/** A surface as the fit moves it: the ideal shape, the form on it, and what each further set-up reads high. */
export type Placed = { readonly shape: SurfaceShape; readonly form: Form; readonly setUpUnknowns: Float64Array };

/** What is known before the readings: soft constraints on the shape, and how great the form's coefficients are, mm. */
export type Known = { readonly constraints: readonly SoftConstraint[]; readonly formSpreadMm: number };

export type SurfaceStep =
  | { readonly outcome: "solved"; readonly placed: Placed; readonly unscaledCovariance: Float64Array }
  | { readonly outcome: "undetermined" };

const shapeColumns = parameterNames.length;

export function surfaceStep(
  readings: FitReadings,
  plan: SurfacePlan,
  known: Known,
  placed: Placed,
  residuals: Float64Array,
  weights: Float64Array,
  noiseMm: number,
): SurfaceStep {
  const formColumn = shapeColumns + readings.setUps.unknowns;
  const columns = formColumn + placed.form.length;
  const equations = noEquations(columns);
  const row = new Float64Array(columns);
  const writeRow = rowWriter(readings, plan, placed);
  for (let i = 0; i < readings.count; i += 1) {
    writeRow(i, row);
    addEquation(equations, row, residuals[i], weights[i]);
  }
  const hold = (write: (row: Float64Array) => void, off: number, spread: number): void => {
    row.fill(0);
    write(row);
    addEquation(equations, row, off, (noiseMm / spread) ** 2);
  };
  for (const { combination, setting, spread } of known.constraints) {
    const write = (into: Float64Array): void => {
      parameterNames.forEach((name, j) => {
        into[j] = combination[name] ?? 0;
      });
    };
    hold(write, setting - combinedOn(placed.shape, combination), spread);
  }
  const one =
    (column: number) =>
    (into: Float64Array): void => {
      into[column] = 1;
    };
  placed.setUpUnknowns.forEach((value, j) => {
    hold(one(shapeColumns + j), -value, j % 2 === 0 ? heightSpreadMm : pitchSpread);
  });
  placed.form.forEach((value, j) => {
    hold(one(formColumn + j), -value, known.formSpreadMm);
  });
  const solved = solveEquations(equations);
  if (solved.outcome === "undetermined") return solved;
  const moved = (values: Float64Array, column: number) => values.map((value, j) => value + solved.step[column + j]);
  return {
    outcome: "solved",
    placed: {
      shape: movedShape(placed.shape, solved.step),
      setUpUnknowns: moved(placed.setUpUnknowns, shapeColumns),
      form: moved(placed.form, formColumn),
    },
    unscaledCovariance: solved.unscaledCovariance,
  };
}

/** Writes how the height at a reading answers to each unknown: shape, then set-ups, then form. */
export function rowWriter(
  { setUps, setUp, xMm, yMm }: FitReadings,
  plan: SurfacePlan,
  { shape, form }: Placed,
): (index: number, row: Float64Array) => void {
  const formColumn = shapeColumns + setUps.unknowns;
  return (i, row) => {
    writeHeightGradient(plan, shape, xMm[i], yMm[i], row);
    if (setUps.unknowns > 0) writeSetUp(setUps, setUp[i], xMm[i], yMm[i], row, shapeColumns);
    if (form.length > 0) writeFormModes(plan, xMm[i], yMm[i], row, formColumn);
  };
}

/** Reading less surface at every reading, mm. */
export function residualsMm(readings: FitReadings, plan: SurfacePlan, placed: Placed): Float64Array {
  const { setUps, setUp, xMm, yMm } = readings;
  const { shape, form, setUpUnknowns } = placed;
  const residuals = new Float64Array(readings.count);
  for (let i = 0; i < readings.count; i += 1)
    residuals[i] = readings.heightMm[i] - heightMm(plan, shape, xMm[i], yMm[i]);
  if (setUps.unknowns > 0) {
    for (let i = 0; i < readings.count; i += 1)
      residuals[i] -= setUpMm(setUps, setUpUnknowns, setUp[i], xMm[i], yMm[i]);
  }
  if (form.length > 0) {
    const modes = new Float64Array(formModes);
    for (let i = 0; i < readings.count; i += 1) {
      writeFormModes(plan, xMm[i], yMm[i], modes, 0);
      for (let j = 0; j < formModes; j += 1) residuals[i] -= form[j] * modes[j];
    }
  }
  return residuals;
}

/** The shape after a step; radii and u0 are kept where the formulas hold. */
function movedShape(shape: SurfaceShape, step: Float64Array): SurfaceShape {
  const raw = Object.fromEntries(parameterNames.map((name, i) => [name, shape[name] + step[i]])) as SurfaceShape;
  const radius = (before: number, after: number): number => Math.min(Math.max(after, before * 0.6), before * 1.7);
  return {
    ...raw,
    radiusNutMm: radius(shape.radiusNutMm, raw.radiusNutMm),
    radiusMiddleMm: radius(shape.radiusMiddleMm, raw.radiusMiddleMm),
    radiusEndMm: radius(shape.radiusEndMm, raw.radiusEndMm),
    hollowDeepest: Math.min(Math.max(raw.hollowDeepest, 0.3), 0.7),
  };
}
