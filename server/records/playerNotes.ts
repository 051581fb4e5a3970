/**
 * What concerns a person, by itself: the player's hand and notes of a visit. Read, set and erased without touching the visit.
 *
 * An erasing leaves nothing in the store's own files (`forgetErased`); what a backup or an archive holds is for its keeper to erase.
 */
import type { Changing, Database } from "./database.ts";
import { numberKey } from "./numberKeys.ts";
import type { PlayerGiven, PlayerNotes } from "./records.ts";
import type { Store } from "./store.ts";

type PlayerQueries = Pick<Store, "playerNotes" | "setPlayerNotes" | "erasePlayerNotes">;

export function playerQueries(database: Database): PlayerQueries {
  return {
    playerNotes: (visitId) =>
      database.read(async (asking) => {
        const notes = await asking
          .selectFrom("player_notes")
          .select(["hand", "notes", "revision"])
          .where("visit_id", "=", visitId)
          .executeTakeFirst();
        return notes ?? null;
      }),

    setPlayerNotes: (visitId, revision, given) =>
      database.change((changing) => set(changing, visitId, revision, given)),

    async erasePlayerNotes(of) {
      const erased = await database.change(async (changing) => {
        const visits = changing.selectFrom("visits").select("visits.id");
        const meant =
          "visitId" in of
            ? visits.where("visits.id", "=", of.visitId)
            : visits
                .innerJoin("instruments", "instruments.id", "visits.instrument_id")
                .where("number_key", "=", numberKey(of.instrumentNumber));
        const { numDeletedRows } = await changing
          .deleteFrom("player_notes")
          .where("visit_id", "in", meant)
          .executeTakeFirstOrThrow();
        return Number(numDeletedRows);
      });
      // Even where none were there: an erasing before may have been cut short just here.
      await database.forgetErased();
      return erased;
    },
  };
}

async function set(
  changing: Changing,
  visitId: string,
  revision: number | null,
  { hand, notes }: PlayerGiven,
): ReturnType<Store["setPlayerNotes"]> {
  // Locks the visit's row, so that two who write at once take turns.
  const counted = await changing
    .updateTable("visit_notes")
    .set(({ ref }) => ({ player_revision: ref("player_revision") }))
    .where("visit_id", "=", visitId)
    .returning("player_revision")
    .executeTakeFirst();
  if (counted === undefined) return { outcome: "unknown" };
  const now = await changing
    .selectFrom("player_notes")
    .select(["hand", "notes", "revision"])
    .where("visit_id", "=", visitId)
    .executeTakeFirst();
  if ((now?.revision ?? null) !== revision) return { outcome: "changed meanwhile", now: now ?? null };

  const entry: PlayerNotes = { hand, notes, revision: counted.player_revision + 1 };
  await changing
    .updateTable("visit_notes")
    .set({ player_revision: entry.revision })
    .where("visit_id", "=", visitId)
    .execute();
  await changing
    .insertInto("player_notes")
    .values({ visit_id: visitId, ...entry })
    .onConflict((conflict) => conflict.column("visit_id").doUpdateSet(entry))
    .execute();
  return { outcome: "changed", entry };
}
