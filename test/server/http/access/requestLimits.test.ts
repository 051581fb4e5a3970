/** How often one address may ask where others can reach the server, and that this machine alone has no such limit. */
import { expect, test } from "vitest";
import { beginSession } from "../../../../server/http/access/sessions.ts";
import { openStore } from "../../../../server/records/openStore.ts";
import { startServer } from "../serverUnderTest.ts";

test("readings and everything else are counted apart; too many are told how long to wait", async () => {
  const store = await openStore({ memory: true }, { version: "0.0.0-test" });
  const server = await startServer({ keys: store, requestsPerMinute: { reading: 8, other: 3 } });
  const cookie = `boardtrue-session=${await beginSession(store, "bench", new Date())}`;
  const statuses = async (method: string, times: number) => {
    const answers = Array.from({ length: times }, () =>
      fetch(`${server.url}/api/kinds`, { method, headers: { cookie, "x-forwarded-for": String(Math.random()) } }),
    );
    return (await Promise.all(answers)).map(({ status }) => status).sort();
  };
  expect(await statuses("POST", 5)).toEqual([405, 405, 405, 429, 429]);
  expect(await statuses("GET", 10)).toEqual([...Array(8).fill(200), 429, 429]);
  const refused = await fetch(`${server.url}/api/session`);
  expect(refused.status).toBe(429);
  expect(Number(refused.headers.get("retry-after"))).toBeGreaterThan(0);
  expect(await refused.json()).toMatchObject({ type: "urn:boardtrue:problem:too-often" });
  await server.stop();
  await store.close();
});

test("on this machine alone nothing is counted but examinations", async () => {
  const server = await startServer({ requestsPerMinute: { reading: 1, other: 1 } });
  for (let time = 0; time < 20; time += 1) expect((await fetch(`${server.url}/api/kinds`)).status).toBe(200);
  await server.stop();
});
