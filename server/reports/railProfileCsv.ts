/**
 * A rail's error profile as a file: what `rail_error` names and the part `rail` holds. Survey -> CSV, mm.
 *
 * Errors to 0.1 µm, far finer than any gauge; u expanded (k = 2). Remarks have no colon, which would make them settings.
 */
import type { RailSurvey } from "../core/compensation/railSurvey.ts";
import { coverageFactor } from "../core/units.ts";
import { counted } from "./words.ts";

export function railProfileCsv({ profile, readings, setups, barErrorMm }: RailSurvey): string {
  const rows = profile.map(({ xMm, errorMm, uMm }) => {
    const error = tenthsOfMicrometre(errorMm);
    return `${Number(xMm.toFixed(4))},${error},${tenthsOfMicrometre(coverageFactor * uMm)}`;
  });
  const remarks = [
    `Rail error profile from ${counted(readings, "reading")} at ${counted(profile.length, "place")}, in ${counted(setups, "set-up")}`,
    "What the gauge shows over something straight, mm; it is taken off every reading",
    "u is the expanded uncertainty (k = 2) from the scatter of the readings; the straightedge's own error is not in it",
    ...(barErrorMm === null
      ? []
      : [
          `Half the difference of the two set-ups is up to ${barErrorMm.toFixed(3)} mm`,
          "That is the bar's own error, and taken out, if the bar has parallel edges and was turned over between them",
          "Turned end for end on the same edge, its bow is still in the profile",
        ]),
  ];
  return [...remarks.map((remark) => `# ${remark}`), "x,error,u", ...rows, ""].join("\n");
}

function tenthsOfMicrometre(lengthMm: number): string {
  return String(Number(lengthMm.toFixed(4)) + 0);
}
