/**
 * Which readings lie on the unworn surface: one-sided weights. Wear only takes wood away, so a reading below the surface may be
 * wear, one above it is noise.
 *
 * Residual r = reading − surface, mm; s the noise. Above the surface a reading counts in full, and with falling weight beyond
 * four s (a slip of the pen, or a hump); below it Tukey's bisquare, (1 − (r/3.5s)²)², lets it go.
 *
 * Weights that favour one side pull the surface up. `pull` is the mean of that pull on Gaussian noise, E[w·r] / E[w]: taken off
 * the residuals, an unworn board's surface does not float.
 *
 * Source of the bisquare: Beaton and Tukey, Technometrics 16 (1974) 147–185 (from memory). Its usual constant, 4.685, is tightened
 * because wear, unlike an outlier, may be shallow.
 */
const reach = 3.5;
const fullAbove = 4;

/** Weight of a reading, 0 to 1, for its residual in units of the noise. */
export function oneSidedWeight(residual: number): number {
  if (residual >= 0) return residual <= fullAbove ? 1 : fullAbove / residual;
  if (residual <= -reach) return 0;
  return (1 - (residual / reach) ** 2) ** 2;
}

/** Mean of the weights, and mean pull, on Gaussian noise of standard deviation 1. */
export const onNoise = expectations();

/**
 * Noise judged from the upper side, where there is no wear: the mean square of the residuals above the surface, for as many
 * readings as the weights say are unworn, less the freedom that the fitted parameters took up. mm.
 */
export function noiseFromAboveMm(residuals: Float64Array, weights: Float64Array, parameters: number): number {
  let squares = 0;
  let above = 0;
  let counted = 0;
  for (let i = 0; i < residuals.length; i += 1) {
    counted += weights[i];
    if (residuals[i] <= 0) continue;
    above += 1;
    squares += weights[i] * residuals[i] ** 2;
  }
  const unworn = counted / onNoise.weight;
  if (above === 0 || unworn <= parameters) return 0;
  return Math.sqrt((2 * squares) / (unworn - parameters));
}

function expectations(): { readonly weight: number; readonly pull: number } {
  let weight = 0;
  let pulled = 0;
  let density = 0;
  for (let r = -8; r <= 8; r += 1 / 256) {
    const p = Math.exp((-r * r) / 2);
    const w = oneSidedWeight(r);
    density += p;
    weight += w * p;
    pulled += w * p * r;
  }
  return { weight: weight / density, pull: pulled / weight };
}
