/** The server as a program: serves with this process's environment (see serve.ts); exit 1 where it can't start. */
import { CantStart, serve } from "./serve.ts";

// Whoever read the first lines may have closed the pipe; the server goes on.
process.stdout.on("error", () => undefined);

try {
  await serve(process.env, (line) => void process.stdout.write(`${line}\n`));
} catch (error) {
  if (!(error instanceof CantStart)) throw error;
  process.stderr.write(`${error.message}\n`);
  process.exitCode = 1;
}
