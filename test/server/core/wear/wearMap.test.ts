/** The wear map: true to the readings, never beyond them, nothing where nobody read. Lengths in mm. */
import { describe, expect, test } from "vitest";
import { halfWidthMm } from "../../../../server/core/board/outline.ts";
import { seededRandom } from "../../../../server/core/maths/seededRandom.ts";
import { wearMap, wearOfMapMm } from "../../../../server/core/wear/wearMap.ts";
import { near } from "../../../support/near.ts";
import { evenly, knownSurface, type PlaceOnLine, sevenLines, shapeWith, violin, wearAt } from "../plainBoards.ts";

const surface = knownSurface(shapeWith());
const mapOf = (places: readonly PlaceOnLine[], crosslines: readonly number[], wear: (i: number) => number) =>
  wearMap(
    wearAt(places, surface, (_, i) => wear(i)),
    crosslines,
    violin,
  );

/** Places on the map's own nodes: 2.25 mm apart along, 1 mm across. */
const crosslines = evenly(0, 110, 11).map((k) => k * 2.25 + 9);
const onNodes = crosslines.flatMap((xMm) => [-8, -5, -2, 1, 4, 7].map((yMm) => ({ xMm, yMm })));

describe("the wear map", () => {
  const random = seededRandom(3);
  const wears = onNodes.map(() => 0.2 * random.uniform());
  const map = mapOf(onNodes, crosslines, (i) => wears[i]!);

  test("covers the rectangle round the board", () => {
    expect(map.xMm.length).toBe(map.wearMm[0]!.length);
    expect(map.yMm.length).toBe(map.wearMm.length);
    near(map.xMm.at(-1)!, 270, 1e-9);
    near(map.yMm[0]!, -21, 1e-9);
    near(map.yMm.at(-1)!, 21, 1e-9);
  });

  // wear, since its coat reaches just as far.
  test("equals the reading where one stands on a node", () => {
    onNodes.forEach(({ xMm, yMm }, i) => {
      // The mean of equal coats: rounding only.
      near(wearOfMapMm(map, xMm, yMm), wears[i]!, 1e-12, `reading ${i}`);
    });
  });

  test("is nowhere above the highest nor below the lowest reading, but for the unworn edges", () => {
    const all = map.wearMm.flat();
    // Coats are summed along a row: rounding of some hundred sums.
    const last = 1e-12;
    expect(Math.max(...all)).toBeLessThanOrEqual(Math.max(...wears) + last);
    expect(Math.min(...all)).toBeGreaterThanOrEqual(-last);
    const humped = mapOf(onNodes, crosslines, (i) => -wears[i]!);
    expect(Math.min(...humped.wearMm.flat())).toBeGreaterThanOrEqual(-Math.max(...wears) - last);
    expect(Math.max(...humped.wearMm.flat())).toBeLessThanOrEqual(last);
  });

  test("of even wear is even between the readings, and fades out to nothing at the unread edges", () => {
    const even = mapOf(onNodes, crosslines, () => 0.1);
    for (const xMm of crosslines) {
      for (const side of [-1, 1]) {
        const inside = [0.5, 1, 1.5].map((d) => wearOfMapMm(even, xMm, side * (halfWidthMm(violin, xMm) - d)));
        expect(inside[0]).toBeLessThan(0.05);
        expect(inside[0]).toBeLessThanOrEqual(inside[2]!);
      }
      near(wearOfMapMm(even, xMm, 0), 0.1, 1e-12);
    }
  });

  test("keeps the wear of an edge that was read", () => {
    const places = crosslines.flatMap((xMm) =>
      evenly(-1, 1, 7).map((share) => ({ xMm, yMm: share * (halfWidthMm(violin, xMm) - 1) })),
    );
    const even = mapOf(places, crosslines, () => 0.1);
    for (const xMm of crosslines) near(wearOfMapMm(even, xMm, halfWidthMm(violin, xMm)), 0.1, 1e-12);
  });

  test("takes the mean of readings of one place", () => {
    const twice = [...onNodes, onNodes[20]!];
    const again = mapOf(twice, crosslines, (i) => (i === 20 ? 0.3 : i === twice.length - 1 ? 0.1 : 0));
    near(wearOfMapMm(again, onNodes[20]!.xMm, onNodes[20]!.yMm), 0.2, 1e-12);
  });

  const fanned = sevenLines(violin, crosslines);
  const offByOrder = (places: readonly PlaceOnLine[]): number => {
    const wear = places.map(() => 0.2 * random.uniform());
    const order = places.map((_, i) => (i * 29) % places.length);
    const plain = mapOf(places, crosslines, (i) => wear[i]!).wearMm.flat();
    const shuffled = mapOf(
      order.map((i) => places[i]!),
      crosslines,
      (i) => wear[order[i]!]!,
    ).wearMm.flat();
    return plain.reduce((most, mm, i) => Math.max(most, Math.abs(mm - shuffled[i]!)), 0);
  };

  test("is the same whatever the order of the readings", () => {
    // Sums of the same coats: rounding only.
    expect(offByOrder(fanned)).toBeLessThan(1e-12);
  });

  test("is the same whatever their order where they stand on its nodes", () => {
    expect(offByOrder(onNodes)).toBeLessThan(1e-12);
  });

  test("of a mirrored board is mirrored", () => {
    const places = fanned;
    const wearOf = (i: number) => ((i * 37) % 11) / 50;
    const one = mapOf(places, crosslines, wearOf);
    const other = mapOf(
      places.map(({ xMm, yMm }) => ({ xMm, yMm: -yMm })),
      crosslines,
      wearOf,
    );
    one.wearMm.forEach((line, row) => {
      line.forEach((mm, column) => {
        // Mirrored places round differently in their last digit; a cell as near to two readings goes to either.
        near(other.wearMm[one.wearMm.length - 1 - row]![column]!, mm, 0.02, `row ${row} column ${column}`);
      });
    });
  });
});

test("between four nodes the map is read bilinearly, and at its rim as at the nearest edge", () => {
  const map = {
    xMm: [0, 1, 2],
    yMm: [0, 1, 2],
    wearMm: [
      [0, 1, 0],
      [2, 3, 0],
      [0, 0, 0],
    ],
  };
  expect(wearOfMapMm(map, 0.5, 0.5)).toBe(1.5);
  expect(wearOfMapMm(map, 1, 1)).toBe(3);
  expect(wearOfMapMm(map, 0.25, 0)).toBe(0.25);
  expect(wearOfMapMm(map, -5, 1)).toBe(2);
  expect(wearOfMapMm(map, 9, 9)).toBe(0);
});
