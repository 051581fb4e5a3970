/**
 * Waves of the hand plane, cells read again and boards read once more: what the generator adds for the bench.
 */
import { expect, test } from "vitest";
import { makeBoard, readAgain } from "../../data/make/board.ts";
import type { Recipe, Wave } from "../../data/make/recipe.ts";
import { near } from "../support/near.ts";
import { syntheticBoard } from "../support/syntheticBoards.ts";

const plain = syntheticBoard("cello", "5 x 12", 4, false);
const wave: Wave = { amplitudeMm: 0.03, lengthMm: 290, phaseRad: 0.4, turnRad: 1 };
const waved: Recipe = { ...plain, shape: { ...plain.shape, waves: [wave] } };
const without = makeBoard(plain);
const withWaves = makeBoard(waved);

test("a hand-planed board is the ideal one and its waves, nothing else", () => {
  for (const [xMm, yMm] of [
    [0, 0],
    [145, 10],
    [580, -20],
  ] as const) {
    // The two are added in double precision to heights of some 20 mm: 1e-12 mm is a thousand times its rounding.
    const addedMm = withWaves.unwornHeightMm(xMm, yMm) - without.unwornHeightMm(xMm, yMm);
    near(addedMm, withWaves.formMm(xMm, yMm), 1e-12, `at ${xMm}, ${yMm}`);
  }
  expect(without.formMm(145, 10)).toBe(0);
});

test("a wave repeats after its length along the centreline, and stands highest a quarter of it from its beginning", () => {
  const beginMm = (-wave.phaseRad / (2 * Math.PI)) * wave.lengthMm;
  // Sines of a few radians, rounded: 1e-12 mm is far above.
  near(withWaves.formMm(beginMm + wave.lengthMm / 4, 0), wave.amplitudeMm, 1e-12, "crest");
  near(withWaves.formMm(100, 0), withWaves.formMm(100 + wave.lengthMm, 0), 1e-12, "one length on");
});

test("a wave's phase turns by its turn from the bass edge to the treble edge", () => {
  // The board is 31 mm wide at the nut: from its bass edge at y = −15.5 the phase is half a turn behind the centreline's.
  near(withWaves.formMm(0, -15.5), 0.03 * Math.sin(0.4 - 0.5), 1e-12, "bass edge");
  near(withWaves.formMm(0, 15.5), 0.03 * Math.sin(0.4 + 0.5), 1e-12, "treble edge");
});

test("a worn hand-planed board's readings lie on the waves too", () => {
  const { readings } = withWaves.truth;
  // The ball touches up to a millimetre off its centre on slopes that hardly change there: a tenth of a micrometre.
  readings.forEach((reading, i) => {
    const addedMm = reading.exactMm - without.truth.readings[i]!.exactMm;
    near(addedMm, withWaves.formMm(reading.touchXMm, reading.touchYMm), 1e-3, `reading ${i}`);
  });
});

test("a place named twice to be read again is read three times", () => {
  const { rounds } = plain;
  const name = `${rounds.crosslinesMm[3]} centre`;
  const made = makeBoard({ ...plain, rounds: { ...rounds, repeated: [name, name] } });
  const there = made.truth.readings.filter((one) => `${one.crosslineMm} ${one.line}` === name);
  expect(there).toHaveLength(3);
  expect(made.truth.readings).toHaveLength(without.truth.readings.length + 2);
  expect(new Set(there.map(({ exactMm }) => exactMm)).size).toBe(1);
});

test("a board read once more without noise gives its exact heights to the nearest step, and the same places", () => {
  const again = readAgain(without, { ...plain, probe: { ...plain.probe, noiseMm: 0 } });
  again.truth.readings.forEach((reading, i) => {
    // Half a step of the gauge.
    near(reading.readMm, without.truth.readings[i]!.exactMm, 0.005 + 1e-9, `reading ${i}`);
  });
  expect(again.readingsCsv.split("\n").length).toBe(without.readingsCsv.split("\n").length);
  expect(again.readingsCsv).not.toBe(without.readingsCsv);
});

test("a board read once more with the seed and noise it was made with gives other readings of the same scatter", () => {
  const again = readAgain(without, { ...plain, seed: plain.seed + 1 });
  const offMm = again.truth.readings.map((reading) => reading.readMm - reading.exactMm);
  const scatterMm = Math.sqrt(offMm.reduce((sum, off) => sum + off * off, 0) / offMm.length);
  // Noise 0.010 and rounding 0.003 make 0.0104; of sixty readings the scatter is known to 9 %, three times that here.
  near(scatterMm, 0.0104, 0.0028, "scatter");
});
