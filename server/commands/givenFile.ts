/** A file that the call names, chunk by chunk into a reader; `-` is standard input. What can't be read is told in words. */
import { createReadStream } from "node:fs";
import { stat } from "node:fs/promises";
import type { ChunkTaker } from "../examiner.ts";
import { codeOf, Faulty } from "./refusals.ts";

export async function readFile(path: string, reader: ChunkTaker): Promise<void> {
  try {
    if (path !== "-" && (await isDevice(path))) throw new Faulty(`${path}: this is no file. Name a CSV file.`);
    for await (const chunk of path === "-" ? process.stdin : createReadStream(path)) reader.push(chunk);
  } catch (error) {
    const code = codeOf(error);
    if (code === null) throw error;
    throw new Faulty(unreadable(path, code));
  }
}

/** A device may never come to an end; a readings file may name any path. */
async function isDevice(path: string): Promise<boolean> {
  const found = await stat(path);
  return found.isBlockDevice() || (found.isCharacterDevice() && path !== "/dev/stdin");
}

/** `kind` is what the file should be: "CSV file". */
export function unreadable(path: string, code: string, kind = "CSV file"): string {
  if (code === "ENOENT") return `${path}: there is no such file.`;
  if (code === "EISDIR") return `${path}: this is a folder. Name the ${kind} in it.`;
  if (code === "EACCES" || code === "EPERM") return `${path}: this file may not be read. Look at its permissions.`;
  return `${path}: this file can't be read (${code}).`;
}
