/** When something is likely, in a sentence that says first how it stands: reached, likely when, or not to be told yet and why. */
import type { When } from "../../server/core/history/history.ts";

/** `reached`: the words for a limit that is reached, "Due now". */
function whenText(when: When, reached: string): string {
  if (when.told === "not yet") return `Can’t tell yet: ${when.why}`;
  return when.told === "reached" ? `${reached}: ${when.says}` : when.says;
}

export const dressingText = (when: When): string => whenText(when, "Due now");
export const endText = (when: When): string => whenText(when, "At its end");
