/**
 * A secret from whoever called: typed at a terminal, twice and without being shown; or the one line of standard input.
 *
 * It is never a word of the call: those stand in the shell's history and in every list of running programs. Throws Faulty, in words, where
 * nothing fit to use came.
 */
import { createInterface } from "node:readline";
import { type Readable, Writable } from "node:stream";
import { Faulty } from "./refusals.ts";

/** `tell` is for a person at the terminal. */
export type AskedAt = { readonly input: Readable & { readonly isTTY?: boolean }; tell(words: string): void };

const longestLineBytes = 4096;

export function secretWord(called: string, at: AskedAt): Promise<string> {
  return at.input.isTTY === true ? typedTwice(called, at) : onlyLineOf(called, at.input);
}

async function typedTwice(called: string, { input, tell }: AskedAt): Promise<string> {
  // What readline would show as it is typed goes nowhere.
  const unseen = new Writable({ write: (_chunk, _encoding, done) => done() });
  const typing = createInterface({ input, output: unseen, terminal: true, historySize: 0 });
  const lines = typing[Symbol.asyncIterator]();
  const typed = async (prompt: string): Promise<string> => {
    tell(prompt);
    const line = await lines.next();
    tell("\n");
    if (line.done === true) throw new Faulty("Nothing was changed.");
    return line.value;
  };
  try {
    const first = await typed(`${called} (it is not shown): `);
    if ((await typed("Once more: ")) !== first) throw new Faulty("The two are not the same. Nothing was changed.");
    return first;
  } finally {
    typing.close();
  }
}

async function onlyLineOf(called: string, input: Readable): Promise<string> {
  const chunks: Buffer[] = [];
  let bytes = 0;
  for await (const chunk of input) {
    chunks.push(chunk);
    bytes += chunk.length;
    if (bytes > longestLineBytes) throw new Faulty(`${called}: give one line on standard input.`);
  }
  let text: string;
  try {
    text = new TextDecoder("utf-8", { fatal: true }).decode(Buffer.concat(chunks));
  } catch {
    throw new Faulty(`${called}: standard input is not UTF-8.`);
  }
  const line = text.replace(/\r?\n$/, "");
  if (/[\r\n]/.test(line)) throw new Faulty(`${called}: give one line on standard input.`);
  return line;
}
