/** GET /api/openapi.json: the API's description (OpenAPI 3.1). */
import { Router } from "express";
import { apiDescription } from "../description/apiDescription.ts";
import { onlyMethods } from "../problems.ts";

export function descriptionRoute(version: string, uploadLimitBytes: number): Router {
  const description = apiDescription(version, uploadLimitBytes);
  const router = Router();
  router
    .route("/api/openapi.json")
    .get((_request, response) => {
      response.json(description);
    })
    .all(onlyMethods("GET"));
  return router;
}
