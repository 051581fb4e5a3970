/**
 * What the bench is asked on the command line: --seed N, --boards N (a cell), --parts surfaces,…, --grids "7 x 11,7 x 13".
 */
import { parseArgs } from "node:util";
import { type GridName, gridNames } from "./benchBoard.ts";

/** Intervals bring decisions with them. */
const partNames = ["surfaces", "estimators", "intervals", "alarms"] as const;
type Part = (typeof partNames)[number];

export type Arguments = {
  readonly seed: number;
  readonly boards: number;
  readonly parts: readonly Part[];
  readonly grids: readonly GridName[];
};

export function benchArguments(words: readonly string[]): Arguments {
  const { values } = parseArgs({
    args: [...words],
    options: {
      seed: { type: "string", default: "1" },
      boards: { type: "string", default: "8" },
      parts: { type: "string", default: partNames.join(",") },
      grids: { type: "string", default: gridNames.join(",") },
    },
  });
  return {
    seed: wholeNumber("--seed", values.seed),
    boards: wholeNumber("--boards", values.boards),
    parts: chosen("--parts", values.parts, partNames),
    grids: chosen("--grids", values.grids, gridNames),
  };
}

function wholeNumber(name: string, text: string): number {
  const number = Number(text);
  if (!Number.isInteger(number) || number < 0) throw new Error(`${name} takes a whole number, not ${text}`);
  return number;
}

function chosen<T extends string>(name: string, text: string, among: readonly T[]): readonly T[] {
  return text.split(",").map((word) => {
    const found = among.find((one) => one.replaceAll(" ", "") === word.replaceAll(" ", ""));
    if (found === undefined) throw new Error(`${name} takes ${among.join(", ")}, not ${word}`);
    return found;
  });
}
