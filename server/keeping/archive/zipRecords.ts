/**
 * The records that make a ZIP file, byte by byte. Pure: sizes, checksums and offsets in bytes -> bytes.
 *
 * Each member stands as a local header, its name and its deflated bytes; then the directory lists them all; then the end says
 * where the directory is. Where a count or an offset does not fit in 32 (16) bits, the ZIP64 records stand in, as in
 * archives of more than 65,534 members or 4 GiB. Names are ASCII. No member has a time of its own (all say 1 January 1980), so
 * that the same records make the same archive, byte for byte.
 * Source: the ZIP file format specification (APPNOTE 6.3.10), sections 4.3.7, 4.3.12, 4.3.14 to 4.3.16 and 4.5.3.
 */

export type PackedMember = {
  readonly path: string;
  readonly crc32: number;
  readonly packedBytes: number;
  readonly unpackedBytes: number;
};

const versionPlain = 20;
const versionZip64 = 45;
/** Made on a system with permissions as POSIX has them. */
const madeBy = 3 << 8;
const deflated = 8;
/** Days count from 1 January 1980: month and day are 1. */
const firstDay = (1 << 5) | 1;
/** An ordinary file that its owner may write and everybody read. */
const ordinaryFile = 0o100644 * 2 ** 16;
const most16 = 0xffff;
const most32 = 0xffffffff;

export function localHeader({ path, ...member }: PackedMember): Buffer {
  const name = Buffer.from(path, "ascii");
  const header = Buffer.alloc(30);
  header.writeUInt32LE(0x04034b50, 0);
  header.writeUInt16LE(versionPlain, 4);
  writeAboutMember(header, 6, member, name.length);
  return Buffer.concat([header, name]);
}

/** `offset`: where the member's local header begins. */
export function directoryRecord({ path, ...member }: PackedMember, offset: number): Buffer {
  const name = Buffer.from(path, "ascii");
  const isFar = offset >= most32;
  const record = Buffer.alloc(46);
  record.writeUInt32LE(0x02014b50, 0);
  record.writeUInt16LE(madeBy | versionZip64, 4);
  record.writeUInt16LE(isFar ? versionZip64 : versionPlain, 6);
  writeAboutMember(record, 8, member, name.length);
  const extra = isFar ? farOffset(offset) : Buffer.alloc(0);
  record.writeUInt16LE(extra.length, 30);
  record.writeUInt32LE(ordinaryFile, 38);
  record.writeUInt32LE(Math.min(offset, most32), 42);
  return Buffer.concat([record, name, extra]);
}

/** What stands in both: flags (none), method, day, checksum, sizes and the name's length. */
function writeAboutMember(into: Buffer, at: number, member: Omit<PackedMember, "path">, nameBytes: number): void {
  into.writeUInt16LE(deflated, at + 2);
  into.writeUInt16LE(firstDay, at + 6);
  into.writeUInt32LE(member.crc32, at + 8);
  into.writeUInt32LE(member.packedBytes, at + 12);
  into.writeUInt32LE(member.unpackedBytes, at + 16);
  into.writeUInt16LE(nameBytes, at + 20);
}

function farOffset(offset: number): Buffer {
  const extra = Buffer.alloc(12);
  extra.writeUInt16LE(0x0001, 0);
  extra.writeUInt16LE(8, 2);
  extra.writeBigUInt64LE(BigInt(offset), 4);
  return extra;
}

export type Directory = { readonly members: number; readonly bytes: number; readonly offset: number };

export function endOfArchive(directory: Directory): Buffer {
  const { members, bytes, offset } = directory;
  const end = Buffer.alloc(22);
  end.writeUInt32LE(0x06054b50, 0);
  end.writeUInt16LE(Math.min(members, most16), 8);
  end.writeUInt16LE(Math.min(members, most16), 10);
  end.writeUInt32LE(Math.min(bytes, most32), 12);
  end.writeUInt32LE(Math.min(offset, most32), 16);
  const isLarge = members >= most16 || bytes >= most32 || offset >= most32;
  return isLarge ? Buffer.concat([zip64End(directory), end]) : end;
}

function zip64End({ members, bytes, offset }: Directory): Buffer {
  const end = Buffer.alloc(56);
  end.writeUInt32LE(0x06064b50, 0);
  end.writeBigUInt64LE(56n - 12n, 4);
  end.writeUInt16LE(madeBy | versionZip64, 12);
  end.writeUInt16LE(versionZip64, 14);
  end.writeBigUInt64LE(BigInt(members), 24);
  end.writeBigUInt64LE(BigInt(members), 32);
  end.writeBigUInt64LE(BigInt(bytes), 40);
  end.writeBigUInt64LE(BigInt(offset), 48);
  const locator = Buffer.alloc(20);
  locator.writeUInt32LE(0x07064b50, 0);
  locator.writeBigUInt64LE(BigInt(offset + bytes), 8);
  locator.writeUInt32LE(1, 16);
  return Buffer.concat([end, locator]);
}
