/**
 * Members -> the bytes of a ZIP file, one member after the other, as fast as whoever takes them.
 *
 * In memory are one member and the directory (some 150 bytes a member): the ready-made packer tried first held nine kilobytes a
 * member and looked through all of them for each new one, so that an archive of 50,000 visits would have taken a quarter of an hour in packing alone.
 */
import { promisify } from "node:util";
import { crc32, deflateRaw, deflateRawSync } from "node:zlib";
import { directoryRecord, endOfArchive, localHeader, type PackedMember } from "./zipRecords.ts";

/** A file in the archive; its path is ASCII, with `/` between folders. */
export type Member = { readonly path: string; readonly bytes: Uint8Array };

const deflateApart = promisify(deflateRaw);
/** Up to here deflating takes less time than handing it to another thread. */
const smallBytes = 32 * 1024;

export async function* zipped(members: AsyncIterable<Member>): AsyncGenerator<Uint8Array> {
  const directory: Buffer[] = [];
  let written = 0;
  for await (const { path, bytes } of members) {
    const packed = bytes.length <= smallBytes ? deflateRawSync(bytes) : await deflateApart(bytes);
    const member: PackedMember = {
      path,
      crc32: crc32(bytes),
      packedBytes: packed.length,
      unpackedBytes: bytes.length,
    };
    const header = localHeader(member);
    directory.push(directoryRecord(member, written));
    written += header.length + packed.length;
    yield header;
    yield packed;
  }
  const offset = written;
  let directoryBytes = 0;
  for (const record of directory) {
    directoryBytes += record.length;
    yield record;
  }
  yield endOfArchive({ members: directory.length, bytes: directoryBytes, offset });
}
