/**
 * The loan store of a youth orchestra: invented instruments, each with a board that asks another question.
 *
 * Every number, name and story here is made up. Dimensions are of the usual order for the kind; limits that a story
 * turns on are written into its readings file, so that the story does not hang on a default.
 */

import { bassWithFlat } from "./basses.ts";
import { celloBentNeck, celloToDress, celloVeneered } from "./cellos.ts";
import { celloDense } from "./denseCello.ts";
import type { Example } from "./example.ts";
import { celloAlongStrings, violinSlack } from "./laidAnew.ts";
import { violaHandPlaned, violaNewBoard, violaTooThin } from "./violas.ts";
import { violinNarrowRuts, violinQuickLook, violinToLeave, violinTooClose, violinValuable } from "./violins.ts";

/** In the order in which they are shown. */
export const store: readonly Example[] = [
  celloToDress,
  violaTooThin,
  bassWithFlat,
  violinToLeave,
  violinTooClose,
  violinNarrowRuts,
  celloVeneered,
  celloBentNeck,
  violaNewBoard,
  violinValuable,
  celloDense,
  celloAlongStrings,
  violaHandPlaned,
  violinQuickLook,
  violinSlack,
];
