/** What its neighbours say of a reading, by hand. Places in mm: a violin's board of 270, 33 wide in the mean. */
import { describe, expect, test } from "vitest";
import { neighbourhood, shareOfNeighbours } from "../../../../server/core/surface/neighbours.ts";
import { near } from "../../../support/near.ts";
import { evenly } from "../plainBoards.ts";

/** One distance of the pattern along and across. */
const alongMm = 270 / 18;
const acrossMm = 33 / 12;
const at = (along: number, across = 0) => ({ xMm: along * alongMm, yMm: across * acrossMm });
const columnsOf = (places: readonly { xMm: number; yMm: number }[]) => ({
  xMm: Float64Array.from(places, ({ xMm }) => xMm),
  yMm: Float64Array.from(places, ({ yMm }) => yMm),
});
const shares = (unworn: readonly number[], places: readonly { xMm: number; yMm: number }[]) =>
  shareOfNeighbours(Float64Array.from(unworn), neighbourhood(columnsOf(places), 270, 33));

describe("the share of unworn neighbours", () => {
  test("leaves the reading itself out: of a pair each takes the other's", () => {
    const [first, second] = shares([0.9, 0.2], [at(0), at(1)]);
    near(first!, 0.2, 1e-12);
    near(second!, 0.9, 1e-12);
  });

  test("is what all are where all are alike, but stays between 0.02 and 0.99", () => {
    const row = [at(0), at(1), at(2), at(3)];
    for (const entry of shares([0.6, 0.6, 0.6, 0.6], row)) near(entry, 0.6, 1e-12);
    for (const entry of shares([0, 0, 0, 0], row)) near(entry, 0.02, 1e-12);
    for (const entry of shares([1, 1, 1, 1], row)) near(entry, 0.99, 1e-12);
  });

  test("of a reading without neighbours is even", () => {
    expect(shares([0.9], [at(0)])[0]).toBe(0.5);
    near(shares([0.9, 0.1], [at(0), at(10)])[0]!, 0.5, 1e-12);
  });

  test("counts a reading of the same place in full, the next one in the pattern by e to the minus a half", () => {
    const weight = Math.exp(-0.5);
    for (const next of [at(1), at(-1), at(0, 1), at(0, -1)]) {
      const [first] = shares([0.1, 0.8, 0.4], [at(0), at(0), next]);
      near(first!, (0.8 + weight * 0.4) / (1 + weight), 1e-12);
    }
  });

  test("counts a reading one along and one across by e to the minus one", () => {
    const weight = Math.exp(-1);
    near(shares([0.1, 0.8, 0.4], [at(0), at(0), at(1, 1)])[0]!, (0.8 + weight * 0.4) / (1 + weight), 1e-12);
  });

  test("is the same whatever the order of the readings", () => {
    const places = evenly(0, 10, 11).flatMap((along) => [-2, 0, 1, 3].map((across) => at(along, across)));
    const unworn = places.map((_, i) => ((i * 7) % 10) / 10);
    const order = places.map((_, i) => (i * 13) % places.length);
    const plain = shares(unworn, places);
    const shuffled = shares(
      order.map((i) => unworn[i]!),
      order.map((i) => places[i]!),
    );
    order.forEach((i, k) => {
      near(shuffled[k]!, plain[i]!, 1e-12);
    });
  });
});
