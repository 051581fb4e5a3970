/**
 * Listens with the app, and stops again: the only file that opens a socket.
 *
 * In: the app, host and port (0: any free one). Out: the port in use and a way to stop that lets running answers end.
 * A client that sends its headers or its upload too slowly is cut off with 408, so that it can't hold a place for ever.
 */
import { createServer, type RequestListener, type Server, STATUS_CODES } from "node:http";
import type { AddressInfo } from "node:net";
import type { Duplex } from "node:stream";
import { type ProblemKind, problemBody, problems } from "./problems.ts";

/** ms. `upload` is for the whole request, `silence` for a connection on which nothing moves. */
export type Patience = { readonly headersMs: number; readonly uploadMs: number; readonly silenceMs: number };

const usualPatience: Patience = { headersMs: 20_000, uploadMs: 600_000, silenceMs: 20_000 };

/** At once; a further one is closed unheard. Every browser opens six at most. */
const usualConnections = 800;

type Place = {
  readonly host: string;
  readonly port: number;
  readonly patience?: Patience;
  readonly connections?: number;
};

export type Listening = { readonly port: number; stop(): Promise<void> };

/** Rejects with the system's own error (`code`: EADDRINUSE, EACCES) if the port can't be had. */
export async function listen(
  app: RequestListener,
  { host, port, patience = usualPatience, connections = usualConnections }: Place,
): Promise<Listening> {
  const server = createServer(
    {
      headersTimeout: patience.headersMs,
      requestTimeout: patience.uploadMs,
      connectionsCheckingInterval: Math.min(5_000, patience.headersMs / 2),
      maxHeaderSize: 16 * 1024,
      // The app refuses it itself, in the form of every refusal.
      requireHostHeader: false,
    },
    app,
  );
  server.setTimeout(patience.silenceMs);
  server.keepAliveTimeout = Math.min(5_000, patience.silenceMs);
  server.maxConnections = connections;
  server.on("clientError", refuseBrokenRequest);
  await new Promise<void>((resolve, reject) => {
    server.once("error", reject);
    server.listen(port, host, resolve);
  });
  return { port: (server.address() as AddressInfo).port, stop: () => stop(server) };
}

/** Answers under way may end, within ten seconds; idle connections close at once. */
async function stop(server: Server): Promise<void> {
  const closed = new Promise<void>((resolve) => server.close(() => resolve()));
  server.closeIdleConnections();
  const cut = setTimeout(() => server.closeAllConnections(), 10_000);
  await closed;
  clearTimeout(cut);
}

/** What arrives is no HTTP, or too slow, or its headers too large: the app never saw it, so it is answered here. */
function refuseBrokenRequest(error: Error & { code?: string }, socket: Duplex): void {
  if (error.code === "ECONNRESET" || !socket.writable) {
    socket.destroy();
    return;
  }
  const [kind, detail] = refusalFor(error.code);
  const body = JSON.stringify(problemBody(kind, { detail }));
  const { status } = problems[kind];
  socket.end(
    [
      `HTTP/1.1 ${status} ${STATUS_CODES[status]}`,
      "Content-Type: application/problem+json",
      `Content-Length: ${Buffer.byteLength(body)}`,
      "Connection: close",
      "",
      body,
    ].join("\r\n"),
  );
}

function refusalFor(code: string | undefined): [ProblemKind, string] {
  if (code === "ERR_HTTP_REQUEST_TIMEOUT") return ["too-slow", "Send it again over a faster connection."];
  if (code === "HPE_HEADER_OVERFLOW") return ["headers-too-large", "At most 16 kB of headers are read."];
  return ["broken-request", "What arrived is not well-formed HTTP/1.1."];
}
