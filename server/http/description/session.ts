/** The session's part of the API's description (OpenAPI 3.1): who is signed in, signing in and out. */
import type { OpenAPIRegistry } from "@asteasolutions/zod-to-openapi";
import { sessionSchema, signInSchema } from "../wire/session.ts";
import type { Wording } from "./records.ts";

const path = "/api/session";

export function describeSession(registry: OpenAPIRegistry, { answer, refusals }: Wording): void {
  registry.registerPath({
    ...{ method: "get", path, operationId: "session", summary: "Who is signed in, and whether that is needed here." },
    responses: { 200: answer("The session.", sessionSchema), ...refusals(["store-unavailable"]) },
  });
  registry.registerPath({
    ...{ method: "post", path, operationId: "signIn", summary: "Sign in to a role; the answer sets a cookie." },
    request: { body: { required: true, content: { "application/json": { schema: signInSchema } } } },
    responses: {
      200: answer("The session.", sessionSchema),
      ...refusals([
        ...(["broken-json", "wrong-password", "foreign-origin", "too-slow", "too-large", "not-json"] as const),
        ...(["too-many-tries", "store-unavailable"] as const),
      ]),
    },
  });
  registry.registerPath({
    ...{ method: "delete", path, operationId: "signOut", summary: "Sign out: the session is ended in the store." },
    responses: { 204: { description: "Signed out." }, ...refusals(["foreign-origin", "store-unavailable"]) },
  });
}
