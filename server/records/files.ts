/** Files by their SHA-256, byte for byte as they were given. */
import type { Database } from "./database.ts";
import { sha256Of, unpacked } from "./packed.ts";
import { type Store, StoreUnavailable } from "./store.ts";

export function fileQueries(database: Database): Pick<Store, "fileBytes"> {
  return {
    async fileBytes(sha256) {
      const row = await database.read((asking) =>
        asking.selectFrom("files").select("packed").where("sha256", "=", sha256).executeTakeFirst(),
      );
      if (row === undefined) return null;
      const bytes = await unpacked(row.packed).catch((cause: unknown) => {
        throw new StoreUnavailable("damaged", { cause });
      });
      if (sha256Of(bytes) !== sha256) throw new StoreUnavailable("damaged");
      return bytes;
    },
  };
}
