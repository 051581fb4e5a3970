/** A refusal as it goes over the wire (RFC 9457); `faults` comes with the kind `faulty` only. */
import { z } from "./schema.ts";

const faultSchema = z
  .object({
    where: z.enum(["readings", "thickness", "rail", "settings", "instrument", "visit"]),
    line: z.number().int().nullable(),
    column: z.number().int().nullable(),
    code: z.string(),
    saw: z.string(),
    remedy: z.string(),
  })
  .openapi("Fault", { description: "One thing wrong with what was given: where, what stands there, what to do." });

export const problemSchema = z
  .object({
    type: z.string().startsWith("urn:boardtrue:problem:"),
    title: z.string(),
    status: z.number().int(),
    detail: z.string(),
    instance: z.string().startsWith("urn:uuid:").optional(),
    faults: z.array(faultSchema).optional(),
  })
  .openapi("Problem", { description: "Why a request was refused, and what to do (RFC 9457)." });
