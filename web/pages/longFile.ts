/**
 * What a long file is said to be while it is sent and examined: about how many readings, and how far it has come.
 *
 * A bench's file is answered before anyone could read more than its name. A scan takes seconds: then its size is told, reckoned from the
 * length of its first lines, to two digits.
 */
import type { Progress } from "../api/reach.ts";

/** Some five thousand readings. */
export const longFromBytes = 100_000;
const beginningBytes = 65_536;

/** About how many readings a file holds; null for one that is not long, or has no lines. */
export async function aboutHowMany(file: File): Promise<number | null> {
  if (file.size < longFromBytes) return null;
  const beginning = (await file.slice(0, beginningBytes).text()).split(/\r\n|\n|\r/);
  // The last line is cut off. Settings and header are few among thousands of rows.
  const wholeLines = beginning.length - 1;
  if (wholeLines === 0) return null;
  return Number(((file.size / beginningBytes) * wholeLines).toPrecision(2));
}

/** How far it has come is told in tenths: read aloud, every hundredth would be a nuisance. */
export function busyText(name: string, about: number | null, progress: Progress): string {
  const what = about === null ? name : `${name}, about ${about.toLocaleString("en")} readings`;
  if (progress.stage === "examining" || about === null) return `Examining ${what}…`;
  return `Sending ${what}: ${Math.floor(progress.share * 10) * 10} %`;
}
