/**
 * Ways in which a file comes to grief: by a slip at the bench, a spreadsheet, a bad transfer, or somebody's mischief.
 *
 * In: a file's text and seeded draws -> out: the mangled text, or bytes where it is no text any more. A mangled file may still be
 * a good one; what is asked of the program holds for both.
 */
import type { Random } from "../../../data/make/random.ts";
import { settingTable } from "../../../server/core/board/settingTable.ts";
import { chance, oneOf, shuffled, whole } from "./draws.ts";

type Mangle = (text: string, random: Random) => string | Uint8Array;

/** Numbers that are none, or that nobody measured. */
const oddNumbers = [
  ...[
    "1e308",
    "-1e308",
    "1e-320",
    "9".repeat(400),
    `0.${"0".repeat(300)}1`,
    "NaN",
    "Infinity",
    "-Infinity",
    "0x1F",
    "1e5",
  ],
  ...[
    "--5",
    "1.2.3",
    "1,2,3",
    "+.5",
    ".",
    "-",
    "5-",
    "1 000",
    "1'000",
    "１２",
    "٣",
    "½",
    "12mm",
    "0.3 in",
    "#REF!",
    "=1+1",
    "-0",
  ],
  ...["true", "null", "undefined", "1e400", "−3", "3°", "10%", "O.45", "l2", "1E+2", "\u202e54.0"],
];

/** Pieces that upset readers of text. */
const oddPieces = [
  ...[
    '"',
    '""',
    '"""',
    "'",
    ",",
    ";",
    "\t",
    "\n",
    "\r",
    "\r\n",
    "\u2028",
    "\u0085",
    "\u00a0",
    "\ufeff",
    "\0",
    "\u001b[31m",
    "\u202e",
  ],
  ...[
    "# instrument: organ\n",
    "#",
    "#:",
    "# :",
    "# unit: \n",
    "# reads: depth\n",
    "<script>alert(1)</script>",
    "../../etc/passwd",
  ],
  ...[
    "__proto__",
    "constructor",
    "toString",
    "'; drop table visit; --",
    "%00",
    "\ud83d\ude00",
    "e\u0301",
    "x".repeat(300),
  ],
];

const lines = (text: string): string[] => text.split("\n");

/** Where the header is: the first line that is no comment. */
function headerIndex(all: readonly string[]): number {
  return Math.max(
    0,
    all.findIndex((line) => line.trim() !== "" && !line.startsWith("#")),
  );
}

function withRows(text: string, change: (rows: string[]) => readonly string[]): string {
  const all = lines(text);
  const header = headerIndex(all);
  return [...all.slice(0, header + 1), ...change(all.slice(header + 1))].join("\n");
}

function withHeader(text: string, change: (header: string) => string): string {
  const all = lines(text);
  const at = headerIndex(all);
  return all.map((line, i) => (i === at ? change(line) : line)).join("\n");
}

function withNumbers(text: string, random: Random, share: number, change: (number: string) => string): string {
  return withRows(text, (rows) =>
    rows.map((row) => row.replace(/-?\d+([.,]\d+)?/g, (number) => (chance(random, share) ? change(number) : number))),
  );
}

function settingValue(random: Random): string {
  const { choices, range, example } = oneOf(random, settingTable);
  const [least, most] = range ?? [-1, 1];
  return oneOf(random, [
    example,
    ...(choices ?? []),
    String(least),
    String(most),
    String(random.between(least, most)),
    oneOf(random, oddNumbers),
    "",
    "yes",
    "violin 9/8",
    "cello;bass",
    `${oneOf(random, oddPieces)}`.replaceAll("\n", " "),
  ]);
}

function settingLine(random: Random): string {
  const { key } = oneOf(random, settingTable);
  const written = oneOf(random, [
    key,
    key,
    key,
    key.toUpperCase(),
    key.replaceAll("_", " "),
    `${key}x`,
    key.slice(1),
    "__proto__",
  ]);
  return (
    oneOf(random, ["# ", "#", "## ", "#\t"]) +
    written +
    oneOf(random, [": ", ":", " : ", " ", "="]) +
    settingValue(random)
  );
}

function cutSomewhere(text: string, random: Random): string {
  return text.slice(0, whole(random, text.length + 1));
}

function withPiece(text: string, random: Random, piece: string): string {
  const at = whole(random, text.length + 1);
  return text.slice(0, at) + piece + text.slice(at);
}

function sliceOf(text: string, random: Random): readonly [from: number, to: number] {
  const from = whole(random, text.length + 1);
  return [from, Math.min(text.length, from + 1 + whole(random, 120))];
}

function inUtf16(text: string, bigEndian: boolean, mark: boolean): Uint8Array {
  const bytes = Buffer.from(`${mark ? "\ufeff" : ""}${text}`, "utf16le");
  return bigEndian ? bytes.swap16() : bytes;
}

function withBytes(text: string, random: Random, byte: () => number): Uint8Array {
  const bytes = Buffer.from(text);
  for (let times = 1 + whole(random, 12); times > 0 && bytes.length > 0; times--)
    bytes[whole(random, bytes.length)] = byte();
  return bytes;
}

/** Files of other kinds, and none at all. */
function somethingElse(random: Random): Uint8Array {
  const opening = oneOf(random, [
    "PK\u0003\u0004",
    "%PDF-1.7\n",
    "<!doctype html><p>",
    '{"x":[1,2',
    "",
    " \n\n",
    "#\n#\n",
    "\ufeff",
    "x",
    "\u001f\u008b",
  ]);
  const noise = Uint8Array.from({ length: whole(random, 600) }, () => whole(random, 256));
  return Buffer.concat([Buffer.from(opening, "latin1"), chance(random, 0.5) ? noise : Buffer.alloc(0)]);
}

const mangles: Readonly<Record<string, Mangle>> = {
  "cut short": cutSomewhere,
  "a piece lost": (text, random) => {
    const [from, to] = sliceOf(text, random);
    return text.slice(0, from) + text.slice(to);
  },
  "a piece twice": (text, random) => {
    const [from, to] = sliceOf(text, random);
    return text.slice(0, to) + text.slice(from);
  },
  "a piece elsewhere": (text, random) => {
    const [from, to] = sliceOf(text, random);
    return withPiece(text.slice(0, from) + text.slice(to), random, text.slice(from, to));
  },
  "bytes changed": (text, random) => withBytes(text, random, () => whole(random, 256)),
  "bytes swapped for others of the file": (text, random) => {
    const bytes = Buffer.from(text);
    return withBytes(text, random, () => bytes[whole(random, bytes.length)] ?? 0);
  },
  "bytes that are no UTF-8": (text, random) =>
    withBytes(text, random, () => oneOf(random, [0xff, 0xc0, 0xed, 0xa0, 0x80, 0xf5])),
  "an odd piece": (text, random) => withPiece(text, random, oneOf(random, oddPieces)),
  "odd pieces": (text, random) =>
    Array.from({ length: 8 }).reduce<string>((so) => withPiece(so, random, oneOf(random, oddPieces)), text),
  "an odd number": (text, random) => withNumbers(text, random, 0.01, () => oneOf(random, oddNumbers)),
  "odd numbers": (text, random) => withNumbers(text, random, 0.3, () => oneOf(random, oddNumbers)),
  "numbers drawn": (text, random) =>
    withNumbers(text, random, 0.1, () => random.between(-300, 300).toFixed(whole(random, 6))),
  "all numbers so many times as great": (text, random) => {
    const factor = oneOf(random, [-1, 0, 1e-9, 0.1, 10, 25.4, 1e6]);
    return withNumbers(text, random, 1, (number) => String(factor * Number(number.replace(",", "."))));
  },
  "all numbers the same": (text, random) => {
    const same = oneOf(random, ["0", "5", "-1", "100"]);
    return withNumbers(text, random, 1, () => same);
  },
  "a settings line more": (text, random) => `${settingLine(random)}\n${text}`,
  "settings lines more": (text, random) =>
    `${Array.from({ length: 12 }, () => settingLine(random)).join("\n")}\n${text}`,
  "a settings line among the rows": (text, random) =>
    withRows(text, (rows) => shuffled(random, [...rows, settingLine(random)])),
  "settings mangled": (text, random) =>
    text.replace(/^#.*$/gm, (line) => (chance(random, 0.2) ? String(cutSomewhere(line, random)) : line)),
  "settings lost": (text, random) => text.replace(/^#.*\n/gm, (line) => (chance(random, 0.3) ? "" : line)),
  "two thousand settings": (text, random) => `${`${settingLine(random)}\n`.repeat(2_000)}${text}`,
  "the header twice": (text) => withHeader(text, (header) => `${header}\n${header}`),
  "the header again below": (text, random) => {
    const all = lines(text);
    return withRows(text, (rows) => shuffled(random, [...rows, all[headerIndex(all)]!]));
  },
  "no header": (text) => withHeader(text, () => ""),
  "a header of other columns": (text, random) =>
    withHeader(text, (header) =>
      oneOf(random, [
        "x,y,height",
        "x,side,thickness",
        "x,error,u",
        "line,x,gap",
        "x,y,gap,template",
        "x,x,x",
        header.toUpperCase(),
        header.split("").toReversed().join(""),
        `${header},${header}`,
        header.replace(/\w+/, "setup"),
      ]),
    ),
  "another separator": (text, random) => text.replaceAll(/[,;\t]/g, oneOf(random, [",", ";", "\t", "|", " ", ", "])),
  "separators mixed": (text, random) =>
    text.replace(/[,;\t]/g, (one) => (chance(random, 0.2) ? oneOf(random, [",", ";", "\t"]) : one)),
  "other line ends": (text, random) => text.replaceAll("\n", oneOf(random, ["\r\n", "\r", "\n\n", "\n\r", "\u2028"])),
  "rows in another order": (text, random) => withRows(text, (rows) => shuffled(random, rows)),
  "rows lost": (text, random) => withRows(text, (rows) => rows.filter(() => chance(random, 0.6))),
  "rows twice": (text, random) =>
    withRows(text, (rows) => rows.flatMap((row) => (chance(random, 0.3) ? [row, row] : [row]))),
  "a row of many cells": (text, random) => withRows(text, (rows) => shuffled(random, [...rows, ",1".repeat(5_000)])),
  "many columns": (text) => text.replaceAll(/$/gm, ",7".repeat(400)),
  "a header of a thousand lines": (text) =>
    withHeader(text, (header) => header + Array.from({ length: 1000 }, (_, k) => `,${k}`).join("")),
  "an endless line": (text, random) =>
    withPiece(text, random, oneOf(random, ["1", ",", '"', "é", "# a: "]).repeat(150_000)),
  "cells empty": (text, random) => withNumbers(text, random, 0.2, () => ""),
  "all in quotes": (text) => text.replace(/[^,;\t\n]+/g, '"$&"'),
  "a byte order mark": (text) => `\ufeff${text}`,
  "a byte order mark inside": (text, random) => withPiece(text, random, "\ufeff"),
  "UTF-16": (text, random) => inUtf16(text, chance(random, 0.5), chance(random, 0.5)),
  "UTF-16 from half way": (text, random) =>
    Buffer.concat([Buffer.from(text.slice(0, 99)), inUtf16(text, chance(random, 0.5), true)]),
  "a NUL": (text, random) => withPiece(text, random, "\0"),
  "something else altogether": (_, random) => somethingElse(random),
};

const mangleNames: readonly string[] = Object.keys(mangles);

/** So many ways one after the other; what is no text any more is left as it is. */
export function mangled(text: string, random: Random, times: number): Uint8Array {
  let so: string | Uint8Array = text;
  for (let k = 0; k < times && typeof so === "string"; k++) so = mangles[oneOf(random, mangleNames)]!(so, random);
  return typeof so === "string" ? Buffer.from(so) : so;
}
