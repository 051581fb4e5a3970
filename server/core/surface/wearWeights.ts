/**
 * One-sided weights: wear only takes wood away, so a reading below the surface may be wear, one above it is noise.
 *
 * Residual r = reading − surface, in units of the noise s. Above the surface a reading counts in full (and with falling
 * weight beyond four s: a slip of the pen, or a hump); below it Tukey's bisquare, 1 − (r/c)² squared, lets it go.
 *
 * Weights that favour one side pull the surface up. `recentre` is the constant that undoes this: the mean pull
 * E[w·r] / E[w] of such weights on Gaussian noise, so that on an unworn board the surface does not float.
 *
 * Source of the bisquare: Beaton and Tukey, Technometrics 16 (1974); its constant 4.685 is the usual one (95 %
 * efficiency) and is tightened here because wear, unlike an outlier, may be shallow.
 */
const reach = 3.5;
const fullAbove = 4;

/** Weight of a reading, 0 to 1, for its residual in units of the noise. */
export function oneSidedWeight(residual: number): number {
  if (residual >= 0) return residual <= fullAbove ? 1 : fullAbove / residual;
  if (residual <= -reach) return 0;
  return (1 - (residual / reach) ** 2) ** 2;
}

/** Mean pull of the weights on Gaussian noise, in units of the noise: what to add to a residual so that it cancels. */
export const recentre = meanPull();

/** The largest recentring that is still consistent: solves E[w(r)·(r − b)] = 0 for b by summing over the normal density. */
function meanPull(): number {
  let pull = 0;
  let total = 0;
  for (let r = -8; r <= 8; r += 1 / 256) {
    const weighted = oneSidedWeight(r) * Math.exp(-(r * r) / 2);
    pull += weighted * r;
    total += weighted;
  }
  return pull / total;
}
