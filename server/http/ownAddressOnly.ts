/**
 * Keeps other web sites away from this server.
 *
 * A page from elsewhere can make a browser call 127.0.0.1, directly or by a name that it lets point there (DNS rebinding). Two checks stop it: the
 * name that was asked for must be this machine's own, and whatever changes something must, if a browser sends it, come from a page of this server.
 * Programs send no Origin and are not held up.
 *
 * Where a password guards the server, any name is answered: a workshop may call its machine what it likes, and a page that got here by another name
 * has no cookie, since a browser keeps cookies by name. Without a password, what a proxy passed on is refused: others could get in by it as owners.
 */
import type { Request, RequestHandler } from "express";
import { Problem } from "./problems.ts";

const ownNames = new Set(["localhost", "127.0.0.1", "[::1]"]);
const proxyHeaders = ["forwarded", "x-forwarded-for", "x-forwarded-host", "x-forwarded-proto", "x-real-ip"];

/** Host: a name of this machine, with any port (a container or a tunnel may change it). */
export const ownHostOnly: RequestHandler = (request, _response, next) => {
  if (!ownNames.has(hostName(onlyHost(request)))) {
    throw new Problem("foreign-host", { detail: "Use http://127.0.0.1 or http://localhost with the server's port." });
  }
  if (proxyHeaders.some((name) => request.headers[name] !== undefined)) {
    throw new Problem("through-proxy", {
      detail: "Start the server with BOARDTRUE_SIGN_IN=always, so that it asks for passwords.",
    });
  }
  next();
};

/** Host: any one name. */
export const anyOneHost: RequestHandler = (request, _response, next) => {
  if (hostName(onlyHost(request)) === "") {
    throw new Problem("foreign-host", { detail: "The Host header is no name of a machine." });
  }
  next();
};

/**
 * All that changes something: an Origin, where one is sent, must be this server by one of these schemes; so must the browser's own word on where
 * the call began.
 */
export function ownOriginOnly(...schemes: readonly ("http" | "https")[]): RequestHandler {
  return (request, _response, next) => {
    if (request.method === "GET" || request.method === "HEAD") {
      next();
      return;
    }
    const { origin, host = "" } = request.headers;
    const own = schemes.map((scheme) => `${scheme}://${host}`.toLowerCase());
    const fromElsewhere = origin !== undefined && !own.includes(origin.toLowerCase());
    const site = request.headers["sec-fetch-site"];
    if (fromElsewhere || site === "cross-site" || site === "same-site") {
      throw new Problem("foreign-origin", { detail: "Open the page from this server itself and send it from there." });
    }
    next();
  };
}

/** RFC 9112, 3.2: a server must refuse a request without a Host, or with two. */
function onlyHost(request: Request): string {
  const [host, ...others] = request.headersDistinct.host ?? [];
  if (host === undefined || others.length > 0) throw new Problem("broken-request", { detail: "Send one Host header." });
  return host;
}

/** "LOCALHOST:4870" -> "localhost", "[::1]:4870" -> "[::1]"; anything that is no host and port -> "". */
function hostName(host: string): string {
  return /^(\[[0-9a-f:.]+\]|[a-z0-9._-]+)(:\d{1,5})?$/i.exec(host)?.[1]?.toLowerCase() ?? "";
}
