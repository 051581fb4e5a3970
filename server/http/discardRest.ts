/**
 * What is done with an upload that has been refused while it was still arriving.
 *
 * Closing the connection at once would often destroy the answer on its way (TCP resets a connection that is closed
 * with unread bytes). So the rest is read and dropped, with bounds: past them the connection is cut.
 */
import type { IncomingMessage } from "node:http";

const longestMs = 30_000;
const mostBytes = 512 * 1024 * 1024;

export function discardRest(request: IncomingMessage): void {
  if (request.complete) return;
  request.resume();
  const { socket } = request;
  const bytesBefore = socket.bytesRead;
  const begun = performance.now();
  const watch = setInterval(() => {
    const overdue = performance.now() - begun > longestMs || socket.bytesRead - bytesBefore > mostBytes;
    if (overdue) socket.destroy();
    if (overdue || request.complete || socket.destroyed) clearInterval(watch);
  }, 250);
  watch.unref();
}
