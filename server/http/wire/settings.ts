/**
 * Settings as they come with a form: one JSON object, `{ "instrument": "cello", "tip_radius": 1.5, "valuable": true }`.
 *
 * Here only the form of it is checked; what keys there are and what they may say, the core knows, and it answers with
 * faults that name the nearest known key. Lengths in mm.
 */

import { Problem } from "../problems.ts";
import { z } from "./schema.ts";

/** Settings are a few lines; anything longer is something else. */
export const settingsLimitBytes = 64 * 1024;

const single = z.union([z.string().max(10_000), z.number()]);

export const settingTextSchema = z.union([single, z.boolean(), z.array(single).max(100)]);

const settingsSchema = z.record(z.string().max(200), settingTextSchema);

/** JSON -> key and text, in the order given. Throws a Problem if it is no such object. */
export function settingsFromJson(json: Uint8Array): readonly (readonly [key: string, text: string])[] {
  const given = parsed(json);
  if (!settingsSchema.safeParse(given).success || typeof given !== "object" || given === null) throw notSettings();
  // The keys as given, not as checked: a check may pass over a key such as "__proto__", the core must see it.
  return Object.entries(given).map(([key, entry]) => {
    const text = settingTextSchema.safeParse(entry);
    if (!text.success) throw notSettings();
    return [key, asText(text.data)] as const;
  });
}

function notSettings(): Problem {
  return new Problem("broken-settings", {
    detail: 'Settings are one JSON object of keys with text, numbers, true or false: { "instrument": "cello" }.',
  });
}

function parsed(json: Uint8Array): unknown {
  try {
    return JSON.parse(new TextDecoder("utf-8", { fatal: true }).decode(json));
  } catch {
    throw new Problem("broken-settings", { detail: "The settings are not well-formed JSON." });
  }
}

function asText(entry: z.infer<typeof settingTextSchema>): string {
  if (typeof entry === "boolean") return entry ? "yes" : "no";
  if (Array.isArray(entry)) return entry.join(" ");
  return String(entry);
}
