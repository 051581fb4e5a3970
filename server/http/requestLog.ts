/**
 * One line of log a request: method, kind of address, status, time taken. Nothing personal: no file names,
 * no bodies, no address of the client, and the address asked for only where it is one of the API's own.
 */
import type { RequestHandler } from "express";
import type { Logger } from "pino";

export function logRequests(log: Logger): RequestHandler {
  return (request, response, next) => {
    const begun = performance.now();
    response.on("close", () => {
      log.info(
        {
          method: request.method,
          route: typeof request.route?.path === "string" ? request.route.path : "-",
          status: response.writableFinished ? response.statusCode : "client left",
          ms: Math.round(performance.now() - begun),
        },
        "request",
      );
    });
    next();
  };
}
