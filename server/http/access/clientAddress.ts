/**
 * Whose requests are counted together: an IPv4 address, or the /64 network of an IPv6 address, out of which one machine may take as many
 * addresses as it likes. Used for counting only; it never reaches the log.
 */
import type { Request } from "express";
import { ipKeyGenerator } from "express-rate-limit";

export function clientAddress(request: Request): string {
  const address = request.socket.remoteAddress;
  return address === undefined ? "gone" : ipKeyGenerator(address.replace(/%.*$/, ""), 64);
}
