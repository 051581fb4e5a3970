/** Each decision in two or three words, the same on the bench, in a visit's row and in lists. */
import type { Decision, QuickAnswer } from "../../server/core/examination.ts";

export const verdictWords: Readonly<Record<Decision, string>> = {
  leave: "Leave it",
  dress: "Dress it",
  shape: "Shape it",
  borderline: "Too close to call",
  replace: "New board",
  undecided: "Can’t say yet",
  restorer: "To a restorer first",
  cause: "Find the cause first",
};

export const quickWords: Readonly<Record<QuickAnswer, string>> = {
  "sound where looked": "Sound where looked",
  "dressing likely": "Dressing likely",
  "survey fully": "Survey it fully",
};
