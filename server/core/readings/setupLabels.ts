/**
 * Labels of the rail's set-ups, numbered as they are met in a list's column `setup`.
 *
 * A set-up is one placing of the rail, with a height and a pitch of its own; any text is a label. A label left out among
 * others could belong to either neighbour, so it is a fault; so is a column with a label for each reading.
 */
import type { FaultList, FaultPlace } from "./faultList.ts";
import { mostSetups } from "./readingColumns.ts";
import { shownSafely } from "./shownSafely.ts";

export type SetupLabels = {
  /** The number of a cell's label, from 0; 0 after telling what is wrong, once for the file. */
  numberOf(cell: string, place: FaultPlace): number;
  /** In the order of the file. */
  labels(): readonly string[];
};

export function setupLabels(faults: FaultList): SetupLabels {
  const labels: string[] = [];
  let isTooManyTold = false;

  function add(label: string, place: FaultPlace): number {
    if (labels.length === mostSetups) {
      if (!isTooManyTold) tellTooMany(place);
      isTooManyTold = true;
      return 0;
    }
    labels.push(label);
    if (labels.length === 2 && labels.includes("")) tellMissing(label, place);
    return labels.length - 1;
  }

  function tellMissing(label: string, place: FaultPlace): void {
    faults.add(
      place,
      "setup-missing",
      label === "" ? "a reading without its set-up" : `the set-up ${shownSafely(label)} after readings without one`,
      "Write the set-up's label in every row, or take the column out if the rail was set up once.",
    );
  }

  function tellTooMany(place: FaultPlace): void {
    faults.add(
      place,
      "too-many-setups",
      `more than ${mostSetups} set-ups`,
      "Give all readings of one placing of the rail the same label; remarks go in a column `note`.",
    );
  }

  return {
    numberOf(cell, place) {
      const label = cell.trim();
      const known = labels.indexOf(label);
      return known >= 0 ? known : add(label, place);
    },
    labels: () => labels,
  };
}
