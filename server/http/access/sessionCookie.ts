/**
 * The cookie that carries a session's token.
 *
 * HttpOnly: no script reads it. SameSite=Strict: no other site's page makes a browser send it. Secure where the request says that it came
 * over https; that word (X-Forwarded-Proto, from a proxy) is anybody's, but it only makes the cookie stricter.
 */
import type { IncomingMessage } from "node:http";
import type { CookieOptions, Request, Response } from "express";
import { longestSessionMs } from "./sessions.ts";

const cookieName = "boardtrue-session";

/** 32 bytes in base64url. */
const tokenForm = /^[\w-]{43}$/;

/** The first cookie of that name; null where there is none, or what it holds is no token. */
export function tokenIn(request: IncomingMessage): string | null {
  const pairs = (request.headers.cookie ?? "").split(";").map((pair) => pair.trim());
  const value = pairs.find((pair) => pair.startsWith(`${cookieName}=`))?.slice(cookieName.length + 1);
  return value !== undefined && tokenForm.test(value) ? value : null;
}

export function giveToken(request: Request, response: Response, token: string): void {
  response.cookie(cookieName, token, { ...rulesFor(request), maxAge: longestSessionMs });
}

export function takeTokenBack(request: Request, response: Response): void {
  response.clearCookie(cookieName, rulesFor(request));
}

function rulesFor(request: Request): CookieOptions {
  const secure = /^https\b/i.test(String(request.headers["x-forwarded-proto"] ?? ""));
  return { httpOnly: true, sameSite: "strict", path: "/", secure };
}
