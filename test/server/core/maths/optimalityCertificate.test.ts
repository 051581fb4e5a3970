/**
 * The certificate of an optimum: it holds at the optimum, and each of its conditions fails where it should.
 *
 * The programme: minimise −x − y where x + 2y ≤ 4, 0 ≤ x ≤ 2, 0 ≤ y. Optimum (2, 1), multiplier ½ (after scaling: of the
 * row as it stands, whose largest coefficient is brought to 1).
 */
import { describe, expect, test } from "vitest";
import { certify } from "../../../../server/core/maths/optimalityCertificate.ts";
import { scaleProgramme } from "../../../../server/core/maths/scaledProgramme.ts";

const scaled = scaleProgramme({
  objective: [-1, -1],
  rows: { columns: 2, coefficients: Float64Array.of(1, 2), atMost: Float64Array.of(4) },
  bounds: [
    [0, 2],
    [0, Infinity],
  ],
});

function certificateAt(x: number, y: number, multiplier: number) {
  const { columnScale, rowScale, objectiveScale } = scaled;
  const place = Float64Array.of(x / columnScale[0]!, y / columnScale[1]!);
  return certify(scaled, place, Float64Array.of(multiplier / rowScale[0]! / objectiveScale));
}

describe("scaling", () => {
  test("brings every column, row and objective to a largest coefficient of 1, and says how", () => {
    expect([...scaled.coefficients]).toEqual([1, 1]);
    expect([...scaled.columnScale]).toEqual([1, 0.5]);
    expect(Math.max(...scaled.objective.map(Math.abs))).toBe(1);
    expect([...scaled.upper]).toEqual([2, Infinity]);
  });
});

describe("the certificate", () => {
  test("holds at the optimum, with nothing left over", () => {
    expect(certificateAt(2, 1, 0.5)).toEqual({ holds: true, violation: 0, imbalance: 0, gap: 0 });
  });

  test("fails for an x that breaks a row or a bound", () => {
    expect(certificateAt(2, 1.001, 0.5)).toMatchObject({ holds: false });
    expect(certificateAt(2, 1.001, 0.5).violation).toBeGreaterThan(1e-4);
    expect(certificateAt(2.001, 0.9995, 0.5).violation).toBeGreaterThan(1e-4);
  });

  test("fails for a feasible x that is not the best: a gap is left", () => {
    expect(certificateAt(2, 0.9, 0.5)).toMatchObject({ holds: false, violation: 0 });
    expect(certificateAt(2, 0.9, 0.5).gap).toBeGreaterThan(1e-3);
  });

  test("fails for multipliers that don't balance the objective", () => {
    expect(certificateAt(2, 1, 0.4)).toMatchObject({ holds: false, violation: 0 });
    expect(certificateAt(2, 1, 0)).toMatchObject({ holds: false, violation: 0 });
  });

  test("fails for a negative multiplier, though all else balances", () => {
    const pushedDown = scaleProgramme({
      objective: [1],
      rows: { columns: 1, coefficients: Float64Array.of(1), atMost: Float64Array.of(3) },
      bounds: [[-9, 9]],
    });
    const certificate = certify(pushedDown, Float64Array.of(3), Float64Array.of(-1));
    expect(certificate).toMatchObject({ holds: false, violation: 0, gap: expect.any(Number) });
    expect(certificate.imbalance).toBeGreaterThan(0.1);
  });
});
