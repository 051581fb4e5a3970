/**
 * The example boards: the list, and each one's files as they stand in the folder.
 *
 * Only a file that the list names can be had; an id is looked up, never made into a path.
 */
import { createReadStream } from "node:fs";
import { pipeline } from "node:stream/promises";
import { type RequestHandler, Router } from "express";
import type { z } from "zod";
import type { Example } from "../../exampleBoards.ts";
import { onlyMethods, Problem } from "../problems.ts";
import type { examplesSchema } from "../wire/examples.ts";

export function examplesRoute(examples: readonly Example[]): Router {
  const list: z.infer<typeof examplesSchema> = {
    examples: examples.map(({ id, number, title, story, thicknessPath, railPath }) => ({
      id,
      number,
      title,
      story,
      readings: `/api/examples/${id}/readings.csv`,
      thickness: thicknessPath === null ? null : `/api/examples/${id}/thickness.csv`,
      rail: railPath === null ? null : `/api/examples/${id}/rail.csv`,
    })),
  };
  const router = Router();
  router
    .route("/api/examples")
    .get((_request, response) => {
      response.json(list);
    })
    .all(onlyMethods("GET"));
  router
    .route("/api/examples/:id/readings.csv")
    .get(sendFile(examples, (example) => example.readingsPath))
    .all(onlyMethods("GET"));
  router
    .route("/api/examples/:id/thickness.csv")
    .get(sendFile(examples, (example) => example.thicknessPath))
    .all(onlyMethods("GET"));
  router
    .route("/api/examples/:id/rail.csv")
    .get(sendFile(examples, (example) => example.railPath))
    .all(onlyMethods("GET"));
  return router;
}

function sendFile(examples: readonly Example[], pathOf: (example: Example) => string | null): RequestHandler {
  return async (request, response) => {
    const example = examples.find(({ id }) => id === request.params.id);
    const path = example === undefined ? null : pathOf(example);
    if (path === null) throw new Problem("not-found", { detail: "The examples are listed at /api/examples." });
    response.type("text/csv; charset=utf-8");
    await pipeline(createReadStream(path), response);
  };
}
