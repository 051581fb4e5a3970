/**
 * The cello of the store that a digital probe read at 440 places. Invented.
 */
import { cello } from "../plans.ts";
import type { Probe } from "../recipe.ts";
import { celloWear } from "./cellos.ts";
import type { Example } from "./example.ts";
import { aim, asList, head } from "./habits.ts";
import { celloShape } from "./shapes.ts";

export const celloDense: Example = readDensely();

/** 440 readings with a digital probe of 1 mm ball on 22 crosslines and 20 lines that fan out with the board. */
function readDensely(): Example {
  const probe: Probe = { tipRadiusMm: 0.5, noiseMm: 0.01, resolutionMm: 0.001 };
  const crosslinesMm = [8, ...Array.from({ length: 21 }, (_, k) => 21 + 27 * k)];
  const lines = Array.from({ length: 20 }, (_, k) => ({ share: (2 * k) / 19 - 1 }));
  return {
    name: "cello-dense",
    number: "C-02",
    title: "Cello, surveyed with a digital probe",
    story: "A teacher's own cello, read at 440 places with a small ball: every pit shows its outline.",
    decision: "dress",
    instrument: "cello",
    recipe: {
      seed: 2,
      plan: cello,
      shape: { ...celloShape, rollDeg: 0.8, twistDeg: 0.3, deepestAt: 0.49 },
      wear: celloWear,
      rounds: { crosslinesMm, lines, edgeInsetMm: 3, missing: [], repeated: [] },
      probe,
      wood: {
        bassNutMm: 7.4,
        bassEndMm: 7.8,
        trebleNutMm: 7.3,
        trebleEndMm: 7.6,
        centre: { fromMm: 400, thicknessMm: 9.8 },
        atMm: [10, 110, 220, 330, 440, 560],
        noiseMm: 0.02,
      },
      writing: {
        ...asList,
        decimals: 3,
        settings: head("cello", cello, probe, {
          build: "solid",
          rut_width: "3",
          ...aim(celloShape),
          edge_limit: "5.4",
          centre_limit: "6",
        }),
      },
    },
  };
}
