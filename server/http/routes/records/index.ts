/** All routes of the records, in the order of an address: instruments, their visits and story, what is due. Mounted once a store. */
import { Router } from "express";
import { instrumentsRoutes } from "./instruments.ts";
import type { RecordsParts } from "./parts.ts";
import { playersRoutes } from "./players.ts";
import { storyRoutes } from "./story.ts";
import { visitRoutes } from "./visit.ts";
import { visitsRoutes } from "./visits.ts";

export function recordsRoutes(parts: RecordsParts): Router {
  const router = Router();
  router.use(instrumentsRoutes(parts), storyRoutes(parts));
  router.use(visitsRoutes(parts), visitRoutes(parts), playersRoutes(parts));
  return router;
}
