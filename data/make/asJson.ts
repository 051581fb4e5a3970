/** A thing as JSON text, its numbers to 0.0001: lengths in mm come out to 0.1 µm. */
export function asJson(thing: object): string {
  const rounded = (_: string, part: unknown): unknown => (typeof part === "number" ? Number(part.toFixed(4)) : part);
  return `${JSON.stringify(thing, rounded, 1)}\n`;
}
