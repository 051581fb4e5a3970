/**
 * Who asks: the role of a request, once the gate (gate.ts) has let it in, and the way of what only the owner may do.
 *
 * Kept beside the request and not in it, so that nothing that arrives can pass for it.
 */
import type { Request, RequestHandler } from "express";
import type { Role } from "../../records/records.ts";
import { Problem } from "../problems.ts";

const roleOfRequest = new WeakMap<Request, Role>();

export function letIn(request: Request, role: Role): void {
  roleOfRequest.set(request, role);
}

/** Throws where no gate stands before the route: a programmer's mistake that must not open anything. */
export function roleOf(request: Request): Role {
  const role = roleOfRequest.get(request);
  if (role === undefined) throw new Error("a route asks for the role, and no gate stands before it");
  return role;
}

/** For a whole route; for a part of one, `refuseAllButOwner`. */
export const ownerOnly: RequestHandler = (request, _response, next) => {
  refuseAllButOwner(request);
  next();
};

export function refuseAllButOwner(request: Request): void {
  if (roleOf(request) === "owner") return;
  throw new Problem("owner-only", { detail: "Sign in as the owner for this, or ask the owner to do it." });
}
