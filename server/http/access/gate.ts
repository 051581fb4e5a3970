/**
 * The gate: before every route of the API but health and session. Behind it a request has a role (roles.ts).
 *
 * Where no passwords are asked for (this machine only) everybody is the owner. Elsewhere whoever has no session is told to sign in, whatever they
 * ask for: nobody learns what there is. Answers behind the gate are kept by no browser and no proxy (Cache-Control: no-store).
 */
import type { RequestHandler } from "express";
import { Problem } from "../problems.ts";
import { letIn } from "./roles.ts";
import { tokenIn } from "./sessionCookie.ts";
import { type AccessStore, roleSignedIn } from "./sessions.ts";

/** `keys` null: no passwords are asked for. */
export function gate(keys: AccessStore | null, now: () => Date): RequestHandler {
  return async (request, response, next) => {
    response.set("Cache-Control", "no-store");
    const token = tokenIn(request);
    const role = keys === null ? "owner" : token === null ? null : await roleSignedIn(keys, token, now());
    if (role === null) throw new Problem("sign-in-needed", { detail: "Sign in at /sign-in, then ask again." });
    letIn(request, role);
    next();
  };
}
