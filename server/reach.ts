/**
 * Who can reach the server, and so whether it asks for passwords.
 *
 * HOST (127.0.0.1): on this machine alone nobody signs in and everybody is the owner. At any other address others can reach it, and it asks for
 * passwords; it does not start before the owner has one. BOARDTRUE_SIGN_IN=always asks for them on this machine, too: for a proxy in front that
 * speaks https.
 */
import { CantStart, type Environment } from "./cantStart.ts";
import type { Store } from "./records/store.ts";

export type Reach = { readonly host: string; readonly asksForPasswords: boolean };

const thisMachine = ["127.0.0.1", "localhost", "::1"];

export function reachFrom(environment: Environment): Reach {
  const host = environment.HOST?.trim() || "127.0.0.1";
  const signIn = environment.BOARDTRUE_SIGN_IN || "elsewhere";
  if (signIn !== "always" && signIn !== "elsewhere") {
    throw new CantStart(
      `BOARDTRUE_SIGN_IN=${signIn}: say always, or leave it unset (passwords are asked for elsewhere than on this machine).`,
    );
  }
  return { host, asksForPasswords: signIn === "always" || !thisMachine.includes(host.toLowerCase()) };
}

/** Throws CantStart where passwords are asked for and the owner has none. */
export async function refuseWithoutPassword(reach: Reach, store: Pick<Store, "passwordHash">): Promise<void> {
  if (!reach.asksForPasswords || (await store.passwordHash("owner")) !== null) return;
  throw new CantStart(
    `HOST=${reach.host}: others can reach this server, so the owner needs a password first. Set it, then start again: npm run -s boardtrue -- password owner`,
  );
}

/** Where the page is, for whoever started the server. */
export function placeInWords({ host, asksForPasswords }: Reach, port: number): string {
  const everywhere = ["0.0.0.0", "::"].includes(host);
  const name = everywhere ? "127.0.0.1" : host.includes(":") ? `[${host}]` : host;
  const others = everywhere ? ", from other machines by this one's name or address" : "";
  const words = asksForPasswords ? " (with a password)" : "";
  return `http://${name}:${port}/${others}${words}`;
}
