/** The example boards as a list: who they are and where their files stand. */
import { z } from "./schema.ts";

export const examplesSchema = z
  .object({
    examples: z.array(
      z.object({
        id: z.string(),
        number: z.string(),
        title: z.string(),
        story: z.string(),
        readings: z.string(),
        thickness: z.string().nullable(),
        rail: z.string().nullable(),
      }),
    ),
  })
  .openapi("Examples");
