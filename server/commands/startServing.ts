/** `boardtrue serve`: the server, with the environment's words, until a signal stops it. Loaded only here: the other tasks need none. */
import type { Environment } from "../serve.ts";
import { Faulty, WrongCall } from "./refusals.ts";

export async function startServing(words: readonly string[], environment: Environment): Promise<void> {
  if (words.length > 0) throw new WrongCall("serve takes nothing more; the port comes from PORT.");
  const { CantStart, serve } = await import("../serve.ts");
  try {
    await serve(environment, (line) => void process.stdout.write(`${line}\n`));
  } catch (error) {
    throw error instanceof CantStart ? new Faulty(error.message) : error;
  }
}
