/** When something is likely, in a sentence: what the history says, or why it can't be told yet. */
import type { When } from "../../server/core/history/history.ts";

export const whenText = (when: When): string => (when.told === "not yet" ? `Can’t tell yet: ${when.why}` : when.says);
