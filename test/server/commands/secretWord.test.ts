/** A secret typed at a terminal or given on standard input. */
import { PassThrough, Readable } from "node:stream";
import { describe, expect, test, vi } from "vitest";
import { secretWord } from "../../../server/commands/secretWord.ts";

/** A terminal: keys go in, what is told comes out; a screen would also show whatever else is written. */
function terminal(keys: readonly string[]): { readonly said: () => string; readonly asked: Promise<string> } {
  const screen: string[] = [];
  const modes: boolean[] = [];
  const input = Object.assign(new PassThrough(), { isTTY: true, setRawMode: (raw: boolean) => void modes.push(raw) });
  const asked = secretWord("Password of the owner", { input, tell: (words) => void screen.push(words) });
  for (const key of keys) input.write(key);
  const settled = asked.finally(() => {
    // Raw: the terminal shows nothing by itself; and it is set back.
    expect(modes).toEqual([true, false]);
  });
  return { said: () => screen.join(""), asked: settled };
}

describe("typed at a terminal", () => {
  test("it is asked for twice and never shown", async () => {
    const shown = [vi.spyOn(process.stderr, "write"), vi.spyOn(process.stdout, "write")];
    const { said, asked } = terminal(["spruce and maplX", "\u007f", "e\r", "spruce and maple\r"]);
    expect(await asked).toBe("spruce and maple");
    expect(said()).toBe("Password of the owner (it is not shown): \nOnce more: \n");
    for (const write of shown) {
      expect(write).not.toHaveBeenCalled();
      write.mockRestore();
    }
  });

  test.each([
    ["two that differ", ["spruce and maple\r", "spruce and Maple\r"], /not the same. Nothing was changed/],
    ["Ctrl and C", ["spruce", "\u0003"], /Nothing was changed/],
    ["Ctrl and D", ["spruce and maple\r", "\u0004"], /Nothing was changed/],
  ])("%s change nothing", async (_what, keys, why) => {
    const { said, asked } = terminal(keys);
    await expect(asked).rejects.toThrow(why);
    expect(said()).not.toContain("spruce");
  });
});

describe("on standard input", () => {
  const given = (...pieces: readonly (string | Buffer)[]) =>
    secretWord("Password of the owner", {
      input: Readable.from(pieces.map((piece) => Buffer.from(piece as string))),
      tell: () => {
        throw new Error("nobody is there to be told");
      },
    });

  test("it is one line, with or without its end, and its spaces count", async () => {
    expect(await given(" spruce and", " maple \n")).toBe(" spruce and maple ");
    expect(await given("spruce and maple\r\n")).toBe("spruce and maple");
    expect(await given("Fichte f\u00fcr ", Buffer.from([0xc3]), Buffer.from([0xbc]), "ber")).toBe(
      "Fichte f\u00fcr \u00fcber",
    );
    expect(await given("")).toBe("");
  });

  test.each([
    ["two lines", "spruce\nmaple\n", /one line/],
    ["more than anybody remembers", "a".repeat(5000), /one line/],
    ["what is no text", Buffer.from([0xff, 0xfe, 0x41]), /not UTF-8/],
  ])("%s is refused, and not said again", async (_what, piece, why) => {
    await expect(given(piece)).rejects.toThrow(why);
    await expect(given(piece)).rejects.not.toThrow(/spruce|aaaa/);
  });
});
