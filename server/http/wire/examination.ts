/**
 * The examination as it goes over the wire, described once for the API's description and for the tests' checks.
 *
 * It says the same as the core's type `Examination`; the last lines keep the two from drifting apart: if one gains,
 * loses or changes a field, the program no longer compiles. Lengths in mm, `u` expanded with coverage factor 2.
 */
import { type FigureName, figureNames } from "../../core/board/instrument.ts";
import type { Examination } from "../../core/examination.ts";
import type { Plain, Same } from "./same.ts";
import { z } from "./schema.ts";

export const mm = z.number();
export const range = z.tuple([mm, mm]);
const lengths = z.array(mm);

export const quantity = z
  .object({ value: mm, u: mm.nonnegative() })
  .openapi("Quantity", { description: "A measured quantity, mm, with its expanded uncertainty (k = 2)." });

export const figureSchema = z
  .object({
    value: z.number(),
    source: z.enum(["published", "derived", "practice", "memory", "given"]),
    origin: z.string(),
  })
  .openapi("Figure", { description: "A dimension or limit and where it comes from." });

const figureFields = Object.fromEntries(figureNames.map((name) => [name, figureSchema])) as Record<
  FigureName,
  typeof figureSchema
>;

const instrument = z.object({
  ...figureFields,
  kind: z.enum(["violin", "viola", "cello", "bass"]),
  size: z.string(),
  strings: z.array(z.string()),
  openPitches: z.array(z.number()),
  positions: z.array(z.object({ name: z.string(), fromSemitone: z.number() })),
  facet: z
    .object({
      ridgeNutMm: figureSchema,
      ridgeEndMm: figureSchema,
      slopeNut: figureSchema.nullable(),
      slopeEnd: figureSchema.nullable(),
    })
    .nullable(),
});

const readings = z.object({
  count: z.number().int().openapi({ description: "Readings in the file." }),
  condensedTo: z
    .number()
    .int()
    .nullable()
    .openapi({
      description:
        "Of more than 100,000 readings those in one small cell of the board are brought together to their mean: how many means. " +
        "`points` holds these then, each with the row of the first reading in it. Null: every reading by itself.",
    }),
  pointsTold: z
    .enum(["all", "few", "none"])
    .openapi({ description: "Which readings `points` holds: see the query parameter `points`." }),
  crosslines: z.number().int(),
  lines: z.number().int(),
  setups: z.number().int(),
  repeatSdMm: mm.nullable(),
  drift: z.object({ checks: z.number().int(), mm, corrected: z.boolean() }).nullable(),
  hiddenRutMm: mm.nullable(),
  enoughFor: z.array(z.enum(["hollow", "camber", "wear", "planing"])),
});

const hollow = z.object({
  string: z.string(),
  hollowMm: quantity,
  measuredMm: mm.nullable(),
  withinMm: range,
  state: z.enum(["within", "shallow", "deep", "humped"]),
  deepestAtMm: mm,
});

const surface = z.object({
  noiseMm: mm.nullable(),
  unwornShare: z.number().nullable(),
  formMm: mm.nullable(),
  camberRadiusMm: z.object({ nut: quantity.nullable(), middle: quantity.nullable(), end: quantity.nullable() }),
  hollows: z.array(hollow),
  twistMm: quantity.nullable(),
  humps: z.array(z.object({ string: z.string(), xMm: mm, heightMm: quantity })),
  assumed: z.array(z.string()),
});

const point = z.object({
  row: z.number().int(),
  givenXMm: mm,
  givenYMm: mm,
  xMm: mm,
  yMm: mm,
  heightMm: mm,
  unwornMm: mm,
  wearMm: mm,
  cutMm: mm.nullable(),
});

export const placeName = { string: z.string(), note: z.string(), position: z.string() };
const placeKind = z.enum(["string rut", "finger pit", "broad wear", "hump"]);

const deepest = z.object({
  ...placeName,
  depthMm: mm,
  u: mm,
  xMm: mm,
  yMm: mm,
  kind: placeKind,
  atLeast: z.boolean(),
});

const wornPlace = z.object({
  ...placeName,
  kind: placeKind,
  depthMm: mm,
  u: mm,
  atLeast: z.boolean(),
  xMm: range,
  yMm: range,
  areaMm2: z.number(),
  volumeMm3: z.number(),
  costMm: mm.nullable(),
  readings: z.number().int(),
});

const planing = z.object({
  aim: z.enum(["workshop", "own"]),
  planeOffMm: z.object({ value: mm, u: mm, ofReadings: mm }),
  atLeast: z.boolean(),
  meanCutMm: mm,
  volumeMm3: z.number(),
  cutAtNutMm: mm,
  cutAtEndMm: mm,
  spares: z.enum(["deepest cut", "thinnest place"]),
  target: z.object({
    radiusMm: z.object({ nut: mm, middle: mm, end: mm }),
    hollowMm: z.object({ lowest: mm, highest: mm }),
    heightMm: mm,
    pitch: z.number(),
    crownMm: z.object({ nut: mm, end: mm }),
    arc: z.enum(["one radius", "straight taper", "free"]),
    oneRadiusCostsMm: mm.nullable(),
  }),
  governedBy: z.array(z.object({ xMm: mm, yMm: mm, governs: z.enum(["depth", "contact", "thickness"]) })),
  boundBy: z.array(z.object({ setting: z.string(), says: z.string(), savesMmPerMm: z.number() })),
  widening: z.array(z.object({ setting: z.string(), says: z.string(), byMm: mm })),
  templates: z.array(z.object({ radiusMm: mm, planeOffMm: mm, dressingsLeft: z.number().nullable() })),
  finishAllowanceMm: mm,
});

export const side = z.enum(["bass", "treble", "centre"]);

const thickness = z.object({
  before: z.object({ xMm: mm, side, value: mm, u: mm }),
  edgeAfterMm: quantity,
  centreAfterMm: quantity.nullable(),
  limitMm: mm,
  dressingsLeft: z.number().nullable(),
  places: z.array(z.object({ xMm: mm, side, beforeMm: mm, afterMm: mm.nullable(), u: mm, limitMm: mm })),
});

export const grid = z.array(z.array(mm.nullable()));

export const decision = z
  .enum(["leave", "dress", "shape", "borderline", "replace", "undecided", "restorer", "cause"])
  .openapi("Decision");

export const quickAnswer = z.enum(["sound where looked", "dressing likely", "survey fully"]);

const verdict = z.object({
  decision,
  quickLook: quickAnswer.nullable(),
  reasons: z.array(
    z.object({
      code: z.string(),
      says: z.string(),
      valueMm: mm.nullable(),
      u: mm.nullable(),
      limitMm: mm.nullable(),
      origin: z.string().nullable(),
      probability: z.number().nullable(),
    }),
  ),
  wouldChange: z.array(z.object({ what: z.string(), says: z.string(), decision })),
  nextReading: z
    .object({ xMm: mm, yMm: mm, what: z.enum(["height", "thickness", "gap"]), says: z.string() })
    .nullable(),
});

export const examinationSchema = z
  .object({
    version: z.string(),
    instrument,
    readings,
    surface,
    points: z.array(point),
    deepest: deepest.nullable(),
    wornPlaces: z.array(wornPlace),
    planing: planing.nullable(),
    thickness: thickness.nullable(),
    maps: z.object({ xMm: lengths, yMm: lengths, wearMm: grid, cutMm: grid }).nullable(),
    profiles: z.array(
      z.object({
        string: z.string(),
        xMm: lengths,
        yMm: lengths,
        measuredMm: lengths,
        unwornMm: lengths,
        targetMm: lengths.nullable(),
        straightedgeMm: lengths,
      }),
    ),
    sections: z.array(
      z.object({
        xMm: mm,
        yMm: lengths,
        measuredMm: lengths,
        unwornMm: lengths,
        targetMm: lengths.nullable(),
        templateMm: lengths,
        templateRadiusMm: mm,
      }),
    ),
    verdict,
    cautions: z.array(z.string()),
  })
  .openapi("Examination");

/** Does not compile when the description and the core's type differ. */
true satisfies Same<Plain<z.infer<typeof examinationSchema>>, Plain<Examination>>;
