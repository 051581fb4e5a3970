/**
 * Scans of a worn cello as a probe dragged lengthwise gives them: many passes close together, x, y and height. Invented.
 *
 * in: how many readings, seed -> out: the file in pieces of text, so that a million readings need not stand in memory. mm.
 * The ball is taken to rest on the tangent plane: it reads r(√(1 + p² + q²) − 1) high, which on a smooth board is within 0.0002 mm
 * of what lowering a ball gives.
 */
import { halfWidthMm } from "../../../data/make/plan.ts";
import { seededRandom } from "../../../data/make/random.ts";
import { unwornSurface } from "../../../data/make/shape.ts";
import { celloDense } from "../../../data/make/store/denseCello.ts";
import { wearField } from "../../../data/make/wear.ts";

/** Steps along are so many times those across. */
const stepsLongerAlong = 3;
const edgeInsetMm = 1.5;
const rowsAtOnce = 2000;

export function* scanCsv(readings: number, seed = 1): Generator<string> {
  const { plan, shape, wear, probe, writing } = celloDense.recipe;
  const random = seededRandom(seed);
  const unwornMm = unwornSurface(plan, shape);
  const wearMm = wearField(plan, wear);
  const presentMm = (xMm: number, yMm: number) => unwornMm(xMm, yMm) - wearMm(xMm, yMm);
  const slopeStepMm = 0.05;
  const readMm = (xMm: number, yMm: number): number => {
    const heightMm = presentMm(xMm, yMm);
    const alongX = (presentMm(xMm + slopeStepMm, yMm) - heightMm) / slopeStepMm;
    const alongY = (presentMm(xMm, yMm + slopeStepMm) - heightMm) / slopeStepMm;
    const riseMm = probe.tipRadiusMm * (Math.sqrt(1 + alongX ** 2 + alongY ** 2) - 1);
    return heightMm + riseMm + probe.noiseMm * random.normal();
  };
  const areaMm2 = (plan.lengthMm * (plan.widthNutMm + plan.widthEndMm)) / 2;
  const stepAcrossMm = Math.sqrt(areaMm2 / readings / stepsLongerAlong);
  const passes = Math.max(2, Math.round((plan.widthNutMm + plan.widthEndMm) / 2 / stepAcrossMm));

  yield `${writing.settings.map(([key, text]) => `# ${key}: ${text}`).join("\n")}\nx,y,height\n`;
  let rows: string[] = [];
  for (let i = 0; i < readings; i += 1) {
    const pass = Math.floor((i * passes) / readings);
    const first = Math.ceil((pass * readings) / passes);
    const last = Math.ceil(((pass + 1) * readings) / passes) - 1;
    const along = (i - first) / Math.max(1, last - first);
    const xMm = 3 + (plan.lengthMm - 6) * (pass % 2 === 0 ? along : 1 - along);
    const share = (2 * pass) / (passes - 1) - 1;
    const yMm = share * (halfWidthMm(plan, xMm) - edgeInsetMm);
    rows.push(`${xMm.toFixed(3)},${yMm.toFixed(3)},${readMm(xMm, yMm).toFixed(3)}`);
    if (rows.length === rowsAtOnce) {
      yield `${rows.join("\n")}\n`;
      rows = [];
    }
  }
  if (rows.length > 0) yield `${rows.join("\n")}\n`;
}
