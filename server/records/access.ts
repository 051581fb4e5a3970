/** Passwords (their hashes) and sessions (the hashes of their tokens): nothing here opens a door by itself. */
import type { Database } from "./database.ts";
import type { Role } from "./records.ts";
import type { Store } from "./store.ts";

type AccessQueries = Pick<
  Store,
  "passwordHash" | "setPasswordHash" | "addSession" | "session" | "renewSession" | "endSession"
>;

export function accessQueries(database: Database): AccessQueries {
  return {
    passwordHash: (role) =>
      database.read(async (asking) => {
        const row = await asking.selectFrom("passwords").select("hash").where("role", "=", role).executeTakeFirst();
        return row?.hash ?? null;
      }),

    setPasswordHash: (role, hash) =>
      database.change(async (changing) => {
        await changing
          .insertInto("passwords")
          .values({ role, hash })
          .onConflict((conflict) => conflict.column("role").doUpdateSet({ hash }))
          .execute();
        await changing.deleteFrom("sessions").where("role", "=", role).execute();
      }),

    addSession: (tokenSha256, { role, beganAt, expiresAt }) =>
      database.change(async (changing) => {
        await changing.deleteFrom("sessions").where("expires_at", "<=", beganAt).execute();
        const row = { token_sha256: tokenSha256, role, began_at: beganAt, expires_at: expiresAt };
        await changing.insertInto("sessions").values(row).execute();
      }),

    session: (tokenSha256, now) =>
      database.read(async (asking) => {
        const row = await asking
          .selectFrom("sessions")
          .selectAll()
          .where("token_sha256", "=", tokenSha256)
          .where("expires_at", ">", now)
          .executeTakeFirst();
        return row === undefined ? null : { role: row.role as Role, beganAt: row.began_at, expiresAt: row.expires_at };
      }),

    renewSession: (tokenSha256, expiresAt) =>
      database.change(async (changing) => {
        const row = changing.updateTable("sessions").set({ expires_at: expiresAt });
        await row.where("token_sha256", "=", tokenSha256).execute();
      }),

    endSession: (tokenSha256) =>
      database.change(async (changing) => {
        await changing.deleteFrom("sessions").where("token_sha256", "=", tokenSha256).execute();
      }),
  };
}
