/** Listening and stopping. */
import { expect, test } from "vitest";
import { listen } from "../../../server/http/listen.ts";
import { pause, startServer } from "./serverUnderTest.ts";

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
