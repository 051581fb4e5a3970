/** The packer: what it writes is read back whole by another library, however many members there are and however far in they lie. */
import { closeSync, ftruncateSync, mkdtempSync, openSync, rmSync, writeSync } from "node:fs";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { crc32, deflateRawSync } from "node:zlib";
import { describe, expect, onTestFinished, test } from "vitest";
import yauzl from "yauzl";
import { directoryRecord, endOfArchive, localHeader } from "../../../../server/keeping/archive/zipRecords.ts";
import { bytesOf, membersOf, packed } from "../../../support/archives.ts";

describe("a packed archive", () => {
  test("gives every member back byte for byte, in order", async () => {
    const members: [string, Buffer][] = [
      ["README.txt", Buffer.from("hello\n")],
      ["empty.csv", Buffer.alloc(0)],
      ["instruments/C-07/bytes.bin", Buffer.from(Array.from({ length: 100_000 }, (_, index) => (index * 7919) % 251))],
    ];
    expect([...(await membersOf(await packed(members)))]).toEqual(members);
  });

  test("is the same bytes each time, with no time of day in it", async () => {
    const members = [["README.txt", Buffer.from("hello\n")]] as const;
    expect(await packed(members)).toEqual(await packed(members));
  });

  test("of ordinary files that their owner may write", async () => {
    const zip = await yauzl.fromBufferPromise(await packed([["a.txt", Buffer.from("a")]]));
    for await (const entry of zip.eachEntry()) {
      expect((entry.externalFileAttributes >>> 16).toString(8)).toBe("100644");
      expect(entry.crc32).toBe(crc32("a"));
      expect(entry.getLastModDate({ timezone: "UTC" }).toISOString()).toBe("1980-01-01T00:00:00.000Z");
    }
  });

  test("of 66,000 members is read in full (more than 65,535 need ZIP64)", async () => {
    const members = Array.from({ length: 66_000 }, (_, index) => [`${index}`, Buffer.from(`${index}`)] as const);
    const zip = await yauzl.fromBufferPromise(await packed(members));
    expect(zip.entryCount).toBe(66_000);
    let count = 0;
    let last: yauzl.Entry | undefined;
    for await (const entry of zip.eachEntry()) {
      count++;
      last = entry;
    }
    expect(count).toBe(66_000);
    expect((await bytesOf(await zip.openReadStreamPromise(last!))).toString()).toBe("65999");
  });

  test("has members beyond 4 GiB (a hole in the file stands for what lies before)", async () => {
    const folder = mkdtempSync(join(tmpdir(), "boardtrue-far-"));
    onTestFinished(() => rmSync(folder, { recursive: true }));
    const path = join(folder, "far.zip");
    const far = 5 * 2 ** 30;
    const bytes = Buffer.from("far out\n");
    const packedBytes = deflateRawSync(bytes);
    const about = { crc32: crc32(bytes), packedBytes: packedBytes.length, unpackedBytes: bytes.length };
    const near = { path: "near.txt", ...about };
    const member = { path: "far.txt", ...about };
    const [nearHeader, header] = [localHeader(near), localHeader(member)];
    const directory = Buffer.concat([directoryRecord(near, 0), directoryRecord(member, far)]);
    const offset = far + header.length + packedBytes.length;
    const file = openSync(path, "w");
    ftruncateSync(file, far);
    writeSync(file, Buffer.concat([nearHeader, packedBytes]), 0, undefined, 0);
    const end = endOfArchive({ members: 2, bytes: directory.length, offset });
    writeSync(file, Buffer.concat([header, packedBytes, directory, end]), 0, undefined, far);
    closeSync(file);

    const zip = await yauzl.openPromise(path, { autoClose: false });
    for await (const entry of zip.eachEntry()) {
      expect((await bytesOf(await zip.openReadStreamPromise(entry))).toString()).toBe("far out\n");
    }
    expect(zip.entriesRead).toBe(2);
    zip.close();
  });
});
