/**
 * The heading of a column -> what the column holds and in which unit.
 *
 * Case, spaces, hyphens and underscores don't matter. Names understood:
 *
 *   x          x, crossline, along
 *   y          y, across
 *   line       line, string, path
 *   height     height, z, reading
 *   depth      depth
 *   setup      setup, set-up
 *   mark       mark
 *   note       note, comment (read past)
 *   thickness  thickness
 *   side       side, edge
 *   gap        gap
 *   template   template
 *   error      error (of a rail)
 *   u          u (the expanded uncertainty of that error)
 *
 * A unit may follow a length: `x_mm`, `x mm`, `x (mm)`, `x [mm]`, `x / mm`; units are mm, 0.01mm, in (inch, inches)
 * and thou. A unit that is known elsewhere but not here (cm, µm, …) comes back as such.
 */
export type ColumnName =
  | "x"
  | "y"
  | "line"
  | "height"
  | "depth"
  | "setup"
  | "mark"
  | "note"
  | "thickness"
  | "side"
  | "gap"
  | "template"
  | "error"
  | "u";

export type ColumnHeading = {
  readonly name: ColumnName;
  /** mm per unit; null where the heading names none; "unknown" where it names one that is not read here. */
  readonly unitMm: number | "unknown" | null;
};

const names = new Map<string, ColumnName>([
  ["x", "x"],
  ["crossline", "x"],
  ["along", "x"],
  ["y", "y"],
  ["across", "y"],
  ["line", "line"],
  ["string", "line"],
  ["path", "line"],
  ["height", "height"],
  ["z", "height"],
  ["reading", "height"],
  ["depth", "depth"],
  ["setup", "setup"],
  ["mark", "mark"],
  ["note", "note"],
  ["comment", "note"],
  ["thickness", "thickness"],
  ["side", "side"],
  ["edge", "side"],
  ["gap", "gap"],
  ["template", "template"],
  ["error", "error"],
  ["u", "u"],
]);

const units = new Map<string, number | "unknown">([
  ["mm", 1],
  ["0.01mm", 0.01],
  ["in", 25.4],
  ["inch", 25.4],
  ["inches", 25.4],
  ["thou", 0.0254],
  ["cm", "unknown"],
  ["m", "unknown"],
  ["um", "unknown"],
  ["µm", "unknown"],
  ["mil", "unknown"],
  ["ft", "unknown"],
]);

const lengths: ReadonlySet<ColumnName> = new Set([
  "x",
  "y",
  "height",
  "depth",
  "thickness",
  "gap",
  "template",
  "error",
  "u",
]);

/** Null for a heading that names nothing known. */
export function columnHeading(cell: string): ColumnHeading | null {
  const heading = cell.trim().toLowerCase().replaceAll("μ", "µ").replaceAll(/\s+/g, " ");
  const whole = names.get(heading.replace(/[\s_-]/g, ""));
  if (whole !== undefined) return { name: whole, unitMm: null };
  return lengthIn(heading);
}

/** A length's name with a unit behind it, in whatever brackets. */
function lengthIn(heading: string): ColumnHeading | null {
  for (const [word, name] of names) {
    if (!lengths.has(name) || !heading.startsWith(word)) continue;
    const unit = heading
      .slice(word.length)
      .replace(/[\s_()[\]/-]/g, "")
      .replace(",", ".");
    const unitMm = units.get(unit);
    if (unitMm !== undefined) return { name, unitMm };
  }
  return null;
}
