/**
 * /api/session: who is signed in, signing in, signing out.
 *
 * GET -> { needed, role }; POST { role, password } -> the same, and the cookie; DELETE -> 204, and the session is ended in the store.
 * A wrong password is 401, too many of them 429 with Retry-After. Where no passwords are asked for everybody is the owner, and there is nothing to sign
 * out of.
 */
import { type Request, type Response, Router } from "express";
import type { z } from "zod";
import { passwordMatches } from "../../passwords.ts";
import { type Role, roles } from "../../records/records.ts";
import { clientAddress } from "../access/clientAddress.ts";
import { giveToken, takeTokenBack, tokenIn } from "../access/sessionCookie.ts";
import { type AccessStore, beginSession, endSession, roleSignedIn } from "../access/sessions.ts";
import { countTries } from "../access/tries.ts";
import { jsonBody } from "../jsonBody.ts";
import { onlyMethods, Problem } from "../problems.ts";
import { turns } from "../turns.ts";
import { type sessionSchema, signInSchema } from "../wire/session.ts";

/** A hash takes 128 MiB; the limit on tries keeps those that wait few. */
const hashesAtOnce = 2;

type SessionAnswer = z.infer<typeof sessionSchema>;
type SignIn = z.infer<typeof signInSchema>;

/** `keys` null: no passwords are asked for. */
export function sessionRoute(keys: AccessStore | null, now: () => Date): Router {
  const tries = countTries();
  const turnOfHash = turns(hashesAtOnce);

  async function signIn(request: Request, response: Response, store: AccessStore, asked: SignIn): Promise<void> {
    const aTry = tries.begin(clientAddress(request), asked.role);
    if (aTry.outcome === "wait") {
      throw new Problem("too-many-tries", {
        detail: `Too many wrong passwords: wait ${aTry.seconds} seconds, then try again.`,
        retryAfterSeconds: aTry.seconds,
      });
    }
    let token: string | null;
    try {
      token = await turnOfHash(() => tokenFor(store, asked, now()));
    } catch (error) {
      // Nobody learned whether it was right.
      aTry.withdraw();
      throw error;
    }
    if (token === null)
      throw new Problem("wrong-password", { detail: "That is not the password. Type it again; capitals count." });
    aTry.right();
    const former = tokenIn(request);
    if (former !== null) await endSession(store, former);
    giveToken(request, response, token);
  }

  const router = Router();
  router
    .route("/api/session")
    .all((_request, response, next) => {
      response.set("Cache-Control", "no-store");
      next();
    })
    .get(async (request, response) => {
      response.json(await answerTo(request, keys, now()));
    })
    .post(jsonBody, async (request, response) => {
      const asked = signInAsked(request);
      if (keys === null) {
        response.json({ needed: false, role: "owner" } satisfies SessionAnswer);
        return;
      }
      await signIn(request, response, keys, asked);
      response.json({ needed: true, role: asked.role } satisfies SessionAnswer);
    })
    .delete(async (request, response) => {
      const token = tokenIn(request);
      if (keys !== null && token !== null) await endSession(keys, token);
      takeTokenBack(request, response);
      response.status(204).end();
    })
    .all(onlyMethods("GET", "POST", "DELETE"));
  return router;
}

async function answerTo(request: Request, keys: AccessStore | null, now: Date): Promise<SessionAnswer> {
  if (keys === null) return { needed: false, role: "owner" };
  const token = tokenIn(request);
  return { needed: true, role: token === null ? null : await roleSignedIn(keys, token, now) };
}

function signInAsked(request: Request): SignIn {
  const asked = signInSchema.safeParse(request.body);
  if (asked.success) return asked.data;
  const detail = `Send JSON: { "role": "${roles.join('" or "')}", "password": "…" }.`;
  throw new Problem("broken-json", { detail });
}

/** Null for a wrong password, and for a role that has none. */
async function tokenFor(store: AccessStore, { role, password }: SignIn, now: Date): Promise<string | null> {
  const kept = await store.passwordHash(role);
  if (kept === null) throw noPasswordYet(role);
  if (!(await passwordMatches(password, kept))) return null;
  const token = await beginSession(store, role, now);
  // A password that was replaced while this one was being hashed has signed its role out already: this session would outlive it.
  if ((await store.passwordHash(role)) === kept) return token;
  await endSession(store, token);
  return null;
}

function noPasswordYet(role: Role): Problem {
  const detail = `No password is set for the ${role}: on the server's machine, boardtrue password ${role} sets one.`;
  return new Problem("wrong-password", { detail });
}
