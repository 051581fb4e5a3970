/** The server is up, and which version it is. */
import { z } from "./schema.ts";

export const healthSchema = z.object({ status: z.literal("ok"), version: z.string() }).openapi("Health");
