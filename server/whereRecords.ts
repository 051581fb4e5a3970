/**
 * Where the workshop's own records are kept: the same place for the server and for every task of the command.
 *
 * In: the environment. DATABASE_URL (postgres://…) names a PostgreSQL database; else BOARDTRUE_DATA names a folder; else it
 * is the user's own place for such files. Out: where, and how to say so (never the password in a DATABASE_URL).
 * Source: XDG Base Directory Specification (a relative path counts for nothing); the systems' own customs elsewhere, from memory.
 */
import { homedir } from "node:os";
import { isAbsolute, join, resolve } from "node:path";
import { CantStart, type Environment } from "./cantStart.ts";

export type RecordsPlace = { readonly folder: string } | { readonly databaseUrl: string };

export function whereRecords(
  environment: Environment,
  system: string = process.platform,
  home = homedir(),
): RecordsPlace {
  const databaseUrl = environment.DATABASE_URL?.trim();
  if (databaseUrl) {
    if (/^postgres(ql)?:\/\//.test(databaseUrl)) return { databaseUrl };
    throw new CantStart("DATABASE_URL: give the address of a PostgreSQL database (postgres://…), or leave it unset.");
  }
  const folder = environment.BOARDTRUE_DATA?.trim();
  return { folder: folder ? resolve(folder) : usualFolder(environment, system, home) };
}

function usualFolder(environment: Environment, system: string, home: string): string {
  if (system === "darwin") return join(home, "Library", "Application Support", "Boardtrue");
  if (system === "win32") return join(environment.LOCALAPPDATA || join(home, "AppData", "Local"), "Boardtrue");
  const shared = environment.XDG_DATA_HOME;
  return join(shared && isAbsolute(shared) ? shared : join(home, ".local", "share"), "boardtrue");
}

/** "/home/…/boardtrue (SQLite)", "records on db.example (PostgreSQL)". */
export function placeOfRecordsInWords(place: RecordsPlace): string {
  if ("folder" in place) return `${place.folder} (SQLite)`;
  const { hostname, pathname } = new URL(place.databaseUrl);
  return `${decodeURIComponent(pathname.slice(1)) || "the usual database"} on ${hostname || "this machine"} (PostgreSQL)`;
}
