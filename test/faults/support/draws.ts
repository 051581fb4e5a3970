/** Seeded choices on top of uniform numbers: one of a few, a whole number, a place in a text. */
import type { Random } from "../../../data/make/random.ts";

/** Whole, from 0 up to but without `below`. */
export function whole(random: Random, below: number): number {
  return Math.floor(random.uniform() * below);
}

export function oneOf<One>(random: Random, all: readonly One[]): One {
  return all[whole(random, all.length)]!;
}

/** Every entry once, in another order (Fisher and Yates). */
export function shuffled<One>(random: Random, all: readonly One[]): readonly One[] {
  const order = [...all];
  for (let last = order.length - 1; last > 0; last--) {
    const other = whole(random, last + 1);
    [order[last], order[other]] = [order[other]!, order[last]!];
  }
  return order;
}

export function chance(random: Random, share: number): boolean {
  return random.uniform() < share;
}
