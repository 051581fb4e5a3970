/** Listening and stopping. */
import { once } from "node:events";
import { connect } from "node:net";
import { expect, test, vi } from "vitest";
import { listen } from "../../../server/http/listen.ts";
import { exchange, pause, startServer } from "./serverUnderTest.ts";

test("a port that is taken is refused with the system's own word for it", async () => {
  const first = await startServer();
  await expect(listen(() => undefined, { host: "127.0.0.1", port: first.port })).rejects.toMatchObject({
    code: "EADDRINUSE",
  });
  await first.stop();
});

test("stopping lets an answer under way end, and closes what is idle at once", async () => {
  let release: () => void = () => undefined;
  const listening = await listen(
    (_request, response) => {
      release = () => response.end("whole");
      response.write("the ");
    },
    { host: "127.0.0.1", port: 0 },
  );
  const response = await fetch(`http://127.0.0.1:${listening.port}/`);
  let stopped = false;
  const stopping = listening.stop().then(() => {
    stopped = true;
  });
  await pause(50);
  expect(stopped).toBe(false);
  release();
  expect(await response.text()).toBe("the whole");
  await stopping;
  expect(stopped).toBe(true);
});

test("a connection too many is closed unheard, and there is room again once another has gone", async () => {
  const listening = await listen((_request, response) => response.end("heard"), {
    host: "127.0.0.1",
    port: 0,
    connections: 2,
  });
  const asked = `GET / HTTP/1.1\r\nHost: a\r\nConnection: close\r\n\r\n`;
  const held = [connect(listening.port, "127.0.0.1"), connect(listening.port, "127.0.0.1")];
  await Promise.all(held.map((socket) => once(socket, "connect")));
  expect(await exchange(listening.port, [asked])).toBe("");
  for (const socket of held) socket.destroy();
  await vi.waitFor(async () => expect(await exchange(listening.port, [asked])).toContain("heard"));
  await listening.stop();
});
