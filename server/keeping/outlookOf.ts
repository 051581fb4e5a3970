/** When an instrument's dressing and its board's end are likely, from its visits: what the store works out anew with each of them. */
import { historyOf } from "../core/history/historyOf.ts";
import type { OutlookOf } from "../records/records.ts";

export const outlookOf: OutlookOf = (visits) => historyOf(visits).outlook;
