/** `boardtrue export ARCHIVE.zip`: every record into one archive that anybody can read, whole or not at all. */
import { createWriteStream } from "node:fs";
import { stat } from "node:fs/promises";
import { pipeline } from "node:stream/promises";
import { parseArgs } from "node:util";
import type { Environment } from "../cantStart.ts";
import { exportArchive } from "../keeping/archive/exportArchive.ts";
import { newFile } from "../records/newFile.ts";
import { counted } from "../reports/words.ts";
import { onePathOf, parsed } from "./callWords.ts";
import { printHelp } from "./help.ts";
import { print } from "./print.ts";
import { codeOf, Faulty } from "./refusals.ts";
import { withRecords } from "./withRecords.ts";

export async function exportRecords(words: readonly string[], environment: Environment): Promise<void> {
  const { values, positionals } = parsed(() =>
    parseArgs({
      args: [...words],
      allowPositionals: true,
      options: { "without-players": { type: "boolean" }, help: { type: "boolean" } },
    }),
  );
  if (values.help) return printHelp();
  const path = onePathOf(positionals, "export needs a name for the archive: boardtrue export ARCHIVE.zip");
  await withRecords(environment, { mayBegin: false }, async (store) => {
    const count = { instruments: 0, visits: 0 };
    const archive = exportArchive(store, {
      withPlayers: !values["without-players"],
      tell: (visits) => {
        count.instruments++;
        count.visits += visits;
      },
    });
    try {
      await newFile(path, (part) => pipeline(archive, createWriteStream(part)));
    } catch (error) {
      throw refusedByDisk(error, path);
    }
    const { size } = await stat(path);
    await print([
      `${path}: ${counted(count.instruments, "instrument")}, ${counted(count.visits, "visit")}, ${size} bytes\n`,
    ]);
  });
}

function refusedByDisk(error: unknown, path: string): unknown {
  const code = codeOf(error);
  if (code === "ENOSPC" || code === "EDQUOT")
    return new Faulty(`${path}: there is no room for it on the disk. None was kept.`);
  if (code === "ENOENT") return new Faulty(`${path}: there is no such folder.`);
  if (code === "EACCES" || code === "EPERM" || code === "EROFS")
    return new Faulty(`${path}: nothing may be written there.`);
  return error;
}
