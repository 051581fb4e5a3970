/**
 * A recipe's way of writing its file, with other settings at its head: those named are set, all others stand.
 */
import type { Writing } from "../../data/make/recipe.ts";

export function withSettings(writing: Writing, settings: Readonly<Record<string, string | number>>): Writing {
  const others = writing.settings.filter(([key]) => !(key in settings));
  const set = Object.entries(settings).map(([key, value]) => [key, String(value)] as const);
  return { ...writing, settings: [...others, ...set] };
}
