/**
 * The examination as JSON, piece by piece, for a file, a terminal or a connection.
 *
 * One text would break at 512 million characters (a million points come to about 200 million), so the points go out
 * a thousand at a time. Each field of the examination begins a line of its own. Lengths in mm, nothing rounded.
 */
import type { Examination } from "../core/examination.ts";

const pointsAtOnce = 1000;

export function* examinationAsJson(examination: Examination): Generator<string> {
  let before = "{\n";
  for (const [field, content] of Object.entries(examination)) {
    yield `${before}${JSON.stringify(field)}:`;
    before = ",\n";
    if (field === "points") yield* list(examination.points);
    else yield JSON.stringify(content);
  }
  yield "\n}\n";
}

function* list(entries: readonly unknown[]): Generator<string> {
  yield "[";
  for (let from = 0; from < entries.length; from += pointsAtOnce) {
    const piece = JSON.stringify(entries.slice(from, from + pointsAtOnce)).slice(1, -1);
    yield from === 0 ? piece : `,\n${piece}`;
  }
  yield "]";
}
