/**
 * Cautions: what can hurt someone or something when the verdict is followed, and where the tool stops.
 *
 * Usual precautions of the trade (common practice); local rules and licensed practice come first.
 */
import type { Instrument } from "./board/instrument.ts";
import type { Gauge } from "./board/settings.ts";
import type { Decision } from "./examination.ts";

type Given = { readonly instrument: Instrument; readonly gauge: Gauge; readonly isTipGiven: boolean };

export function cautionsFor({ instrument, gauge, isTipGiven }: Given, decision: Decision): readonly string[] {
  const woodGoes = decision === "dress" || decision === "shape" || decision === "borderline" || decision === "replace";
  return [
    ...(isTipGiven
      ? []
      : ["Nobody said how big the gauge's tip is: it was taken for a point. A ball reads high on the slopes."]),
    ...(gauge.tension === "unknown"
      ? ["Nobody said whether the strings were at pitch while measuring: their pull changes the hollow."]
      : []),
    ...(gauge.tension === "off"
      ? ["Measured with the strings slack: at pitch the board may be a little more hollow."]
      : []),
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
