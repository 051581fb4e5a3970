/**
 * An example: one board of the store, its story and its recipe.
 */
import type { Recipe } from "../recipe.ts";

export type Example = {
  /** File name without its ending. */
  readonly name: string;
  /** Number in the store. */
  readonly number: string;
  readonly title: string;
  readonly story: string;
  /** What an examination should say. */
  readonly decision: string;
  readonly instrument: string;
  readonly recipe: Recipe;
};
