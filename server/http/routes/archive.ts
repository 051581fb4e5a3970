/**
 * All records out as one archive, and an archive in: the owner's alone, since what concerns players is in it.
 *
 * `GET /archive` -> a ZIP as it is made, piece by piece; where the store fails under way the connection is cut, so that nobody
 * takes the half for the whole. `POST /archive` (application/zip) -> how much was added, was there already, was refused and why.
 */
import { type Request, Router } from "express";
import type { InstrumentTable } from "../../core/board/instrumentTable.ts";
import { exportArchive } from "../../keeping/archive/exportArchive.ts";
import { importArchive, importLimits } from "../../keeping/archive/importArchive.ts";
import { keptAside, TooLong } from "../../keeping/archive/keptAside.ts";
import type { Store } from "../../records/store.ts";
import { refuseAllButOwner } from "../access/roles.ts";
import { onlyMethods, Problem } from "../problems.ts";
import { sendJson } from "../revisions.ts";
import { sendPieces } from "../sendPieces.ts";
import { archiveShapes, importedOnWire } from "../wire/archive.ts";

export type ArchiveParts = {
  readonly store: Store;
  readonly table: InstrumentTable;
  readonly now: () => Date;
  /** Of one file of readings within the archive. */
  readonly uploadLimitBytes: number;
  /** The invented store gives an archive, but takes none. */
  readonly takesIn: boolean;
};

/** A store of 50,000 visits takes a quarter of an hour to pack. */
const longestMs = 4 * 3_600_000;
/** Laid aside on the disk, not in the memory. Larger ones go in by the command. */
const mostArchiveBytes = 4 * 2 ** 30;

export function archiveRoutes({ store, table, now, uploadLimitBytes, takesIn }: ArchiveParts): Router {
  const router = Router();
  const route = router.route("/archive").get(async (request, response) => {
    refuseAllButOwner(request);
    response.type("application/zip").attachment("boardtrue-records.zip");
    await sendPieces(response, exportArchive(store, { withPlayers: true }), longestMs);
  });
  if (takesIn) {
    route.post(async (request, response) => {
      refuseAllButOwner(request);
      refuseOtherTypes(request);
      const limits = importLimits(uploadLimitBytes);
      const importing = { store, table, shapes: archiveShapes, limits, now: now() };
      const imported = await keptAside(request, mostArchiveBytes, async (path) => {
        // It has arrived: the connection's limit on silence has nothing to watch until the answer goes out.
        request.socket.setTimeout(0);
        return importArchive(path, importing);
      }).catch((error: unknown) => {
        if (error instanceof TooLong) throw tooLarge();
        // The client left while sending: nobody to answer.
        if (request.readableAborted) return null;
        throw error;
      });
      if (imported === null) return;
      if (imported.outcome === "refused") throw new Problem("not-an-archive", { detail: imported.why });
      sendJson(response, importedOnWire(imported));
    });
  }
  route.all(onlyMethods("GET", ...(takesIn ? ["POST"] : [])));
  return router;
}

function refuseOtherTypes(request: Request): void {
  if (request.is("application/zip") === false) {
    throw new Problem("not-a-zip", { detail: "Send the archive itself, with Content-Type: application/zip." });
  }
  if (Number(request.headers["content-length"] ?? 0) > mostArchiveBytes) throw tooLarge();
}

function tooLarge(): Problem {
  const detail = `At most ${mostArchiveBytes} bytes are taken here. Bring larger archives in by the command: boardtrue import.`;
  return new Problem("too-large", { detail });
}
