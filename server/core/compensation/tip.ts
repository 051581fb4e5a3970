/**
 * Tip compensation: a ball resting on a slope touches off its centre and reads too high.
 *
 * With slopes p = ∂z/∂x and q = ∂z/∂y at the contact and s = √(1 + p² + q²), a reading (x, y, z) of the lowest point
 * of a ball of radius r touches at
 *
 *   (x + r·p/s, y + r·q/s, z + r − r/s)
 *
 * Uncorrected, on an arc R 42 a ball of 1.5 reads 0.108 mm high at 15.4 mm off centre (its centre runs on R + r).
 * Exact on a plane; the slopes come from the current fit and are iterated. r = 0 is the identity. Lengths in mm.
 * Source: the parallel surface of a ball foot, S. A. Khan, arXiv:1311.3602, equations A.1 and C.3.
 *
 * In a groove narrower than the ball the tip hangs on the rims: see `reachMm`.
 */
import type { Readings } from "../readings/readings.ts";
import type { CompensatedReadings } from "./compensatedReadings.ts";

/** Slopes of the surface at a place, mm per mm. */
export type SlopesAt = (xMm: number, yMm: number) => { readonly alongX: number; readonly alongY: number };

export function compensateTip(readings: Readings, tipRadiusMm: number, slopesAt: SlopesAt): CompensatedReadings {
  return {
    stage: "compensated",
    readings: readings.readings.map((reading) => {
      const touch = touchOf(reading.xMm, reading.yMm, tipRadiusMm, slopesAt);
      return {
        row: reading.row,
        givenXMm: reading.xMm,
        givenYMm: reading.yMm,
        xMm: touch.xMm,
        yMm: touch.yMm,
        heightMm: reading.gaugeMm + touch.riseMm,
        line: reading.line,
        mark: reading.mark,
        setup: reading.setup,
      };
    }),
  };
}

/**
 * How deep below its rims a ball of radius r can sink into a groove of width b: r − √(r² − b²/4), the height of the
 * segment over the chord b; unlimited (Infinity) once the groove is as wide as the ball.
 * Example: r 1.5, b 0.6 -> 0.030 mm.
 */
export function reachMm(tipRadiusMm: number, grooveWidthMm: number): number {
  if (grooveWidthMm >= 2 * tipRadiusMm) return Number.POSITIVE_INFINITY;
  return tipRadiusMm - Math.sqrt(tipRadiusMm ** 2 - grooveWidthMm ** 2 / 4);
}

/** Where the ball touches: the slope there, not under the centre, is the one that counts, hence a second look. */
export function touchOf(
  xMm: number,
  yMm: number,
  radiusMm: number,
  slopesAt: SlopesAt,
): { readonly xMm: number; readonly yMm: number; readonly riseMm: number } {
  let touch = { xMm, yMm, riseMm: 0 };
  if (radiusMm === 0) return touch;
  for (let look = 0; look < 3; look += 1) {
    const { alongX, alongY } = slopesAt(touch.xMm, touch.yMm);
    const s = Math.sqrt(1 + alongX ** 2 + alongY ** 2);
    touch = {
      xMm: xMm + (radiusMm * alongX) / s,
      yMm: yMm + (radiusMm * alongY) / s,
      riseMm: radiusMm - radiusMm / s,
    };
  }
  return touch;
}
