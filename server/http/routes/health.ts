/** GET /api/health: for whoever watches over the server. */
import { Router } from "express";
import type { z } from "zod";
import { onlyMethods } from "../problems.ts";
import type { healthSchema } from "../wire/health.ts";

export function healthRoute(version: string): Router {
  const health: z.infer<typeof healthSchema> = { status: "ok", version };
  const router = Router();
  router
    .route("/api/health")
    .get((_request, response) => {
      response.set("Cache-Control", "no-store").json(health);
    })
    .all(onlyMethods("GET"));
  return router;
}
