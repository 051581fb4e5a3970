/** A board sent for examination over real connections: well-formed, broken, too large, too slow, cut off. */
import { afterAll, beforeAll, describe, expect, test } from "vitest";
import { problems } from "../../../server/http/problems.ts";
import { examinationSchema } from "../../../server/http/wire/examination.ts";
import { problemSchema } from "../../../server/http/wire/problem.ts";
import { smallExamination } from "../reports/smallExamination.ts";
import { boundary, exchange, formOf, head, part, pause, type ServerUnderTest, startServer } from "./serverUnderTest.ts";

const limitBytes = 1_000_000;
const csv = "x,y,height\n10,0,1.10\n";
let server: ServerUnderTest;

beforeAll(async () => {
  server = await startServer({ uploadLimitBytes: limitBytes });
});
afterAll(() => server.stop());

const post = (body: BodyInit, headers: Record<string, string> = {}, query = "") =>
  fetch(`${server.url}/api/examinations${query}`, { method: "POST", body, headers });

/** The kind of a problem, after checking that it is one in every respect. */
async function kindOf(response: Response): Promise<string> {
  expect(response.headers.get("content-type")).toMatch(/^application\/problem\+json/);
  return checkedKind(await response.text(), response.status);
}

function checkedKind(body: string, status: number): string {
  const problem = JSON.parse(body);
  expect(problemSchema.parse(problem)).toEqual(problem);
  const kind = problem.type.replace("urn:boardtrue:problem:", "") as keyof typeof problems;
  expect(problem.status).toBe(status);
  expect({ status: problem.status, title: problem.title }).toEqual(problems[kind]);
  return kind;
}

function kindOnTheWire(answer: string): string {
  const status = Number(/^HTTP\/1\.1 (\d{3})/.exec(answer)?.[1]);
  return checkedKind(
    answer.slice(answer.indexOf("\r\n\r\n") + 4).replace(/^[0-9a-f]+\r\n|\r\n0\r\n\r\n$/g, ""),
    status,
  );
}

describe("a board that is sent as it should be", () => {
  test("comes back as the examination, whole and unrounded", async () => {
    const response = await post(formOf({ readings: csv }));
    expect(response.status).toBe(200);
    expect(response.headers.get("content-type")).toMatch(/^application\/json/);
    const body = await response.json();
    expect(body).toEqual(smallExamination);
    expect(examinationSchema.parse(body)).toEqual(body);
  });

  test("comes back without its points where the address asks for none", async () => {
    const body = await (await post(formOf({ readings: csv }), {}, "?points=none")).json();
    expect(smallExamination.points.length).toBeGreaterThan(0);
    expect(body).toEqual({
      ...smallExamination,
      points: [],
      readings: { ...smallExamination.readings, pointsTold: "none" },
    });
    expect(examinationSchema.parse(body)).toEqual(body);
  });

  test("brings its thickness and its settings along, in any order of parts", async () => {
    const settings = JSON.stringify({ instrument: "cello", tip_radius: 1.5, valuable: true, templates: [60, 62] });
    await post(formOf({ settings, thickness: "x,side,thickness\n", rail: "x,error\n", readings: csv }));
    expect(server.seen.thicknessBytes).toBe(17);
    expect(server.seen.railBytes).toBe(8);
    expect(server.seen.settings).toEqual([
      { key: "instrument", value: "cello", where: "settings", line: null },
      { key: "tip_radius", value: "1.5", where: "settings", line: null },
      { key: "valuable", value: "yes", where: "settings", line: null },
      { key: "templates", value: "60 62", where: "settings", line: null },
    ]);
  });

  test("may come as plain fields, without file names", async () => {
    const before = server.seen.readingsBytes;
    const form = new FormData();
    form.append("readings", csv);
    expect((await post(form)).status).toBe(200);
    // A browser's form turns line feeds in plain fields into CR LF: two more bytes.
    expect(server.seen.readingsBytes - before).toBe(csv.length + 2);
  });

  test("may have its settings in a file", async () => {
    const form = formOf({ readings: csv });
    form.append("settings", new Blob(['{"instrument":"violin"}'], { type: "application/json" }), "settings.json");
    expect((await post(form)).status).toBe(200);
    expect(server.seen.settings.map(({ value }) => value)).toEqual(["violin"]);
  });

  test("hands on every key, even one that only a mischief-maker writes", async () => {
    await post(formOf({ readings: csv, settings: '{"__proto__":"1","constructor":"2"}' }));
    expect(server.seen.settings.map(({ key }) => key)).toEqual(["__proto__", "constructor"]);
  });

  test("may arrive slowly, a few bytes at a time", async () => {
    const body = `${part("readings", csv)}--${boundary}--\r\n`;
    const pieces = body.match(/[\s\S]{1,20}/g) ?? [];
    const answer = await exchange(server.port, [head(server.port, body.length), ...pieces], 15);
    expect(answer).toMatch(/^HTTP\/1\.1 200 /);
  });

  test("may be binary rubbish: it reaches the reader byte for byte", async () => {
    const before = server.seen.readingsBytes;
    const rubbish = new Uint8Array(70_000).map((_, i) => (i * 31 + (i >> 8)) % 256);
    expect((await post(formOf({ readings: new Blob([rubbish]) }))).status).toBe(200);
    expect(server.seen.readingsBytes - before).toBe(rubbish.length);
  });
});

describe("faults", () => {
  test("all come back together, with line, column, what was seen and what to do", async () => {
    const response = await post(formOf({ readings: "faulty" }));
    expect(response.status).toBe(422);
    const { faults } = await response.clone().json();
    expect(faults.map((fault: { line: number }) => fault.line)).toEqual([2, 3]);
    expect(faults[0]).toEqual({
      where: "readings",
      line: 2,
      column: 3,
      code: "not-a-number",
      saw: '"O.45"',
      remedy: "Write 0.45.",
    });
    expect(await kindOf(response)).toBe("faulty");
  });

  test("of an empty file are the reader's to tell", async () => {
    expect(await kindOf(await post(formOf({ readings: "" })))).toBe("faulty");
  });

  test("of the program itself show an id that the log has, and nothing else", async () => {
    const response = await post(formOf({ readings: "break down" }));
    expect(response.status).toBe(500);
    const text = await response.clone().text();
    expect(text).not.toMatch(/secret|Error|\.ts|node_modules/);
    const { instance } = JSON.parse(text);
    expect(await kindOf(response)).toBe("failed");
    expect(server.log.join("")).toContain(instance.replace("urn:uuid:", ""));
  });
});

describe("a form that is refused", () => {
  test("has no readings", async () => {
    expect(await kindOf(await post(formOf({ thickness: "x,side,thickness\n" })))).toBe("missing-part");
  });

  test("has a part that is not known", async () => {
    expect(await kindOf(await post(formOf({ readings: csv, photo: "…" })))).toBe("unknown-part");
    expect(await kindOf(await post(formOf({ readings: csv, __proto__x: "…" })))).toBe("unknown-part");
  });

  test.each(["readings", "thickness", "rail", "settings"])("has the part %s twice", async (name) => {
    const form = formOf({ readings: csv, thickness: csv, rail: csv, settings: "{}" });
    form.append(name, new Blob([name === "settings" ? "{}" : csv]), "again.csv");
    expect(await kindOf(await post(form))).toBe("repeated-part");
  });

  test.each([
    ["half a word", '{"instrument":'],
    ["a list", '["cello"]'],
    ["a bare word", '"cello"'],
    ["nothing", "null"],
    ["an object within", '{"instrument":{"kind":"cello"}}'],
    ["an empty value", '{"instrument":null}'],
    ["no text at all", "\u0000"],
    ["an empty part", ""],
  ])("has settings that are %s", async (_what, settings) => {
    expect(await kindOf(await post(formOf({ readings: csv, settings })))).toBe("broken-settings");
  });

  test.each(["?points=some", "?points=", "?points=all&points=few"])("asks for its points by %s", async (query) => {
    const finished = server.seen.finished;
    expect(await kindOf(await post(formOf({ readings: csv }), {}, query))).toBe("unknown-points");
    expect(server.seen.finished).toBe(finished);
  });

  test.each([
    ["JSON", "{}", "application/json"],
    ["CSV", csv, "text/csv"],
    ["a plain form", "readings=1", "application/x-www-form-urlencoded"],
    ["nothing said", new Uint8Array([1, 2]), ""],
    ["something that only begins alike", "x", "multipart/form-database"],
  ])("is no form but %s", async (_what, body, type) => {
    expect(await kindOf(await post(body, type === "" ? {} : { "content-type": type }))).toBe("not-a-form");
  });

  test("names no boundary", async () => {
    expect(await kindOf(await post("x", { "content-type": "multipart/form-data" }))).toBe("broken-form");
  });

  test("ends before its last boundary", async () => {
    const body = part("readings", csv);
    expect(kindOnTheWire(await exchange(server.port, [head(server.port, body.length), body]))).toBe("broken-form");
  });

  test("is no form inside", async () => {
    const type = { "content-type": `multipart/form-data; boundary=${boundary}` };
    expect(await kindOf(await post("no boundary here at all", type))).toBe("broken-form");
    expect(await kindOf(await post("", type))).toBe("broken-form");
  });

  test("has a hundred parts", async () => {
    const body = `${Array.from({ length: 100 }, (_, i) => part(`p${i}`, "x")).join("")}--${boundary}--\r\n`;
    const type = { "content-type": `multipart/form-data; boundary=${boundary}` };
    expect(await kindOf(await post(body, type))).toBe("unknown-part");
  });
});

describe("an upload that is too large", () => {
  /** A form whose whole request body has exactly so many bytes. */
  const bodyOf = (bytes: number) => {
    const frame = `${part("readings", "")}--${boundary}--\r\n`.length;
    return `${part("readings", "7".repeat(bytes - frame))}--${boundary}--\r\n`;
  };
  const type = { "content-type": `multipart/form-data; boundary=${boundary}` };

  test("is taken at the limit and refused one byte above, with the limit stated", async () => {
    expect((await post(bodyOf(limitBytes), type)).status).toBe(200);
    const response = await post(bodyOf(limitBytes + 1), type);
    expect(response.status).toBe(413);
    expect((await response.clone().json()).detail).toContain(String(limitBytes));
    expect(await kindOf(response)).toBe("too-large");
  });

  test("is refused one byte above also where the size was not declared", async () => {
    const chunked = (body: string) => [
      head(server.port, "chunked"),
      ...(body.match(/[\s\S]{1,60000}/g) ?? []).map((piece) => `${piece.length.toString(16)}\r\n${piece}\r\n`),
      "0\r\n\r\n",
    ];
    expect(await exchange(server.port, chunked(bodyOf(limitBytes)))).toMatch(/^HTTP\/1\.1 200 /);
    expect(kindOnTheWire(await exchange(server.port, chunked(bodyOf(limitBytes + 1))))).toBe("too-large");
  });

  test("is answered at once where 200 MB are only announced", async () => {
    const before = server.seen.readingsBytes;
    const answer = exchange(server.port, [head(server.port, 200e6), part("readings", csv)]);
    const first = await Promise.race([answer, pause(2000).then(() => "no answer within two seconds")]);
    expect(kindOnTheWire(first)).toBe("too-large");
    expect(server.seen.readingsBytes).toBe(before);
  });

  test("lets the client that goes on sending 200 MB hear the answer, and keeps none of it", async () => {
    const piece = Buffer.alloc(1_000_000, "7");
    const memoryBefore = process.memoryUsage().rss;
    const before = server.seen.readingsBytes;
    function* endless() {
      yield head(server.port, "chunked").replace("Connection: close\r\n", "");
      const start = part("readings", "").slice(0, -2);
      yield `${start.length.toString(16)}\r\n${start}\r\n`;
      for (let i = 0; i < 200; i += 1) {
        yield `${piece.length.toString(16)}\r\n`;
        yield piece;
        yield "\r\n";
      }
      yield "0\r\n\r\nGET /api/health HTTP/1.1\r\nHost: 127.0.0.1\r\nConnection: close\r\n\r\n";
    }
    const answer = await exchange(server.port, endless());
    expect(answer).toMatch(/^HTTP\/1\.1 413 /);
    // The connection lived through it: the next request on it is answered as well.
    expect(answer).toMatch(/HTTP\/1\.1 200 OK/);
    expect(server.seen.readingsBytes - before).toBeLessThanOrEqual(limitBytes);
    // Client and server live in this process; 200 MB kept anywhere would show. 80 MB is room for both ends' buffers.
    expect(process.memoryUsage().rss - memoryBefore).toBeLessThan(80e6);
  });

  test("is refused where the settings alone are a book", async () => {
    const response = await post(
      formOf({ readings: csv, settings: JSON.stringify({ instrument: "c".repeat(70_000) }) }),
    );
    expect(await kindOf(response)).toBe("too-large");
  });
});

describe("a client that leaves or stalls", () => {
  test("half way through the upload does no harm, and the examination is never asked", async () => {
    const finished = server.seen.finished;
    const failures = () => server.log.filter((line) => JSON.parse(line).level >= 50).length;
    const failuresBefore = failures();
    const { connect } = await import("node:net");
    const socket = connect(server.port, "127.0.0.1");
    socket.write(head(server.port, 5000) + part("readings", csv));
    await pause(100);
    socket.destroy();
    await pause(100);
    expect(server.seen.finished).toBe(finished);
    expect((await fetch(`${server.url}/api/health`)).status).toBe(200);
    expect(server.log.join("")).toContain("client left");
    expect(failures()).toBe(failuresBefore);
  });

  test("while a long examination is worked out ends it, and no failure is logged", async () => {
    let closed = 0;
    const patient = await startServer({
      startAnsweringApart: () => ({
        readings: { push: () => undefined },
        openThickness: () => ({ push: () => undefined }),
        openRail: () => ({ push: () => undefined }),
        settingsInReadings: async () => [],
        finish: () => new Promise(() => undefined),
        close: () => {
          closed += 1;
        },
      }),
    });
    const leaving = new AbortController();
    const asked = fetch(`${patient.url}/api/examinations`, {
      method: "POST",
      body: formOf({ readings: "7".repeat(70_000) }),
      signal: leaving.signal,
    });
    await pause(200);
    expect(closed).toBe(0);
    leaving.abort();
    await expect(asked).rejects.toThrow();
    await pause(200);
    expect(closed).toBeGreaterThan(0);
    expect(patient.log.filter((line) => JSON.parse(line).level >= 50)).toEqual([]);
    await patient.stop();
  });

  test("is told that it was too slow, and cut off", async () => {
    const hasty = await startServer({ patience: { headersMs: 200, uploadMs: 400, silenceMs: 5000 } });
    const answer = await exchange(hasty.port, [head(hasty.port, 5000), part("readings", csv)]);
    expect(kindOnTheWire(answer)).toBe("too-slow");
    const headersOnly = await exchange(hasty.port, ["GET / HTTP/1.1\r\nHost: 127.0.0.1\r\n"]);
    expect(kindOnTheWire(headersOnly)).toBe("too-slow");
    await hasty.stop();
  });
});

describe("many examinations", () => {
  test("are refused past the number a minute, with a word on waiting", async () => {
    const busy = await startServer({ examinationsPerMinute: 2 });
    const once = () => fetch(`${busy.url}/api/examinations`, { method: "POST", body: formOf({ readings: csv }) });
    expect((await once()).status).toBe(200);
    expect((await once()).status).toBe(200);
    const third = await once();
    expect(third.headers.get("retry-after")).not.toBeNull();
    expect(await kindOf(third)).toBe("too-often");
    await busy.stop();
  });
});
