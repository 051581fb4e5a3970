/** The log: what of an error is written, and that a whole tour of the server leaves nothing personal in it. */
import { Writable } from "node:stream";
import { fileURLToPath } from "node:url";
import { afterEach, beforeEach, describe, expect, test } from "vitest";
import { beginSession } from "../../../server/http/access/sessions.ts";
import { createLog, failureForLog } from "../../../server/http/log.ts";
import { openStore } from "../../../server/records/openStore.ts";
import type { Store } from "../../../server/records/store.ts";
import { boundary, exchange, formOf, head, part, type ServerUnderTest, startServer } from "./serverUnderTest.ts";

const projectFolder = fileURLToPath(new URL("../../../", import.meta.url));

describe("of an error", () => {
  test("the log has its name, its code and where it arose, and neither its message nor its other members", () => {
    const cause = Object.assign(new TypeError("row of Amalie Distinctive"), {
      code: "23505",
      detail: "Key (number)=(C-07)",
    });
    const logged = failureForLog(new RangeError("Amalie's cello\n    at Amalie (/x/Amalie.ts:1:1)", { cause }));
    expect(logged).toMatchObject({ name: "RangeError", cause: { name: "TypeError", code: "23505" } });
    expect(logged.at[0]).toMatch(/^at .*test\/server\/http\/log\.test\.ts:\d+:\d+\)?$/);
    expect(JSON.stringify(logged)).not.toMatch(/Amalie|C-07/);
    expect(JSON.stringify(logged)).not.toContain(projectFolder);
  });

  test("a folder outside the project is not named: it may bear somebody's name", () => {
    const error = new Error("no");
    error.stack = [
      "Error: no",
      "    at opened (/srv/amalie/node/lib/opened.js:10:5)",
      "    at async file:///srv/amalie/x/top.mjs:1:2",
      "    at C:\\Users\\amalie\\x\\top.js:3:4",
      "    at node:internal/process/task_queues:95:5",
    ].join("\n");
    expect(failureForLog(error).at).toEqual([
      "at opened (…/opened.js:10:5)",
      "at async …/top.mjs:1:2",
      "at …/top.js:3:4",
      "at node:internal/process/task_queues:95:5",
    ]);
  });

  test.each([
    ["a text that was thrown", "Amalie", { name: "string", at: [] }],
    ["nothing", undefined, { name: "undefined", at: [] }],
  ])("%s leaves its kind only", (_what, thrown, logged) => expect(failureForLog(thrown)).toEqual(logged));

  test("a chain of causes that bites its own tail ends", () => {
    const error: Error & { cause?: unknown } = new Error("a");
    error.cause = error;
    expect(JSON.stringify(failureForLog(error)).match(/"name":"Error"/g)).toHaveLength(6);
  });

  test("no way of calling the log writes the message", () => {
    let written = "";
    const sink = new Writable({
      write(line, _encoding, done) {
        written += line;
        done();
      },
    });
    const log = createLog(sink);
    const error = new Error("Amalie's cello");
    log.error(error);
    log.error({ err: error });
    log.error({ err: error }, "failed");
    log.error(error, "failed");
    expect(written.match(/"msg":"failed"/g)).toHaveLength(4);
    expect(written).not.toContain("Amalie");
  });
});

describe("a tour of the server with distinctive words", () => {
  // One word that stands in numbers, labels, notes, file names, settings, queries, passwords, cookies and agents alike.
  const word = "zirbelnuss";
  let store: Store;
  let server: ServerUnderTest;

  beforeEach(async () => {
    store = await openStore({ memory: true }, { version: "0.0.0-test" });
  });
  afterEach(async () => {
    await server.stop();
    await store.close();
  });

  async function tour(cookie: string): Promise<void> {
    const headers = { cookie, "user-agent": word, referer: `http://127.0.0.1/${word}` };
    const json = { ...headers, "content-type": "application/json" };
    const send = async (method: string, path: string, body?: BodyInit, more: Record<string, string> = headers) =>
      (await fetch(`${server.url}${path}`, { method, headers: more, ...(body === undefined ? {} : { body }) })).text();
    const instrument = { number: `C ${word}`, kind: "cello", label: word };
    await send("POST", "/api/instruments", JSON.stringify(instrument), json);
    await send("POST", "/api/instruments", JSON.stringify(instrument), json);
    await send("POST", "/api/instruments", `{ "number": "${word}`, json);
    await send("POST", "/api/instruments", JSON.stringify({ [word]: word }), json);
    const number = encodeURIComponent(instrument.number);
    for (const path of ["", "/story", "/visits", `/visits/${word}`, "/history.csv", `/${word}`]) {
      for (const method of ["GET", "PATCH", "PUT", "DELETE"]) await send(method, `/api/instruments/${number}${path}`);
    }
    await send("GET", `/api/instruments?find=${word}&limit=${word}&after=${word}`);
    await send("GET", `/invented/api/instruments/${word}/story`);
    await send("GET", `/instruments/${word}`);
    await send("GET", `/${word}?${word}=${word}`);
    await send("GET", `/api/${word}/%`);
    await send("POST", "/api/session", JSON.stringify({ role: "owner", password: word }), json);
    const form = (readings: string) =>
      formOf({ readings: new File([readings], `${word}.csv`), settings: `{ "${word}": "1" }` });
    await send("POST", "/api/examinations", form(`# ${word}\nbreak down`));
    await send("POST", "/api/examinations", form(`faulty ${word}`));
    await send("POST", `/api/instruments/${number}/visits`, form(`x,y,height\n${word}`));
    await exchange(server.port, [`GET /${word} HTTP/1.1\r\nHost: ${word}\r\nConnection: close\r\n\r\n`]);
    await exchange(server.port, [`${word}\r\n\r\n`]);
    await exchange(server.port, [head(server.port, 10), part(word, word)]);
    await exchange(server.port, [head(server.port, "chunked", [`X-A: ${boundary}`]), `zz${word}\r\n`]);
  }

  function expectNothingPersonal(): void {
    const log = server.log.join("");
    expect(log.toLowerCase()).not.toContain(word);
    expect(log).not.toContain("127.0.0.1");
    expect(log).not.toContain("session=");
    expect(log).not.toContain(projectFolder);
    const members = new Set(server.log.flatMap((line) => Object.keys(JSON.parse(line))));
    expect([...members].filter((member) => !logMembers.includes(member))).toEqual([]);
  }
  const logMembers = ["level", "time", "msg", "method", "route", "status", "ms", "err", "failure"];

  test("leaves routes, statuses and times, where a password guards it", async () => {
    server = await startServer({ keys: store, store });
    await tour(`boardtrue-session=${await beginSession(store, "owner", new Date())}; note=zirbelnuss`);
    expectNothingPersonal();
    const routes = new Set(server.log.map((line) => JSON.parse(line).route));
    expect(routes).toContain("/api/instruments/:number");
    expect(routes).toContain("/api/session");
    expect(server.log.some((line) => JSON.parse(line).msg === "failed")).toBe(true);
  });

  test("leaves as little on this machine alone, and with a store that fails with every word", async () => {
    const failing = async () => {
      throw Object.assign(new Error(`could not keep ${word}`), { detail: word, parameters: [word], code: word });
    };
    server = await startServer({
      store: { ...store, instrument: failing, findInstruments: failing, addInstrument: failing, keepVisit: failing },
    });
    await tour("note=zirbelnuss");
    expectNothingPersonal();
    expect(server.log.filter((line) => JSON.parse(line).msg === "failed").length).toBeGreaterThan(5);
  });
});
