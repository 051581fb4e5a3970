/**
 * Of a few readings, which may be worn? Every likely way is followed and weighed, so that nothing is staked on one guess.
 *
 * With hundreds of readings the unworn surface stands out by itself. With fifteen, one worn reading can pass for a deeper hollow;
 * what may honestly be said is then how likely each way is in which none, one, two … of the readings are worn (or slips), and what
 * the board's shape is in each. In a way, the readings that are worn say nothing of the shape. A way's weight is
 *
 *   p(unworn readings) · Π over the worn, how likely each stands where it does (wornDensity.ts)
 *
 * and the whole is summed over noise that may be anything from 0.005 to 0.075 mm (about 0.01, give or take a factor of 1.7: a bench's,
 * from memory), which is what Student's t does where nothing is known of the noise. Ways are followed from each likely one to those
 * with one more worn reading.
 *
 * in: derivatives and residuals of the readings (mm, reading less surface), what is known of the shape beforehand
 * out: the change of shape with its covariance over all the ways, the noise, and how likely each reading is worn
 */
import { type NormalKnowledge, withEquation, withoutEquation } from "../maths/normalKnowledge.ts";
import { logDensity, logOfUnwornShare, logWornDensity } from "./wornDensity.ts";

export type WaysOfWear = {
  readonly knowledge: NormalKnowledge;
  readonly noiseMm: number;
  /** For each reading, how likely it is not on the unworn surface, 0 to 1. */
  readonly worn: Float64Array;
};

export type FewReadings = { readonly rows: readonly Float64Array[]; readonly residualsMm: Float64Array };

/** Noise that readings may have, mm, each a factor of 1.7 from the next, with a log-normal weight. */
const noises = [0.005, 0.0085, 0.0145, 0.025, 0.043, 0.075].map((noiseMm) => ({
  noiseMm,
  logWeight: -0.5 * (Math.log(noiseMm / 0.01) / Math.log(1.7)) ** 2,
}));

/** So many ways with the same number of worn readings are followed on. */
const mostWays = 24;
const mostWorn = 8;
/** A way less likely than this, against the likeliest, is let go (natural logarithm: one in 20,000). */
const leastLogWeight = -10;

/** One way at one noise: what the unworn readings tell, their log density, and the log weight with the worn ones. */
type Told = { readonly knowledge: NormalKnowledge; readonly logOfUnworn: number; readonly logWeight: number };
type Way = { readonly worn: readonly number[]; readonly told: readonly Told[]; readonly logWeight: number };

/** `floorMm`: scatter that the gauge's steps make in any case. */
export function waysOfWear(readings: FewReadings, before: NormalKnowledge, floorMm: number): WaysOfWear {
  const variances = noises.map(({ noiseMm }) => noiseMm ** 2 + floorMm ** 2);
  let ways = [allUnworn(readings, before, variances)];
  const kept = [...ways];
  const deepest = Math.min(mostWorn, Math.floor(readings.rows.length / 2));
  for (let count = 1; count <= deepest && ways.length > 0; count++) {
    const likeliest = Math.max(...kept.map((way) => way.logWeight));
    ways = oneMoreWorn(ways, readings, variances)
      .filter((way) => way.logWeight > likeliest + leastLogWeight)
      .sort((a, b) => b.logWeight - a.logWeight)
      .slice(0, mostWays);
    kept.push(...ways);
  }
  return summedUp(kept, variances, readings.rows.length);
}

function allUnworn({ rows, residualsMm }: FewReadings, before: NormalKnowledge, variances: readonly number[]): Way {
  const told = variances.map((variance, k): Told => {
    let knowledge = before;
    let logOfUnworn = 0;
    rows.forEach((row, i) => {
      logOfUnworn += logDensity(knowledge, row, residualsMm[i]!, variance);
      knowledge = withEquation(knowledge, row, residualsMm[i]!, variance);
    });
    return { knowledge, logOfUnworn, logWeight: noises[k]!.logWeight + logOfUnworn + rows.length * logOfUnwornShare };
  });
  return { worn: [], told, logWeight: logOfSum(told.map((one) => one.logWeight)) };
}

function oneMoreWorn(ways: readonly Way[], readings: FewReadings, variances: readonly number[]): readonly Way[] {
  const met = new Set<string>();
  return ways.flatMap((way) =>
    readings.rows.flatMap((_, i) => {
      if (way.worn.includes(i)) return [];
      const worn = [...way.worn, i].sort((a, b) => a - b);
      const key = worn.join(" ");
      if (met.has(key)) return [];
      met.add(key);
      return [withWorn(way, worn, i, readings, variances)];
    }),
  );
}

function withWorn(
  way: Way,
  worn: readonly number[],
  next: number,
  { rows, residualsMm }: FewReadings,
  variances: readonly number[],
): Way {
  const told = way.told.map((one, k): Told => {
    const variance = variances[k]!;
    const knowledge = withoutEquation(one.knowledge, rows[next]!, residualsMm[next]!, variance);
    const logOfUnworn = one.logOfUnworn - logDensity(knowledge, rows[next]!, residualsMm[next]!, variance);
    const logOfWorn = worn.reduce((sum, i) => sum + logWornDensity(knowledge, rows[i]!, residualsMm[i]!, variance), 0);
    const logOfOthers = (rows.length - worn.length) * logOfUnwornShare;
    return { knowledge, logOfUnworn, logWeight: noises[k]!.logWeight + logOfUnworn + logOfWorn + logOfOthers };
  });
  return { worn, told, logWeight: logOfSum(told.map((one) => one.logWeight)) };
}

/** Mean and covariance over every way and noise: the covariance within each, and that of their means. */
function summedUp(ways: readonly Way[], variances: readonly number[], readings: number): WaysOfWear {
  const all = ways.flatMap((way) => way.told.map((told, k) => ({ told, worn: way.worn, variance: variances[k]! })));
  const whole = logOfSum(all.map(({ told }) => told.logWeight));
  const size = all[0]!.told.knowledge.mean.length;
  const mean = new Float64Array(size);
  const covariance = new Float64Array(size * size);
  const wornLikelihood = new Float64Array(readings);
  let noiseVariance = 0;
  for (const { told, worn, variance } of all) {
    const share = Math.exp(told.logWeight - whole);
    noiseVariance += share * variance;
    for (const i of worn) wornLikelihood[i] = wornLikelihood[i]! + share;
    told.knowledge.mean.forEach((entry, i) => {
      mean[i] = mean[i]! + share * entry;
    });
  }
  for (const { told } of all) {
    const share = Math.exp(told.logWeight - whole);
    const off = told.knowledge.mean.map((entry, i) => entry - mean[i]!);
    told.knowledge.covariance.forEach((entry, at) => {
      covariance[at] = covariance[at]! + share * (entry + off[Math.floor(at / size)]! * off[at % size]!);
    });
  }
  return { knowledge: { mean, covariance }, noiseMm: Math.sqrt(noiseVariance), worn: wornLikelihood };
}

function logOfSum(logs: readonly number[]): number {
  const greatest = Math.max(...logs);
  return greatest + Math.log(logs.reduce((sum, log) => sum + Math.exp(log - greatest), 0));
}
