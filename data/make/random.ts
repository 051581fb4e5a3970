/**
 * Seeded random numbers for the example boards: the same seed gives the same board on every machine.
 *
 * Uniform numbers: xorshift128 with shifts 11, 8, 19 (G. Marsaglia, "Xorshift RNGs", Journal of Statistical Software
 * 8(14), 2003, section 4). Normal numbers: G. E. P. Box and M. E. Muller, "A note on the generation of random normal
 * deviates", Annals of Mathematical Statistics 29(2), 1958.
 */
export type Random = {
  /** Uniform in [0, 1). */
  readonly uniform: () => number;
  /** Uniform in [from, to). */
  readonly between: (from: number, to: number) => number;
  /** Normal, mean 0, standard deviation 1. */
  readonly normal: () => number;
};

/** @param seed whole number; neighbouring seeds give unrelated numbers once the first sixteen are thrown away. */
export function seededRandom(seed: number): Random {
  let x = (123456789 ^ Math.imul(seed + 1, 0x9e3779b1)) >>> 0;
  let y = 362436069;
  let z = 521288629;
  let w = (88675123 ^ seed) >>> 0;

  function uniform(): number {
    const t = (x ^ (x << 11)) >>> 0;
    x = y;
    y = z;
    z = w;
    w = (w ^ (w >>> 19) ^ (t ^ (t >>> 8))) >>> 0;
    return w / 2 ** 32;
  }
  for (let turn = 0; turn < 16; turn++) uniform();

  return {
    uniform,
    between: (from, to) => from + (to - from) * uniform(),
    normal: () => Math.sqrt(-2 * Math.log(1 - uniform())) * Math.cos(2 * Math.PI * uniform()),
  };
}
