/**
 * zod, with `.openapi()` on every schema: the wire types are described with it once, for checks and for the API's
 * description. Import `z` from here in this folder, so that the extension is always there first.
 */
import { extendZodWithOpenApi } from "@asteasolutions/zod-to-openapi";
import { z } from "zod";

extendZodWithOpenApi(z);

export { z };
