/**
 * Inverse of a small square matrix: by hand, by its product with the matrix, and where there is none.
 */
import { expect, test } from "vitest";
import { seededRandom } from "../../../../server/core/maths/seededRandom.ts";
import { squareInverse } from "../../../../server/core/maths/squareInverse.ts";
import { allNear, near } from "../../../support/near.ts";

test("two by two by hand, with a first pivot of zero", () => {
  // [[0, 2], [1, 4]]⁻¹ = [[−2, 1], [0.5, 0]]: exact in binary.
  allNear(squareInverse(Float64Array.of(0, 2, 1, 4), 2)!, [-2, 1, 0.5, 0], 0);
});

test("matrix times inverse is the unit matrix", () => {
  const n = 12;
  const random = seededRandom(2);
  const matrix = Float64Array.from({ length: n * n }, () => random.normal());
  const inverse = squareInverse(matrix, n)!;
  for (let i = 0; i < n; i++) {
    for (let j = 0; j < n; j++) {
      let sum = 0;
      for (let k = 0; k < n; k++) sum += matrix[i * n + k]! * inverse[k * n + j]!;
      // Condition of some hundreds times machine epsilon.
      near(sum, i === j ? 1 : 0, 1e-12);
    }
  }
});

test("a matrix whose rows depend on one another has none", () => {
  expect(squareInverse(Float64Array.of(1, 2, 3, 2, 4, 6, 0, 1, 1), 3)).toBeNull();
  expect(squareInverse(new Float64Array(4), 2)).toBeNull();
});

test("the matrix given is left as it was", () => {
  const matrix = Float64Array.of(2, 1, 1, 3);
  squareInverse(matrix, 2);
  expect([...matrix]).toEqual([2, 1, 1, 3]);
});
