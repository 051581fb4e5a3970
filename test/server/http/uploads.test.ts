/**
 * Uploads under way together, over real connections: whoever stalls, while sending or while reading, holds no turn of the examiner's, and
 * what all of them take up is bounded.
 *
 * Every waiting here is far below the 20 s of silence after which a stalled client is cut off: with a turn held by it, the test would
 * run into its own limit.
 */
import { connect, type Socket } from "node:net";
import { afterEach, expect, test } from "vitest";
import type { StartAnswering } from "../../../server/examinerApart.ts";
import { boundary, formOf, head, part, pause, type ServerUnderTest, startServer } from "./serverUnderTest.ts";

const megabyte = 1_000_000;
/** Long enough for a turn and a thread apart. */
const longCsv = "x,y,height\n".padEnd(100_000, "1,2,3\n");

let server: ServerUnderTest;
const sockets: Socket[] = [];
afterEach(async () => {
  for (const socket of sockets.splice(0)) socket.destroy();
  await server.stop();
});

/** A client that sends so many bytes of a larger upload, and then nothing. */
async function stalled(sentBytes: number): Promise<Socket> {
  const socket = await open();
  const body = part("readings", "x,y,height\n".padEnd(sentBytes, "1,2,3\n")).slice(0, sentBytes);
  await new Promise<void>((resolve) => {
    socket.write(head(server.port, sentBytes + 1000) + body, () => resolve());
  });
  return socket;
}

async function open(): Promise<Socket> {
  const socket = connect(server.port, "127.0.0.1");
  socket.on("error", () => undefined);
  sockets.push(socket);
  await new Promise<void>((resolve) => socket.once("connect", resolve));
  return socket;
}

const send = () => fetch(`${server.url}/api/examinations`, { method: "POST", body: formOf({ readings: longCsv }) });

/** Answers a long file with so many bytes; tells how many were at work at once. */
function apartAnswering(answerBytes: number) {
  const seen = { running: 0, most: 0 };
  const start: StartAnswering = () => ({
    readings: { push: () => undefined },
    openThickness: () => ({ push: () => undefined }),
    openRail: () => ({ push: () => undefined }),
    settingsInReadings: async () => [],
    async finish() {
      seen.running += 1;
      seen.most = Math.max(seen.most, seen.running);
      await pause(30);
      seen.running -= 1;
      const json = [`"${"a".repeat(answerBytes - 2)}"`];
      return { outcome: "examined", json, examination: () => Promise.reject(new Error("not asked for here")) };
    },
    close: () => undefined,
  });
  return { start, seen };
}

test("six clients that stop in the middle of long uploads keep nobody waiting", async () => {
  server = await startServer({ uploadLimitBytes: megabyte, startAnsweringApart: apartAnswering(100).start });
  for (let i = 0; i < 6; i++) await stalled(200_000);
  const begun = performance.now();
  expect((await send()).status).toBe(200);
  expect(performance.now() - begun).toBeLessThan(5_000);
}, 15_000);

test("four clients that never read their long answers keep nobody waiting", async () => {
  // 16 MB is more than the kernel takes off the server's hands for a client that does not read.
  const { start } = apartAnswering(16 * megabyte);
  server = await startServer({ uploadLimitBytes: 40 * megabyte, startAnsweringApart: start });
  const form = `${part("readings", longCsv)}--${boundary}--\r\n`;
  for (let i = 0; i < 4; i++) {
    const socket = await open();
    socket.pause();
    socket.write(head(server.port, Buffer.byteLength(form)) + form);
  }
  await pause(500);
  const begun = performance.now();
  const response = await send();
  expect(response.status).toBe(200);
  expect((await response.text()).length).toBe(16 * megabyte);
  expect(performance.now() - begun).toBeLessThan(5_000);
}, 15_000);

test("twenty long uploads at once are all answered, two at a time", async () => {
  const { start, seen } = apartAnswering(100);
  server = await startServer({ uploadLimitBytes: megabyte, startAnsweringApart: start });
  const answers = await Promise.all(Array.from({ length: 20 }, send));
  expect(answers.map(({ status }) => status)).toEqual(Array(20).fill(200));
  expect(seen.most).toBe(2);
});

test("uploads that fill the room make the next one come again, and it is taken once they are gone", async () => {
  server = await startServer({ uploadLimitBytes: megabyte, startAnsweringApart: apartAnswering(100).start });
  // Room for four of the largest: 4 MB, less than these leave for 100 kB more.
  for (let i = 0; i < 4; i++) await stalled(980_000);
  await pause(300);
  const refused = await send();
  expect([refused.status, (await refused.json()).type]).toEqual([503, "urn:boardtrue:problem:busy"]);
  expect(Number(refused.headers.get("retry-after"))).toBeGreaterThan(0);
  for (const socket of sockets.splice(0)) socket.destroy();
  await pause(300);
  expect((await send()).status).toBe(200);
}, 15_000);

test("an answer makes Node suspect no leak", async () => {
  const warnings: string[] = [];
  const hear = (warning: Error) => warnings.push(warning.name);
  process.on("warning", hear);
  try {
    server = await startServer({ uploadLimitBytes: megabyte, startAnsweringApart: apartAnswering(100).start });
    expect((await send()).status).toBe(200);
    await pause(50);
  } finally {
    process.off("warning", hear);
  }
  expect(warnings).toEqual([]);
});
