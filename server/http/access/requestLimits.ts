/**
 * How often one address may ask, where others can reach the server: 600 readings a minute (a list that follows every key typed fits in), 300 of
 * everything else. On this machine alone there is no such limit: its only client is the workshop's own.
 *
 * In memory; an address is forgotten after a minute or two.
 */
import type { Request, RequestHandler } from "express";
import { rateLimit } from "express-rate-limit";
import { Problem } from "../problems.ts";
import { clientAddress } from "./clientAddress.ts";

const windowMs = 60_000;

export type RequestsPerMinute = { readonly reading: number; readonly other: number };

export const usualRequestsPerMinute: RequestsPerMinute = { reading: 600, other: 300 };

export function requestLimits(perMinute: RequestsPerMinute): RequestHandler[] {
  const isReading = ({ method }: Request) => method === "GET" || method === "HEAD";
  return [
    atMost(perMinute.reading, "requests", (request) => !isReading(request)),
    atMost(perMinute.other, "changes", isReading),
  ];
}

/** `called`: what is counted, for whoever asked too often. */
export function atMost(
  perMinute: number,
  called: string,
  isLeftAside: (request: Request) => boolean = () => false,
): RequestHandler {
  return rateLimit({
    windowMs,
    limit: perMinute,
    skip: isLeftAside,
    keyGenerator: clientAddress,
    standardHeaders: "draft-8",
    legacyHeaders: false,
    // A proxy in front may say whose request it is; nobody is believed that, and the log has no use for a warning about it.
    validate: { xForwardedForHeader: false, forwardedHeader: false },
    handler: () => {
      throw new Problem("too-often", {
        detail: `At most ${perMinute} ${called} a minute from one address: wait a little.`,
        retryAfterSeconds: windowMs / 1000,
      });
    },
  });
}
