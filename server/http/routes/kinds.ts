/** GET /api/kinds: every instrument of the table with its figures and their origins, and every setting. */
import { Router } from "express";
import type { z } from "zod";
import { instrumentNames } from "../../core/board/findInstrument.ts";
import type { InstrumentTable } from "../../core/board/instrumentTable.ts";
import { settingTable } from "../../core/board/settingTable.ts";
import { onlyMethods } from "../problems.ts";
import type { kindsSchema } from "../wire/kinds.ts";

/** The answer as the schema describes it; it only passes on what the core's tables hold. */
type Kinds = DeepReadonly<z.infer<typeof kindsSchema>>;
type DeepReadonly<T> = { readonly [K in keyof T]: DeepReadonly<T[K]> };

export function kindsRoute(table: InstrumentTable): Router {
  const kinds = kindsOf(table);
  const router = Router();
  router
    .route("/api/kinds")
    .get((_request, response) => {
      response.json(kinds);
    })
    .all(onlyMethods("GET"));
  return router;
}

function kindsOf(table: InstrumentTable): Kinds {
  const names = instrumentNames(table);
  const instruments = table.kinds.flatMap((kind) => kind.instruments.map((instrument) => ({ kind, instrument })));
  return {
    kinds: instruments.map(({ kind, instrument }, i) => ({
      ...instrument,
      instrument: names[i]!,
      kind: kind.kind,
      usual: instrument.size === kind.usualSize && names[i] === `${kind.kind} ${instrument.size}`,
    })),
    settings: settingTable,
    sources: table.sources,
  };
}
