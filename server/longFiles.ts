/**
 * Which files are long: those that take more than about half a second to examine, and so wait for a turn and a thread apart.
 *
 * In: every file that was given, in pieces as it came. One rule for the bench's examinations and for visits that are kept; a long profile of
 * the rail holds the server up as much as long readings do, so all files count together.
 */

/** About three thousand readings, bytes. */
const longFromBytes = 64 * 1024;

export function areLong(files: Iterable<readonly Uint8Array[]>): boolean {
  let bytes = 0;
  for (const pieces of files) for (const piece of pieces) bytes += piece.length;
  return bytes >= longFromBytes;
}
