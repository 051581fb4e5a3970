/**
 * Words that several parts of a verdict share: uncertainties, repeats, places on a line of the board.
 *
 * Lengths in mm, rounded as the bench's gauge shows them.
 */

/** An uncertainty, rounded up: 0.0312 -> "± 0.04"; a radius's (coarser than 0.1 mm) to a tenth. */
export function plusMinus(uMm: number, decimals: number): string {
  const scale = 10 ** decimals;
  return `± ${(Math.ceil(uMm * scale - 1e-3) / scale).toFixed(decimals)}`;
}

/** "from ± 0.04 to ± 0.03 mm", with as many digits as tell the two apart. */
export function narrowed(fromMm: number, toMm: number): string {
  const decimals = plusMinus(fromMm, 2) === plusMinus(toMm, 2) ? 3 : 2;
  return `from ${plusMinus(fromMm, decimals)} to ${plusMinus(toMm, decimals)} mm`;
}

/** "once more", "3 more times". */
export function moreTimes(times: number): string {
  return times === 1 ? "once more" : `${times} more times`;
}

/** Where a line of readings runs: "under the A string", "midway between D and A", "along the bass edge". */
export function alongLine(name: string): string {
  if (name.endsWith("edge")) return `along the ${name}`;
  const [lower, upper] = name.split("/");
  return upper === undefined ? `under the ${name} string` : `midway between ${lower} and ${upper}`;
}
