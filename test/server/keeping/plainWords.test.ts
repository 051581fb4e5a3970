/** What a text in the records may hold, and how a refused one is told. */
import { describe, expect, test } from "vitest";
import { plainWords } from "../../../server/keeping/plainWords.ts";

const inOneLine = (written: string) => plainWords(written, { most: 40, lines: "one" });
const inManyLines = (written: string) => plainWords(written, { most: 4000, lines: "many" });

describe("a text for the records", () => {
  test("comes without the blanks around it, whatever its letters", () => {
    expect(inOneLine("  Čelo Nº 7 – „löst“ 大提琴 🎻 ")).toEqual({
      outcome: "plain",
      text: "Čelo Nº 7 – „löst“ 大提琴 🎻",
    });
  });

  test("keeps its line breaks and tabs where it may have many lines, however they were written", () => {
    expect(inManyLines("rut under A\r\nat\tE\rdressed\n")).toEqual({
      outcome: "plain",
      text: "rut under A\nat\tE\ndressed",
    });
  });

  test("keeps a joiner inside a sign where it may have many lines", () => {
    expect(inManyLines("👩‍🎤").outcome).toBe("plain");
  });

  test.each([
    ["NUL", "C-\u00007"],
    ["a bell", "C-\u00077"],
    ["an escape of a terminal", "\u001b[31mC-07"],
    ["a control character of the second row", "C\u00857"],
    ["half a character", "C-\ud83c7"],
    ["the other half", "C-\udfbb7"],
    ["an override from right to left", "C-\u202e70"],
    ["an embedding", "C-\u202b70"],
    ["an isolate", "C-\u2067\u206970"],
  ])("is refused with %s, in one line as in many", (_, written) => {
    for (const refused of [inOneLine(written), inManyLines(written)]) {
      expect(refused).toMatchObject({ outcome: "refused", code: "unprintable" });
      // What is told of it must not do what it does.
      const told = refused.outcome === "refused" ? refused.saw : "";
      expect(told).toContain("<U+");
      expect(told).not.toMatch(/[\p{C}]/u);
    }
  });

  test.each([
    ["a line break", "C-07\nC-08"],
    ["a character of no width", "C-\u200b07"],
    ["a line separator", "C-\u202807"],
    ["a character for private use", "C-\ue00007"],
  ])("is refused in one line with %s", (_, written) => {
    expect(inOneLine(written)).toMatchObject({ outcome: "refused", code: "unprintable" });
  });

  test("may be as long as its field takes, counted in characters and not in bytes", () => {
    expect(inOneLine("🎻".repeat(40)).outcome).toBe("plain");
    expect(inOneLine("🎻".repeat(41))).toMatchObject({
      outcome: "refused",
      code: "too-long",
      saw: expect.stringContaining("41 characters"),
      remedy: "Write at most 40.",
    });
  });
});
