/**
 * Which points an examination is asked to tell: `?points=all` (as without it), `few` or `none`. Other words in the query are let pass.
 */
import type { Request } from "express";
import type { PointsTold } from "../../core/examination.ts";
import { Problem } from "../problems.ts";
import { z } from "./schema.ts";

const wanted = z.enum(["all", "few", "none"]);

export const examinationQuerySchema = z.object({
  points: wanted.default("all").openapi({
    description:
      "Which readings `points` holds: all; of more than 5,000 only those that a drawing can show (one in each small cell of the " +
      "board, and those that stand out as worn or proud); or none. Everything else in the answer is the same.",
  }),
});

/** Throws a Problem for a word that is none of the three. */
export function pointsAsked(request: Pick<Request, "query">): PointsTold {
  const { points = "all" } = request.query;
  const asked = wanted.safeParse(points);
  if (!asked.success) throw new Problem("unknown-points", { detail: "Ask for points=all, few or none." });
  return asked.data;
}
