/** `boardtrue password owner`: sets a role's password in the records, also while the server runs, and signs that role out everywhere. */
import type { Environment } from "../cantStart.ts";
import { hashPassword, passwordFault } from "../passwords.ts";
import { type Role, roles } from "../records/records.ts";
import { print } from "./print.ts";
import { Faulty, WrongCall } from "./refusals.ts";
import { secretWord } from "./secretWord.ts";
import { withRecords } from "./withRecords.ts";

export async function setPassword(words: readonly string[], environment: Environment): Promise<void> {
  const role = roleIn(words);
  await withRecords(environment, { mayBegin: true }, async (store, place) => {
    const input = process.stdin;
    const password = await secretWord(`Password of the ${role}`, {
      input,
      tell: (say) => void process.stderr.write(say),
    });
    const fault = passwordFault(role, password);
    if (fault !== null) throw new Faulty(fault);
    await store.setPasswordHash(role, await hashPassword(password));
    await print([
      `The ${role} has a new password, and whoever was signed in as ${role} is signed out. Records: ${place}\n`,
    ]);
  });
}

function roleIn([word, ...others]: readonly string[]): Role {
  const role = roles.find((known) => known === word);
  if (role === undefined) throw new WrongCall(`Say whose: boardtrue password ${roles.join(" or boardtrue password ")}`);
  if (others.length > 0) {
    throw new WrongCall("The password is no word of the call: it is asked for, or read from standard input.");
  }
  return role;
}
