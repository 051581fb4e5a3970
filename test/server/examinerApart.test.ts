/** An examination on a thread of its own says the same as one worked out here, and leaves the server free. */
import { readFileSync } from "node:fs";
import { expect, test, vi } from "vitest";
import { examinerFor } from "../../server/examiner.ts";
import { type Answering, answeringHere, type StartAnswering, startAnsweringApart } from "../../server/examinerApart.ts";
import { loadInstrumentTable } from "../../server/instrumentTable.ts";
import { version } from "../../server/version.ts";
import { formOf, pause, startServer } from "./http/serverUnderTest.ts";

// A thread loads the program anew, which takes a second alone and several on a machine that does much else.
vi.setConfig({ testTimeout: 60_000 });

const example = (name: string) => readFileSync(new URL(`../../data/examples/${name}`, import.meta.url));
const startExamining = examinerFor(loadInstrumentTable(), version);
const here = answeringHere(startExamining);

async function answerOf(start: StartAnswering, settings: Readonly<Record<string, string>> = {}): Promise<string> {
  const answering = start();
  answering.readings.push(example("cello-to-dress.csv"));
  answering.openThickness().push(example("cello-to-dress.thickness.csv"));
  return written(answering, settings);
}

async function written(answering: Answering, settings: Readonly<Record<string, string>>): Promise<string> {
  const entries = Object.entries(settings).map(
    ([key, value]) => ({ key, value, where: "settings", line: null }) as const,
  );
  const answer = await answering.finish(entries, "all");
  if (answer.outcome === "faulty") return JSON.stringify(answer.faults);
  const pieces: string[] = [];
  for await (const piece of answer.json) pieces.push(piece);
  answering.close();
  return pieces.join("");
}

test("the same board gets the same examination, to the last digit", async () => {
  expect(await answerOf(startAnsweringApart)).toBe(await answerOf(here));
});

/** A rail that sags by 0.1 mm in the middle of 600. */
const sagging = Buffer.from(
  `x,error\n${[...Array(13).keys()].map((i) => `${50 * i},${-0.1 + 0.1 * (i / 6 - 1) ** 2}\n`).join("")}`,
);

test("the same rail is taken off the readings", async () => {
  const answered = async (start: StartAnswering) => {
    const answering = start();
    answering.readings.push(example("cello-to-dress.csv"));
    answering.openRail().push(sagging);
    return written(answering, {});
  };
  const corrected = await answered(startAnsweringApart);
  expect(corrected).toBe(await answered(here));
  const lowestHollow = (json: string): number => JSON.parse(json).surface.hollows[0].hollowMm.value;
  // The board reaches over 580 of the 600: 0.1 · (580/600)² of the sag was in every hollow; to the readings' steps of 0.01.
  expect(lowestHollow(await answerOf(here)) - lowestHollow(corrected)).toBeCloseTo(0.0934, 2);
});

test("a rail's profile that the readings name has to be sent along: no file is ever opened", async () => {
  const server = await startServer({ startExamining });
  const send = async (parts: Readonly<Record<string, string>>) => {
    const response = await fetch(`${server.url}/api/examinations`, { method: "POST", body: formOf(parts) });
    return { status: response.status, body: JSON.parse(await response.text()) };
  };
  // A file that is there to be opened, and no profile: it would be told as one.
  const readings = `# rail_error: package.json\n${example("cello-to-dress.csv").toString()}`;
  const refused = await send({ readings });
  expect(refused.status).toBe(422);
  expect(refused.body.faults).toMatchObject([{ where: "readings", line: 1, code: "rail-not-sent" }]);
  const broken = await send({ readings, rail: "x,error\n0,0\n0,1\n" });
  expect(broken.body.faults).toMatchObject([{ where: "rail", line: 3, code: "rail-x-twice" }]);
  expect((await send({ readings, rail: sagging.toString() })).status).toBe(200);
  await server.stop();
});

test("the same faults are told", async () => {
  const settings = { tip_radios: "1" };
  const apart = await answerOf(startAnsweringApart, settings);
  expect(apart).toContain("unknown-key");
  expect(apart).toBe(await answerOf(here, settings));
});

test("closing it ends the thread, and whoever still waits is told", async () => {
  const answering = startAnsweringApart();
  const answer = answering.finish([], "all");
  answering.close();
  await expect(answer).rejects.toThrow("ended before its answer");
});

/** So many readings of a cello's arc, as a probe would scatter them: R 65, hollow 1.2, and a pit under the A string. */
function probed(count: number): string {
  const rows = Array.from({ length: count }, (_, i) => {
    const x = 5 + ((i * 0.618034) % 1) * 570;
    const y = (((i * 0.754878) % 1) * 2 - 1) * (14 + (x / 580) * 16);
    const pit = x > 60 && x < 90 && y > 5 && y < 9 ? 0.3 : 0;
    const height = Math.sqrt(65 * 65 - y * y) - 65 - 4.8 * (x / 580) * (1 - x / 580) - pit + 0.004 * Math.sin(i * i);
    return `${x.toFixed(2)},${y.toFixed(2)},${height.toFixed(3)}`;
  });
  return `x,y,height\n${rows.join("\n")}\n`;
}

test("while a probe's readings are examined, the server goes on answering", async () => {
  const server = await startServer({ startExamining, startAnsweringApart });
  let answered = false;
  const form = formOf({ readings: probed(8000), settings: '{"instrument":"cello"}' });
  const long = fetch(`${server.url}/api/examinations`, { method: "POST", body: form }).then(async (response) => {
    answered = true;
    return response.json();
  });
  for (let asked = 0; asked < 5; asked += 1) {
    await pause(50);
    expect((await fetch(`${server.url}/api/health`)).status).toBe(200);
    expect(answered).toBe(false);
  }
  expect((await long).readings.count).toBe(8000);
  await server.stop();
});
