/** Passwords: which will do, and that only the right one opens. */
import { describe, expect, test } from "vitest";
import { hashPassword, passwordFault, passwordMatches } from "../../server/passwords.ts";

describe("a password", () => {
  test.each([
    "spruce and maple",
    "Ebenholz-Span 3",
    "四弦の指板を読む人々の工房",
    "x9$Kd!20fPq",
    "spruce and maple ".repeat(12).slice(0, 200),
  ])("of enough characters will do: %s", (password) => expect(passwordFault("owner", password)).toBeNull());

  test.each([
    ["nine characters", "spruce an", /At least 10/],
    ["nine characters that take more units of code", "🎻🎻🎻a🎻b🎻c🎻", /At least 10/],
    ["more than two hundred", "spruce and maple ".repeat(12), /At most 200/],
    ["one character again and again", "aaaaaaaaaaaa", /repeat or follow/],
    ["digits in a row", "1234567890", /repeat or follow/],
    ["letters in a row, backwards", "lkjihgfedcba", /repeat or follow/],
    ["the role's name with a little beside it", "Owner-2026!", /too near/],
    ["the program's name twice", "boardtrue BoardTrue", /too near/],
    ["the usual word", "Password12345", /too near/],
    ["a line break", "spruce and\nmaple", /no line breaks/],
    ["a NUL", "spruce and\0maple", /no line breaks/],
    ["half a character", "spruce and \ud83c", /no line breaks/],
  ])("of %s will not do, and why is told", (_what, password, why) => {
    expect(passwordFault("owner", password)).toMatch(why);
  });
});

describe("what is kept of a password", () => {
  test("opens to it alone, tells its parameters, and differs each time", async () => {
    const [kept, again] = await Promise.all([hashPassword("spruce and maple"), hashPassword("spruce and maple")]);
    // N = 2^17, r = 8, p = 1: OWASP's Password Storage Cheat Sheet, the least it asks of scrypt.
    expect(kept).toMatch(/^\$scrypt\$ln=17,r=8,p=1\$[\w+/]{22}==\$[\w+/]{43}=$/);
    expect(again).not.toBe(kept);
    expect(await passwordMatches("spruce and maple", kept)).toBe(true);
    expect(await passwordMatches("spruce and Maple", kept)).toBe(false);
    expect(await passwordMatches("", kept)).toBe(false);
  });

  test("is scrypt as RFC 7914 has it: the third of its test vectors opens", async () => {
    // RFC 7914, 12: P = "pleaseletmein", S = "SodiumChloride", N = 16384, r = 8, p = 1, 64 bytes.
    const hash =
      "7023bdcb3afd7348461c06cd81fd38ebfda8fbba904f8e3ea9b543f6545da1f2d5432955613f0fcf62d49705242a9af9e61e85dc0d651e40dfcf017b45575887";
    const base64 = (bytes: Buffer) => bytes.toString("base64");
    const kept = `$scrypt$ln=14,r=8,p=1$${base64(Buffer.from("SodiumChloride"))}$${base64(Buffer.from(hash, "hex"))}`;
    expect(await passwordMatches("pleaseletmein", kept)).toBe(true);
    expect(await passwordMatches("pleaseletmeim", kept)).toBe(false);
  });

  test("opens however the letters were put together", async () => {
    const kept = await hashPassword("Geige f\u00fcr \u00dcbende");
    expect(await passwordMatches("Geige fu\u0308r U\u0308bende", kept)).toBe(true);
  });

  test.each(["", "spruce and maple", "$scrypt$ln=17,r=8$AAAA$BBBB", "$argon2id$v=19$m=65536$c2FsdHNhbHQ$aGFzaA"])(
    "throws where it is none: %s",
    async (kept) => expect(passwordMatches("spruce and maple", kept)).rejects.toThrow(/can't be read/),
  );
});
