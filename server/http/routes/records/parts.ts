/** What the routes of the records are made of; one set for the workshop's own store, another for the invented one. */
import type { Keeping } from "../../../keeping/keeping.ts";
import type { Uploads } from "../../uploads.ts";

export type RecordsParts = Keeping & { readonly uploads: Uploads };
