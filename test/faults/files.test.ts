/**
 * Twenty thousand files as benches, spreadsheets, bad transfers and mischief make them: each is examined, or told what is wrong with it.
 *
 * Each test takes a thousand of them, seeded by their numbers, so that a failure can be made again by its number alone. Files come
 * in pieces cut anywhere, as an upload does.
 */
import { describe, expect, test } from "vitest";
import { type Random, seededRandom } from "../../data/make/random.ts";
import type { ChunkTaker, Examined } from "../../server/examiner.ts";
import { examinerFor } from "../../server/examiner.ts";
import { loadInstrumentTable } from "../../server/instrumentTable.ts";
import { settingsFromOutside } from "../../server/settingsFromOutside.ts";
import { breachesOf } from "./support/answers.ts";
import { whole } from "./support/draws.ts";
import { type HandedIn, handedIn } from "./support/handedIn.ts";
import { gapLooks, surveys } from "./support/workshopFiles.ts";

const startExamining = examinerFor(loadInstrumentTable(), "test");

/** Of small files the slowest of 20,000 took 0.35 s on two cores shared with others; no hang passes ten times that. */
const longestMs = 3_500;

function pushInPieces(taker: ChunkTaker, bytes: Uint8Array, random: Random): void {
  for (let from = 0; from < bytes.length; ) {
    const to = from + 1 + whole(random, 2 * 16_384);
    taker.push(bytes.subarray(from, to));
    from = to;
  }
}

function answerTo(given: HandedIn, random: Random): Examined {
  const examining = startExamining();
  pushInPieces(examining.readings, given.readings, random);
  if (given.thickness !== null) pushInPieces(examining.openThickness(), given.thickness, random);
  if (given.rail !== null) pushInPieces(examining.openRail(), given.rail, random);
  return examining.finish(settingsFromOutside(given.settings));
}

describe("of twenty thousand files, good and mangled", () => {
  const perTest = 1_000;
  const firsts = Array.from({ length: 20 }, (_, k) => k * perTest);

  test.each(firsts)(
    "the thousand from %i on are examined, or told where and what to do, each in bounded time",
    (first) => {
      const broken: string[] = [];
      let examined = 0;
      let slowestMs = 0;
      for (let number = first; number < first + perTest; number++) {
        const given = handedIn(number);
        const begun = performance.now();
        const answer = answerTo(given, seededRandom(number + 500_000));
        slowestMs = Math.max(slowestMs, performance.now() - begun);
        if (answer.outcome === "examined") examined += 1;
        broken.push(...breachesOf(answer, given).map((breach) => `${number}: ${breach}`));
      }
      expect(broken).toEqual([]);
      expect(slowestMs).toBeLessThan(longestMs);
      // Neither all nor nothing comes through, or these files would try little: about one in eight does.
      expect(examined).toBeGreaterThan(perTest / 20);
      expect(examined).toBeLessThan(perTest / 4);
    },
    60_000,
  );
});

test("every good file that the mangled ones are made of is examined", () => {
  for (const { readings, thickness, rail } of [...surveys, ...gapLooks]) {
    const bytes = (text: string | null) => (text === null ? null : Buffer.from(text));
    const given = {
      readings: Buffer.from(readings),
      thickness: bytes(thickness),
      rail: bytes(rail),
      settings: [],
      isGood: true,
    };
    expect(answerTo(given, seededRandom(1)).outcome).toBe("examined");
  }
});
