/**
 * Keeps other web sites away from a server that listens on this machine only.
 *
 * A page from elsewhere can make a browser call 127.0.0.1, directly or by a name that it lets point there (DNS
 * rebinding). Two checks stop it: the name that was asked for must be this machine's own, and a POST that a browser
 * sends must come from a page of this server. Programs send no Origin and are not held up.
 */
import type { RequestHandler } from "express";
import { Problem } from "./problems.ts";

const ownNames = new Set(["localhost", "127.0.0.1", "[::1]"]);

/** Host: a name of this machine, with any port (a container or a tunnel may change it). */
export const ownHostOnly: RequestHandler = (request, _response, next) => {
  const hosts = request.headersDistinct.host ?? [];
  const [host = ""] = hosts;
  if (hosts.length !== 1) {
    // RFC 9112, 3.2: a server must refuse a request without a Host, or with two.
    throw new Problem("broken-request", { detail: "Send one Host header." });
  }
  if (!ownNames.has(hostName(host))) {
    throw new Problem("foreign-host", { detail: "Use http://127.0.0.1 or http://localhost with the server's port." });
  }
  next();
};

/** POST: an Origin, where one is sent, must be this server; so must the browser's own word on where the call began. */
export const ownOriginOnly: RequestHandler = (request, _response, next) => {
  if (request.method === "GET" || request.method === "HEAD") {
    next();
    return;
  }
  const { origin, host } = request.headers;
  const site = request.headers["sec-fetch-site"];
  const fromElsewhere = origin !== undefined && origin.toLowerCase() !== `http://${host ?? ""}`.toLowerCase();
  if (fromElsewhere || site === "cross-site" || site === "same-site") {
    throw new Problem("foreign-origin", {
      detail: "Open the page from this server itself and send the readings there.",
    });
  }
  next();
};

/** "LOCALHOST:4870" -> "localhost", "[::1]:4870" -> "[::1]"; anything that is no host and port -> "". */
function hostName(host: string): string {
  return /^(\[[0-9a-f:]+\]|[a-z0-9.-]+)(:\d{1,5})?$/i.exec(host)?.[1]?.toLowerCase() ?? "";
}
