/**
 * Cautions: what can hurt someone or something when the verdict is followed, and where the tool stops.
 *
 * Usual precautions of the trade (common practice); local rules and licensed practice come first.
 */
import type { Instrument } from "./board/instrument.ts";
import type { Gauge } from "./board/settings.ts";
import type { Drift } from "./compensation/drift.ts";
import { pullUncertaintyMm } from "./compensation/pull.ts";
import type { Decision } from "./examination.ts";
import type { Readings } from "./readings/readings.ts";
import type { UnheededRuts } from "./thickness/findings.ts";
import { notRead, notShown } from "./thickness/sayings.ts";
import { coverageFactor } from "./units.ts";

type Given = {
  readonly instrument: Instrument;
  readonly gauge: Gauge;
  readonly isTipGiven: boolean;
  readonly drift: Drift | null;
};

export function cautionsFor({ instrument, gauge, isTipGiven, drift }: Given, decision: Decision): readonly string[] {
  const woodGoes = decision === "dress" || decision === "shape" || decision === "borderline" || decision === "replace";
  return [
    ...(isTipGiven
      ? []
      : ["Nobody said how big the gauge's tip is: it was taken for a point. A ball reads high on the slopes."]),
    ...ofStrings(gauge, instrument),
    ...ofDrift(drift),
    ...(decision === "replace" && instrument.edgeLimitMm.source !== "given"
      ? [
          "The least thickness is this program's own default: confirm it as your workshop's limit before you tell a customer that the board is at its end.",
        ]
      : []),
    ...(decision === "replace" ? ["A new board brings a new nut with it, and often a new bridge."] : []),
    ...(decision === "restorer" || decision === "cause"
      ? ["Take no wood off before a qualified restorer has seen the instrument."]
      : []),
    ...(woodGoes
      ? [
          "Ebony and rosewood dust can make you allergic: extraction first, then a mask; no dry sweeping.",
          "With all strings off the soundpost may fall: slacken evenly, pad the tailpiece, guard belly and scroll.",
          "Work with sharp irons, and watch for tear-out where the grain turns.",
          "Lower the nut to match afterwards: strings left too high can hurt a player's hand. Free its glue line before tapping.",
          "An old nut may be ivory, and trade in some rosewoods and ebonies is regulated: check the law where you are.",
        ]
      : []),
    "This is a reading of one board on one day: no valuation and no certificate. Local rules and qualified practice come first.",
  ];
}

/** A fingertip's pit is about this long, mm; longer ones can't slip between crosslines. From memory. */
const fingerPitMm = 15;

/** Where a board is left alone: what the crosslines may have passed by. */
export function ofCrosslines(hiddenPitMm: number, decision: Decision): readonly string[] {
  if (decision !== "leave" || hiddenPitMm <= fingerPitMm) return [];
  return [
    `Between the crosslines nothing was read: in first position a finger pit up to ${Math.floor(hiddenPitMm)} mm long could lie there unseen.`,
  ];
}

/** Where a plain answer is given: ruts that these readings may have passed by. A width is told rounded up, to a tenth. */
export function ofRuts({ unread, narrow }: UnheededRuts, gauge: Gauge, decision: Decision): readonly string[] {
  if (decision !== "leave" && decision !== "dress" && decision !== "borderline") return [];
  return [
    ...(unread ? [notRead(unread.string, unread.place.xMm, unread.widestRutMm)] : []),
    ...(narrow
      ? [
          notShown(
            narrow.string,
            `narrower than ${(Math.ceil(narrow.widthMm * 10) / 10).toFixed(1)} mm`,
            gauge.tipRadiusMm,
          ),
        ]
      : []),
  ];
}

function ofStrings(gauge: Gauge, instrument: Instrument): readonly string[] {
  const lessCertain = `± ${(coverageFactor * pullUncertaintyMm(gauge, instrument)).toFixed(2)} mm`;
  switch (gauge.tension) {
    case "on":
      return [];
    case "unknown":
      return [
        `Nobody said whether the strings were at pitch while measuring: their pull changes the hollow, so that hollows are less certain by ${lessCertain}.`,
      ];
    case "off":
      return gauge.pull === null
        ? [
            `Measured with the strings slack: at pitch the board may be a little more hollow; hollows are less certain by ${lessCertain}. Lay a straightedge under both outer strings, at pitch and slack, and give the differences as pull_lowest and pull_highest.`,
          ]
        : [
            "Measured with the strings slack, and brought to pitch by the pull that was measured under the outer strings.",
          ];
  }
}

/** Marked as read again, but at a place that was not read before: a slip in its x or its line, most likely. */
export function ofLoneChecks({ readings }: Readings, drift: Drift | null): readonly string[] {
  const marked = readings.filter(({ mark }) => mark === "check").length;
  const lone = marked - (drift?.checks ?? 0);
  if (lone === 0) return [];
  const places = lone === 1 ? "1 check stands" : `${lone} checks stand`;
  return [
    `${places} where nothing was read before in the same set-up, and so ${lone === 1 ? "tells" : "tell"} nothing of the gauge's drift: is the place right?`,
  ];
}

/** A drift of more than this is worth finding the cause of, mm: what a careful rail is good for (from memory). */
const largeDriftMm = 0.02;

function ofDrift(drift: Drift | null): readonly string[] {
  if (drift === null || Math.abs(drift.mm) <= largeDriftMm) return [];
  const by = `${Math.abs(drift.mm).toFixed(2)} mm`;
  return drift.corrected
    ? [
        `The gauge drifted by ${by} while the board was read. It was taken out as if it had come evenly: see what moved (the rail's stand, the cradle, the neck), and read again what is close to a limit.`,
      ]
    : [
        `Places read again differ as if the gauge had drifted by ${by}, but too few were read again to be sure, and nothing was taken out: read three or more again at the end.`,
      ];
}
