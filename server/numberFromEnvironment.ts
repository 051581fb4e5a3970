/** A whole number that the environment says, or the usual one; throws CantStart, in words, where it says something else. */
import { CantStart, type Environment } from "./cantStart.ts";

export function wholeNumberFrom(
  environment: Environment,
  name: string,
  usual: number,
  { least, most }: { least: number; most: number },
): number {
  const given = environment[name];
  if (given === undefined || given === "") return usual;
  const number = Number(given);
  if (/^\d+$/.test(given) && number >= least && number <= most) return number;
  throw new CantStart(`${name}=${given}: give a whole number from ${least} to ${most}, or leave it unset (${usual}).`);
}

/** BOARDTRUE_UPLOAD_LIMIT: most bytes of one request, and so of one file of readings; 64 MiB. */
export function uploadLimitBytesFrom(environment: Environment): number {
  return wholeNumberFrom(environment, "BOARDTRUE_UPLOAD_LIMIT", 64 * 1024 * 1024, { least: 1, most: 2 ** 40 });
}
