/**
 * The command: the same examination and the same records as the server's, from files to standard output.
 *
 * Each task is a file in commands/. Exit 0 with an answer, 1 with faults in what was given (on standard error, one a line), 2 for
 * a wrong call. Nothing but the answer on standard output. Files are read chunk by chunk; `-` is standard input.
 */
import { examineFiles } from "./commands/examine.ts";
import { printEmptyGrid } from "./commands/grid.ts";
import { printHelp } from "./commands/help.ts";
import { print } from "./commands/print.ts";
import { printRailProfile } from "./commands/rail.ts";
import { codeOf, Faulty, WrongCall } from "./commands/refusals.ts";
import { version } from "./version.ts";

type Task = (words: readonly string[]) => Promise<void>;
type TaskOfEnvironment = (words: readonly string[], environment: NodeJS.ProcessEnv) => Promise<void>;

const tasks: Readonly<Record<string, Task>> = {
  examine: examineFiles,
  grid: printEmptyGrid,
  rail: printRailProfile,
  serve: loaded(async () => (await import("./commands/startServing.ts")).startServing),
  password: loaded(async () => (await import("./commands/password.ts")).setPassword),
  export: loaded(async () => (await import("./commands/exportRecords.ts")).exportRecords),
  import: loaded(async () => (await import("./commands/importRecords.ts")).importRecords),
  backup: loaded(async () => (await import("./commands/backUp.ts")).backUp),
  check: loaded(async () => (await import("./commands/checkRecords.ts")).checkRecords),
  "examine-again": loaded(async () => (await import("./commands/examineAgain.ts")).examineVisitsAgain),
  due: loaded(async () => (await import("./commands/due.ts")).printDue),
  history: loaded(async () => (await import("./commands/history.ts")).printHistory),
  help: printHelp,
  version: () => print([`${version}\n`]),
};

/** Databases and server come in only with a task that needs them: the others start in half the time. */
function loaded(load: () => Promise<TaskOfEnvironment>): Task {
  return async (words) => (await load())(words, process.env);
}

const otherNames: Readonly<Record<string, string>> = { "--help": "help", "-h": "help", "--version": "version" };

// A reader that has read enough (as `head` does) closes the pipe; each task that prints learns of it by itself.
process.stdout.on("error", () => undefined);
process.exitCode = await exitStatusOf(process.argv.slice(2));

async function exitStatusOf([name, ...words]: readonly string[]): Promise<number> {
  try {
    await taskNamed(name)(words);
    return 0;
  } catch (error) {
    // Whoever read the answer has read enough (as `head` does): nothing to report.
    if (codeOf(error) === "EPIPE") return 0;
    if (error instanceof WrongCall) {
      process.stderr.write(`${error.message}\nSee: boardtrue help\n`);
      return 2;
    }
    if (error instanceof Faulty) {
      process.stderr.write(`${error.message}\n`);
      return 1;
    }
    throw error;
  }
}

function taskNamed(name: string | undefined): Task {
  const names = Object.keys(tasks);
  const known = `${names.slice(0, -1).join(", ")} or ${names.at(-1)}`;
  if (name === undefined) throw new WrongCall(`Say what to do: ${known}.`);
  const task = Object.hasOwn(tasks, name) ? tasks[name] : tasks[otherNames[name] ?? ""];
  if (task === undefined) throw new WrongCall(`"${name}" is not known: ${known}.`);
  return task;
}
