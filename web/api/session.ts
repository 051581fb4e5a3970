/** Who is signed in, and whether that is needed at all: on this machine alone nobody signs in. */
import type { Role } from "../../server/records/records.ts";
import { ask, type Reply } from "./reach.ts";

export type Session = { readonly needed: boolean; readonly role: Role | null };

export const session = (): Promise<Reply<Session>> => ask("/api/session");

export const signIn = (role: Role, password: string): Promise<Reply<Session>> =>
  ask("/api/session", { method: "POST", json: { role, password } });

export const signOut = (): Promise<Reply<null>> => ask("/api/session", { method: "DELETE" });
