/** ZIP files from outside, made to do harm: each is refused in words, and nothing is unpacked beyond what was asked for. */
import { describe, expect, test } from "vitest";
import { openZip, Unreadable, usualZipLimits } from "../../../../server/keeping/archive/zipIn.ts";
import { bytesOf, inFile, packed } from "../../../support/archives.ts";

const hello = Buffer.from("hello, board\n");

async function whyRefused(archive: Buffer, limits = usualZipLimits): Promise<string> {
  const opened = await openZip(inFile(archive), limits);
  if (opened.outcome === "refused") return opened.why;
  opened.zip.close();
  return "";
}

/** Every place where `from` stands in the archive now holds `to`, of the same length. */
function patched(archive: Buffer, from: Buffer, to: Buffer): Buffer {
  const copy = Buffer.from(archive);
  expect(copy.indexOf(from)).toBeGreaterThanOrEqual(0);
  for (let at = copy.indexOf(from); at >= 0; at = copy.indexOf(from, at + 1)) to.copy(copy, at);
  return copy;
}

/** Where the directory's record of the first member begins. */
const directoryAt = (archive: Buffer) => archive.indexOf(Buffer.from([0x50, 0x4b, 0x01, 0x02]));

describe("an archive is refused as a whole", () => {
  test.each([
    ["that is no ZIP", async () => Buffer.from("x,y,height\n1,2,3\n"), /no ZIP/],
    ["that is empty", async () => Buffer.alloc(0), /no ZIP/],
    ["that was cut short", async () => (await packed([["a.txt", hello]])).subarray(0, 60), /no ZIP|damaged/],
    ["with a name that leads up and out", () => packed([["../../out.txt", hello]]), /leads out/],
    ["with a name from the top of the disk", () => packed([["/etc/out.txt", hello]]), /leads out/],
    ["with a name on a drive", () => packed([["C:/out.txt", hello]]), /leads out/],
    ["with a name parted by backslashes", () => packed([["..\\out.txt", hello]]), /leads out/],
    [
      "with one name twice",
      () =>
        packed([
          ["a.txt", hello],
          ["a.txt", hello],
        ]),
      /same name/,
    ],
    [
      "with one name twice but for capitals",
      () =>
        packed([
          ["a.txt", hello],
          ["A.TXT", hello],
        ]),
      /same name/,
    ],
  ] as const)("%s", async (_what, archive, why) => {
    expect(await whyRefused(await archive())).toMatch(why);
  });

  test("that holds a symbolic link", async () => {
    const archive = await packed([["a.txt", hello]]);
    archive.writeUInt32LE(0o120777 * 2 ** 16, directoryAt(archive) + 38);
    expect(await whyRefused(archive)).toMatch(/link/);
  });

  test("that is protected by a password", async () => {
    const archive = await packed([["a.txt", hello]]);
    archive.writeUInt16LE(1, directoryAt(archive) + 8);
    expect(await whyRefused(archive)).toMatch(/password/);
  });

  test("packed in a way that is not common", async () => {
    const archive = await packed([["a.txt", hello]]);
    archive.writeUInt16LE(14, directoryAt(archive) + 10);
    expect(await whyRefused(archive)).toMatch(/not common/);
  });

  test("of more members than may be", async () => {
    const archive = await packed([
      ["a.txt", hello],
      ["b.txt", hello],
    ]);
    expect(await whyRefused(archive, { ...usualZipLimits, members: 1 })).toMatch(/2 files; at most 1/);
  });

  test("of more bytes than may be, by what it says of itself", async () => {
    const archive = await packed([
      ["a.txt", hello],
      ["b.txt", hello],
    ]);
    expect(await whyRefused(archive, { ...usualZipLimits, totalBytes: 20 })).toMatch(/too large/);
  });

  test("that would grow a thousand times: twenty megabytes of zeros", async () => {
    expect(await whyRefused(await packed([["a.txt", Buffer.alloc(20 * 2 ** 20)]]))).toMatch(/two hundred times/);
  });

  test("whose members all share one place, as a bomb of overlapping files does", async () => {
    const archive = await packed(
      Array.from({ length: 50 }, (_, index) => [`${index}`, Buffer.alloc(index === 0 ? 2 ** 20 : 1)]),
    );
    let at = directoryAt(archive);
    const first = Buffer.from(archive.subarray(at + 16, at + 28));
    for (let index = 0; index < 50; index++) {
      first.copy(archive, at + 16);
      archive.writeUInt32LE(0, at + 42);
      at += 46 + archive.readUInt16LE(at + 28);
    }
    expect(await whyRefused(archive)).toMatch(/two hundred times/);
  });
});

describe("a member can't be read", () => {
  const opened = async (archive: Buffer) => {
    const answer = await openZip(inFile(archive), usualZipLimits);
    if (answer.outcome === "refused") throw new Error(answer.why);
    return answer.zip;
  };

  test("where it is larger than may be, and then nothing of it is unpacked", async () => {
    const zip = await opened(await packed([["a.txt", hello]]));
    await expect(bytesOf(zip.pieces("a.txt", hello.length - 1))).rejects.toThrow(Unreadable);
    expect(await bytesOf(zip.pieces("a.txt", hello.length))).toEqual(hello);
    zip.close();
  });

  test("where there is more in it than it says", async () => {
    const archive = await packed([["a.txt", Buffer.alloc(10 * 2 ** 20)]]);
    archive.writeUInt32LE(1000, directoryAt(archive) + 24);
    const zip = await opened(archive);
    let count = 0;
    const reading = async () => {
      for await (const piece of zip.pieces("a.txt", 2000)) count += piece.length;
    };
    await expect(reading()).rejects.toThrow(/damaged/);
    // A piece of the unpacker's is 16 KiB: no more than that got through before the count was found wrong.
    expect(count).toBeLessThanOrEqual(16 * 1024);
    zip.close();
  });

  test("where its bytes are damaged", async () => {
    const archive = await packed([["a.txt", hello]]);
    const zip = await opened(patched(archive, archive.subarray(35, 45), Buffer.alloc(10, 0xff)));
    await expect(bytesOf(zip.pieces("a.txt", 1000))).rejects.toThrow(Unreadable);
    zip.close();
  });

  test("where it is not in the archive", async () => {
    const zip = await opened(await packed([["a.txt", hello]]));
    await expect(bytesOf(zip.pieces("b.txt", 1000))).rejects.toThrow(/missing/);
    zip.close();
  });
});

test("a file that is not there is the system's trouble, not the archive's", async () => {
  await expect(openZip("no-such-archive.zip", usualZipLimits)).rejects.toThrow(/ENOENT/);
});
