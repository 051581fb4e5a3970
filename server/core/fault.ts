/**
 * A fault: one thing wrong with what was given, told so that whoever gave it can mend it from the message alone.
 *
 * `line` counts the lines of the file from 1 (null: not in a file, as for a setting from the command line or the form);
 * `column` counts cells from 1 (null: the whole line). `saw` says what stands there, `remedy` what to do about it.
 */
export type Fault = {
  /** A file, the settings, or what was said of an instrument or of a visit. */
  readonly where: "readings" | "thickness" | "rail" | "settings" | "instrument" | "visit";
  readonly line: number | null;
  readonly column: number | null;
  readonly code: string;
  readonly saw: string;
  readonly remedy: string;
};

/** More than these of one kind are counted, not listed: a file of a million bad rows makes no longer answer. */
export const mostFaultsListed = 50;

export const countingCode = "more-faults";

export function countingFault(where: Fault["where"], more: number): Fault {
  return {
    where,
    line: null,
    column: null,
    code: countingCode,
    saw: `${more} more ${more === 1 ? "fault" : "faults"}, not listed`,
    remedy: "Mend the ones listed first (often one cause makes many), then read the file again.",
  };
}

/** One fault as one line of text: place, what was seen, what to do. */
export function faultInWords(fault: Fault): string {
  const place = [
    fault.where,
    ...(fault.line === null ? [] : [`line ${fault.line}`]),
    ...(fault.column === null ? [] : [`column ${fault.column}`]),
  ].join(", ");
  return `${place}: ${fault.saw}. ${fault.remedy}`;
}
