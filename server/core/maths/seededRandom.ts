/**
 * Random numbers that are the same every time: a generator with its seed given.
 *
 * in   a seed (any finite number; its integer part modulo 2³² counts)
 * out  uniform numbers in [0, 1) and standard normal ones, one after another, the same sequence for the same seed
 *
 * Source: xoshiro128++ by D. Blackman and S. Vigna, Scrambled linear pseudorandom number generators, ACM Trans. Math. Softw.
 * 47 (2021) 36; its four words of state are filled from the seed by the 32-bit finaliser of MurmurHash3 over a Weyl sequence.
 * Normal numbers by the polar method of G. Marsaglia and T. A. Bray, SIAM Review 6 (1964) 260–264 (all from memory).
 */

export type SeededRandom = { uniform(): number; normal(): number };

export function seededRandom(seed: number): SeededRandom {
  if (!Number.isFinite(seed)) throw new RangeError(`seeded random: no seed: ${seed}`);
  const next = xoshiro128PlusPlus(stateFromSeed(seed));
  let spare: number | null = null;

  /** 53 random bits as a number in [0, 1). */
  function uniform(): number {
    return ((next() >>> 5) * 0x4000000 + (next() >>> 6)) / 2 ** 53;
  }

  function normal(): number {
    if (spare !== null) {
      const kept = spare;
      spare = null;
      return kept;
    }
    while (true) {
      const u = 2 * uniform() - 1;
      const v = 2 * uniform() - 1;
      const square = u * u + v * v;
      if (square === 0 || square >= 1) continue;
      const stretch = Math.sqrt((-2 * Math.log(square)) / square);
      spare = v * stretch;
      return u * stretch;
    }
  }

  return { uniform, normal };
}

/** The generator itself: 32 random bits at a time. The state must not be all zero. */
export function xoshiro128PlusPlus(state: readonly [number, number, number, number]): () => number {
  let [a, b, c, d] = state;
  return () => {
    const drawn = (rotateLeft((a + d) | 0, 7) + a) >>> 0;
    const shifted = b << 9;
    c ^= a;
    d ^= b;
    b ^= c;
    a ^= d;
    c ^= shifted;
    d = rotateLeft(d, 11);
    return drawn;
  };
}

function rotateLeft(word: number, places: number): number {
  return (word << places) | (word >>> (32 - places));
}

function stateFromSeed(seed: number): [number, number, number, number] {
  let weyl = Math.trunc(seed) | 0;
  const word = () => {
    weyl = (weyl + 0x9e3779b9) | 0;
    let mixed = weyl;
    mixed = Math.imul(mixed ^ (mixed >>> 16), 0x85ebca6b);
    mixed = Math.imul(mixed ^ (mixed >>> 13), 0xc2b2ae35);
    return mixed ^ (mixed >>> 16);
  };
  return [word(), word(), word(), word()];
}
