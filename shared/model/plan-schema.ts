import { z } from 'zod';
import type { PerFace } from './faces';
import type {
  AcceptedFinding,
  BlankSlot,
  BlankTemplate,
  ClampChoice,
  CleanupChoice,
  Cut,
  Holding,
  Hole,
  Marking,
  OrderChoice,
  Part,
  PlacedTab,
  Plan,
  PlanLibrary,
  RecordedResult,
  Release,
  SeatChoice,
  SheetChoice,
  SpareRule,
  Station,
  StockChoice,
  ZeroPoint,
} from './plan';
import type { SameType } from './same-type';
import {
  amountSchema,
  countSchema,
  faceSchema,
  getChoiceSchema,
  getListSchema,
  getPerFaceSchema,
  idSchema,
  LONGEST_JOB_LIST,
  lengthSchema,
  notesSchema,
  piecesSchema,
  placeSchema,
  positiveSchema,
  quantitySchema,
  referenceSchema,
  sizeSchema,
  textSchema,
} from './schema-fields';
import { shopLists } from './shop-schema';

/** Vises in a row: more than these no machine holds. */
const MOST_VISES = 100;

function getJobListSchema<T extends z.ZodType>(entry: T) {
  return getListSchema(entry, LONGEST_JOB_LIST);
}

export const stationSchema = z.object({
  kind: z.enum(['shank', 'boss', 'taper', 'web']),
  from: lengthSchema,
  to: lengthSchema,
  width: lengthSchema,
  widthEnd: lengthSchema,
});

export const holeSchema = z.object({
  id: idSchema,
  axis: z.enum(['z', 'y']),
  x: placeSchema,
  z: placeSchema,
  diameter: sizeSchema,
  slotLength: lengthSchema,
  through: z.boolean(),
  beforeCutOff: z.boolean(),
});

const toleranceSchema = z.object({ plus: placeSchema, minus: placeSchema });
const spanSchema = z.object({ from: lengthSchema, to: lengthSchema });
const facesOfLengthSchema = getPerFaceSchema(lengthSchema);

export const partSchema = z.object({
  id: idSchema,
  name: textSchema,
  number: textSchema,
  hand: z.enum(['none', 'left', 'right']),
  quantity: quantitySchema,
  length: sizeSchema,
  height: sizeSchema,
  thickness: sizeSchema,
  stations: getJobListSchema(stationSchema),
  holes: getJobListSchema(holeSchema),
  keepOuts: getJobListSchema(spanSchema),
  insideCorner: lengthSchema.nullable(),
  allowance: facesOfLengthSchema.nullable(),
  thicknessTolerance: toleranceSchema.nullable(),
  heightTolerance: toleranceSchema.nullable(),
  asSupplied: getListSchema(faceSchema),
  note: notesSchema,
});

export const stockSchema = z.object({
  materialId: referenceSchema,
  barId: getChoiceSchema(referenceSchema),
  wayUp: getChoiceSchema(z.enum(['onEdge', 'flat'])),
  measuredHeight: sizeSchema.nullable(),
  measuredThickness: sizeSchema.nullable(),
  measuredBow: lengthSchema.nullable(),
  heatMark: textSchema,
});

export const cleanupSchema = z.object({
  top: lengthSchema,
  leftEnd: lengthSchema,
  rightEnd: lengthSchema,
  skinPerSide: getChoiceSchema(lengthSchema),
  fromFixedJaw: getChoiceSchema(placeSchema),
});

export const slotSchema = z.object({ id: idSchema, partId: idSchema, x: placeSchema, mirrored: z.boolean() });

export const templateSchema = z.object({
  id: idSchema,
  length: getChoiceSchema(sizeSchema),
  count: getChoiceSchema(countSchema),
  slots: getJobListSchema(slotSchema),
});

export const seatSchema = z.discriminatedUnion('kind', [
  z.object({ kind: z.literal('shelf') }),
  z.object({
    kind: z.literal('parallels'),
    parallelId: referenceSchema,
    count: z.union([z.literal(1), z.literal(2)]),
  }),
  z.object({ kind: z.literal('bed') }),
]);

export const clampSchema = z.discriminatedUnion('kind', [
  z.object({ kind: z.literal('force'), clampForceN: amountSchema }),
  z.object({
    kind: z.literal('torque'),
    handleTorqueNm: amountSchema,
    nutFactor: z.number().gt(0).max(2).nullable(),
  }),
]);

export const holdingSchema = z.object({
  viseId: referenceSchema,
  jawSetId: referenceSchema,
  viseCount: getChoiceSchema(z.number().int().min(1).max(MOST_VISES)),
  vises: getChoiceSchema(getListSchema(placeSchema, MOST_VISES)),
  seat: getChoiceSchema(seatSchema),
  shelfDepth: getChoiceSchema(lengthSchema),
  spacer: getChoiceSchema(lengthSchema),
  spacerHeight: getChoiceSchema(lengthSchema),
  blankX: getChoiceSchema(placeSchema),
  targetGrip: getChoiceSchema(lengthSchema),
  clamp: clampSchema,
  grippedSurface: getChoiceSchema(z.enum(['ground', 'machined', 'asSupplied'])),
  faceToFixedJaw: textSchema,
  alignmentNote: textSchema,
});

export const tabSchema = z.object({ partId: idSchema, x: placeSchema });

export const releaseSchema = z.object({
  cutterId: getChoiceSchema(referenceSchema),
  clearance: getChoiceSchema(lengthSchema),
  sides: z.enum(['both', 'fixedSide', 'movingSide']),
  keep: getChoiceSchema(z.enum(['rib', 'tabs'])),
  ribTarget: getChoiceSchema(lengthSchema),
  tabs: getChoiceSchema(getJobListSchema(tabSchema)),
  tabLength: getChoiceSchema(sizeSchema),
  dressNote: textSchema,
});

export const cutSchema = z.object({
  id: idSchema,
  name: textSchema,
  kind: z.enum(['side', 'slot', 'plunge', 'drill', 'chamfer', 'cutOff']),
  toolId: referenceSchema,
  holderId: referenceSchema,
  stepDown: lengthSchema,
  sideEngagement: lengthSchema,
  feedPerTooth: lengthSchema,
  cuttingSpeedMPerMin: positiveSchema,
  stickOut: getChoiceSchema(sizeSchema),
});

export const spareRuleSchema = z.discriminatedUnion('kind', [
  z.object({ kind: z.literal('none') }),
  z.object({
    kind: z.literal('scrapRate'),
    scrapRate: z.number().min(0).max(0.95),
    confidence: z.number().gt(0).max(0.9999),
  }),
  z.object({ kind: z.literal('byLength'), setupPieces: countSchema }),
  z.object({ kind: z.literal('pieces'), pieces: countSchema }),
]);

export const orderSchema = z.object({
  sawId: referenceSchema,
  squaringTrim: getChoiceSchema(lengthSchema),
  badEnd: getChoiceSchema(lengthSchema),
  stub: getChoiceSchema(lengthSchema),
  leastRemnant: getChoiceSchema(lengthSchema),
  useRack: z.boolean(),
  spares: spareRuleSchema,
  maxPatterns: piecesSchema.nullable(),
});

export const zeroPointSchema = z.object({
  x: z.enum(['stop', 'partLeft', 'blankLeft']),
  y: z.enum(['fixedJaw', 'partCentre']),
  z: z.enum(['jawTop', 'partTop', 'blankTop']),
});

export const markingSchema = z.object({
  text: textSchema,
  place: textSchema,
  method: textSchema,
  when: z.enum(['beforeFinishing', 'afterFinishing', 'tag']),
});

export const paperSchema = z.enum(['letter', 'a4', 'a3', 'tabloid']);

/** From a thousand times as large to a thousandth: more than any series has. */
const scaleSchema = z.number().min(0.001).max(1000);

export const sheetSchema = z.object({
  paper: getChoiceSchema(paperSchema),
  sectionScale: getChoiceSchema(scaleSchema),
  elevationScale: getChoiceSchema(scaleSchema),
});

export const acceptedFindingSchema = z.object({
  code: textSchema,
  by: textSchema,
  date: textSchema,
  sentence: textSchema,
});

export const recordedResultSchema = z.object({
  partId: referenceSchema,
  date: textSchema,
  bow: lengthSchema,
  sidesCut: z.enum(['both', 'one']),
  note: textSchema,
});

export const planLibrarySchema = z.object(shopLists);

/** A plan of the present version. Unknown keys are dropped; say so to the user ({@link findUnknownKeys}). */
export const planSchema = z.object({
  format: z.literal('kerfgrip-plan'),
  version: piecesSchema,
  name: textSchema,
  number: textSchema,
  revision: textSchema,
  author: textSchema,
  date: textSchema,
  notes: notesSchema,
  units: z.enum(['in', 'mm']),
  parts: getJobListSchema(partSchema),
  stock: stockSchema,
  allowance: facesOfLengthSchema,
  laterOperation: getPerFaceSchema(textSchema),
  cleanup: cleanupSchema,
  layout: getChoiceSchema(getJobListSchema(templateSchema)),
  partsPerBlank: getChoiceSchema(piecesSchema),
  holding: holdingSchema,
  release: releaseSchema,
  cuts: getJobListSchema(cutSchema),
  order: orderSchema,
  zero: zeroPointSchema,
  marking: markingSchema,
  sheet: sheetSchema,
  accepted: getJobListSchema(acceptedFindingSchema),
  recorded: getJobListSchema(recordedResultSchema),
  library: planLibrarySchema,
});

/** Compile-time proof that each schema yields the readable interface, no more and no less. */
export const planSchemaProofs: [
  SameType<z.infer<typeof stationSchema>, Station>,
  SameType<z.infer<typeof holeSchema>, Hole>,
  SameType<z.infer<typeof facesOfLengthSchema>, PerFace<number>>,
  SameType<z.infer<typeof partSchema>, Part>,
  SameType<z.infer<typeof stockSchema>, StockChoice>,
  SameType<z.infer<typeof cleanupSchema>, CleanupChoice>,
  SameType<z.infer<typeof slotSchema>, BlankSlot>,
  SameType<z.infer<typeof templateSchema>, BlankTemplate>,
  SameType<z.infer<typeof seatSchema>, SeatChoice>,
  SameType<z.infer<typeof clampSchema>, ClampChoice>,
  SameType<z.infer<typeof holdingSchema>, Holding>,
  SameType<z.infer<typeof tabSchema>, PlacedTab>,
  SameType<z.infer<typeof releaseSchema>, Release>,
  SameType<z.infer<typeof cutSchema>, Cut>,
  SameType<z.infer<typeof spareRuleSchema>, SpareRule>,
  SameType<z.infer<typeof orderSchema>, OrderChoice>,
  SameType<z.infer<typeof zeroPointSchema>, ZeroPoint>,
  SameType<z.infer<typeof markingSchema>, Marking>,
  SameType<z.infer<typeof sheetSchema>, SheetChoice>,
  SameType<z.infer<typeof acceptedFindingSchema>, AcceptedFinding>,
  SameType<z.infer<typeof recordedResultSchema>, RecordedResult>,
  SameType<z.infer<typeof planLibrarySchema>, PlanLibrary>,
  SameType<z.infer<typeof planSchema>, Plan>,
] = [
  ...([true, true, true, true, true, true, true, true, true, true, true] as const),
  ...([true, true, true, true, true, true, true, true, true, true, true, true] as const),
];
