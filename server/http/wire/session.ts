/** Signing in: who asks for which role, and who is signed in. */
import { roles } from "../../records/records.ts";
import { z } from "./schema.ts";

export const signInSchema = z
  .strictObject({ role: z.enum(roles), password: z.string() })
  .openapi("SignIn", { description: "The role to sign in to, and its password." });

export const sessionSchema = z
  .object({ needed: z.boolean(), role: z.enum(roles).nullable() })
  .openapi("Session", { description: "Whether passwords are asked for here; the role signed in, null for none." });
