/** GET /api/health, for whoever watches over the server: that it is up, which version, and that its records can be reached and written. */
import { Router } from "express";
import type { z } from "zod";
import type { Store } from "../../records/store.ts";
import { onlyMethods } from "../problems.ts";
import type { healthSchema } from "../wire/health.ts";

/** Where the records can't be had it is refused (`store-unavailable`), as every use of them is. */
export function healthRoute(version: string, store: Pick<Store, "ping">): Router {
  const health: z.infer<typeof healthSchema> = { status: "ok", version };
  const router = Router();
  router
    .route("/api/health")
    .get(async (_request, response) => {
      response.set("Cache-Control", "no-store");
      await store.ping();
      response.json(health);
    })
    .all(onlyMethods("GET"));
  return router;
}
