/**
 * One line of log a request: method, kind of address, status, time taken. Nothing personal: no file names,
 * no bodies, no address of the client, and of the address asked for only the route it fell to, as the program writes it
 * (`/api/instruments/:number`), never what stood in its place.
 */
import type { Request, RequestHandler } from "express";
import type { Logger } from "pino";

export function logRequests(log: Logger): RequestHandler {
  return (request, response, next) => {
    const begun = performance.now();
    response.on("close", () => {
      log.info(
        {
          method: request.method,
          route: routeOf(request),
          status: response.writableFinished ? response.statusCode : "client left",
          ms: Math.round(performance.now() - begun),
        },
        "request",
      );
    });
    next();
  };
}

/** A router may be mounted at one of two places; which one is not told by the route's own path. */
function routeOf({ route, originalUrl }: Request): string {
  const path: unknown = route?.path;
  if (Array.isArray(path)) return "page";
  if (typeof path !== "string") return "-";
  const [mount = ""] = /^\/(invented\/)?api(?=\/)/i.exec(originalUrl) ?? [];
  return path.startsWith("/api/") ? path : `${mount.toLowerCase()}${path}`;
}
