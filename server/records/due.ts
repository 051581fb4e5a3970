/** The due list: instruments whose limit is reached first, then the soonest, then those of which nothing can be told yet. */
import { sql } from "kysely";
import { cursorAt, placeOf } from "./cursor.ts";
import type { Database } from "./database.ts";
import type { Store } from "./store.ts";

const list = "due";

export function dueQueries(database: Database): Pick<Store, "due"> {
  return {
    due: ({ after, limit }) =>
      database.read(async (asking) => {
        const sorted = asking
          .selectFrom("instruments")
          .select(["number", "number_key", "instrument", "label", "last_visit", "outlook", "due_rank", "due_day"])
          .orderBy("due_rank")
          .orderBy("due_day")
          .orderBy("number_key")
          .limit(limit + 1);
        const [rank, day, key] = after === null ? [0, "", ""] : placeOf(list, after, [0, "", ""] as const);
        const rows = await (after === null
          ? sorted
          : sorted.where(sql<boolean>`(due_rank, due_day, number_key) > (${sql.lit(rank)}, ${day}, ${key})`)
        ).execute();
        const told = rows.slice(0, limit);
        const last = told.at(-1);
        return {
          entries: told.map((row) => ({
            instrumentNumber: row.number,
            instrument: row.instrument,
            label: row.label,
            lastVisit: row.last_visit,
            outlook: JSON.parse(row.outlook),
          })),
          next:
            rows.length > limit && last !== undefined
              ? cursorAt(list, [last.due_rank, last.due_day, last.number_key])
              : null,
        };
      }),
  };
}
