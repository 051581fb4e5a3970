/**
 * The headers that tell a browser what a page of this server may do: only what comes from the server itself, no script and no style
 * written into the page, no markup made out of text (trusted types: nothing may be handed to the browser as markup or as a script's text), no frame round
 * it, nothing told to other sites, no camera, place or payment.
 *
 * No Strict-Transport-Security and no upgrade-insecure-requests: in a workshop the server speaks plain http, and
 * either would lock the page out.
 */
import type { RequestHandler } from "express";
import helmet from "helmet";

const notUsed = ["camera", "microphone", "geolocation", "payment", "usb", "serial", "display-capture"];
const permissionsPolicy = notUsed.map((feature) => `${feature}=()`).join(", ");

export function pageRules(): RequestHandler[] {
  const headers = helmet({
    strictTransportSecurity: false,
    contentSecurityPolicy: {
      useDefaults: false,
      directives: {
        defaultSrc: ["'none'"],
        scriptSrc: ["'self'"],
        styleSrc: ["'self'"],
        imgSrc: ["'self'"],
        connectSrc: ["'self'"],
        baseUri: ["'none'"],
        formAction: ["'self'"],
        frameAncestors: ["'none'"],
        requireTrustedTypesFor: ["'script'"],
        trustedTypes: ["'none'"],
      },
    },
    crossOriginOpenerPolicy: { policy: "same-origin" },
    crossOriginResourcePolicy: { policy: "same-origin" },
    referrerPolicy: { policy: "no-referrer" },
    xFrameOptions: { action: "deny" },
  });
  return [
    headers,
    (_request, response, next) => {
      response.set("Permissions-Policy", permissionsPolicy);
      next();
    },
  ];
}
