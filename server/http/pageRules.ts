/**
 * The headers that tell a browser what a page of this server may do: only what comes from the server itself.
 *
 * No Strict-Transport-Security and no upgrade-insecure-requests: in a workshop the server speaks plain http, and
 * either would lock the page out.
 */
import type { RequestHandler } from "express";
import helmet from "helmet";

export function pageRules(): RequestHandler {
  return helmet({
    strictTransportSecurity: false,
    contentSecurityPolicy: {
      useDefaults: false,
      directives: {
        defaultSrc: ["'self'"],
        baseUri: ["'none'"],
        formAction: ["'self'"],
        frameAncestors: ["'none'"],
        objectSrc: ["'none'"],
      },
    },
    crossOriginResourcePolicy: { policy: "same-origin" },
    referrerPolicy: { policy: "no-referrer" },
    xFrameOptions: { action: "deny" },
  });
}
