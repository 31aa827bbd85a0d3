import { z } from 'zod';
import type { RuleEntry, RuleKey, Rules } from './rules';
import { RULE_BOOK } from './rules';
import type { SameType } from './same-type';
import {
  amountSchema,
  countSchema,
  fractionSchema,
  getListSchema,
  idSchema,
  lengthSchema,
  piecesSchema,
  positiveSchema,
  referenceSchema,
  sizeSchema,
  textSchema,
} from './schema-fields';
import type {
  BarLength,
  BarOffer,
  BowMeasurement,
  Holder,
  JawBolts,
  JawSet,
  Machine,
  Material,
  ParallelPair,
  Remnant,
  Saw,
  Shop,
  SizeBand,
  SizeClass,
  Tool,
  Vise,
  ViseScrew,
} from './shop';

export const machineSchema = z.object({
  name: textSchema,
  tableLength: sizeSchema,
  tableWidth: sizeSchema,
  travelX: sizeSchema,
  travelY: sizeSchema,
  spindleToTable: sizeSchema,
  spindlePowerKw: positiveSchema,
  maxSpindleRpm: positiveSchema,
  tSlotPitch: lengthSchema,
  source: textSchema,
});

export const materialSchema = z.object({
  id: idSchema,
  name: textSchema,
  designation: textSchema,
  metalGroup: z.enum([
    'lowCarbonSteel',
    'carbonSteel',
    'alloySteel',
    'stainless',
    'aluminium',
    'copperAlloy',
    'castIron',
    'titanium',
  ]),
  densityKgM3: positiveSchema,
  youngsModulusMPa: positiveSchema,
  yieldStrengthMPa: positiveSchema,
  tensileStrengthMPa: positiveSchema,
  kienzle: z.object({
    family: z.enum(['vdi3323', 'germanTextbook']),
    kc11MPa: positiveSchema,
    mc: fractionSchema,
    source: textSchema,
  }),
  jawFrictionFactor: z.number().gt(0).max(10),
  source: textSchema,
});

export const surfaceStateSchema = z.enum(['drawn', 'rolled', 'sawn', 'ground', 'milled']);

export const sizeBandSchema = z.object({
  over: lengthSchema,
  upTo: sizeSchema,
  minus: lengthSchema,
  plus: lengthSchema,
});

export const sizeClassSchema = z.object({
  id: idSchema,
  name: textSchema,
  standard: textSchema,
  form: z.enum(['coldFinished', 'hotRolled', 'ground', 'extruded', 'measured']),
  surface: surfaceStateSchema,
  widthBands: getListSchema(sizeBandSchema),
  thicknessBands: getListSchema(sizeBandSchema),
  bandBy: z.enum(['each', 'width']),
  skinBands: getListSchema(z.object({ upTo: sizeSchema, skin: lengthSchema })),
  cornerBands: getListSchema(z.object({ upTo: sizeSchema, radius: lengthSchema })),
  straightness: z.object({ perLength: fractionSchema, bow: lengthSchema, overLength: sizeSchema, source: textSchema }),
  source: textSchema,
});

export const barLengthSchema = z.object({
  id: idSchema,
  length: sizeSchema,
  price: amountSchema.nullable(),
  stocked: z.boolean(),
  quantity: countSchema.nullable(),
});

export const barOfferSchema = z.object({
  id: idSchema,
  name: textSchema,
  materialId: referenceSchema,
  sizeClassId: referenceSchema,
  width: sizeSchema,
  thickness: sizeSchema,
  priceBasis: z.enum(['piece', 'length', 'weight']),
  lengths: getListSchema(barLengthSchema),
  measured: z.object({ width: sizeSchema, thickness: sizeSchema }).nullable(),
  source: textSchema,
});

export const remnantSchema = z.object({
  id: idSchema,
  materialId: referenceSchema,
  sizeClassId: referenceSchema,
  width: sizeSchema,
  thickness: sizeSchema,
  length: sizeSchema,
  quantity: countSchema,
  worth: amountSchema,
  heatMark: textSchema,
  note: textSchema,
});

const frictionSchema = z.number().min(0).max(2);

export const viseScrewSchema = z.object({
  nominalDiameter: sizeSchema,
  meanDiameter: sizeSchema,
  lead: sizeSchema,
  threadHalfAngleDeg: z.number().min(0).max(60),
  threadFriction: frictionSchema,
  collarFriction: frictionSchema,
  collarMeanDiameter: lengthSchema,
  source: textSchema,
});

export const viseSchema = z.object({
  id: idSchema,
  name: textSchema,
  jawWidth: sizeSchema,
  jawHeight: sizeSchema,
  bedHeight: lengthSchema,
  maxOpening: sizeSchema,
  bodyLength: sizeSchema,
  bodyWidth: sizeSchema,
  fixedJawSetback: lengthSchema,
  maxClampForceN: positiveSchema,
  screw: viseScrewSchema,
  movingJawCannotCock: z.boolean(),
  source: textSchema,
});

export const jawBoltsSchema = z.object({
  thread: textSchema,
  spacing: lengthSchema,
  centreHeight: lengthSchema,
  counterboreDiameter: lengthSchema,
  counterboreDepth: lengthSchema,
});

export const jawSetSchema = z.object({
  id: idSchema,
  name: textSchema,
  face: z.enum(['smooth', 'serrated', 'toothed', 'soft']),
  thickness: sizeSchema,
  height: sizeSchema.nullable(),
  millable: z.boolean(),
  bolts: jawBoltsSchema.nullable(),
  leastFlatGrip: lengthSchema,
  comfortableGrip: lengthSchema,
  maxProudToGrip: z.number().gt(0).max(1000),
  maxProudToThickness: z.number().gt(0).max(1000),
  friction: z.object({ ground: frictionSchema, machined: frictionSchema, asSupplied: frictionSchema }),
  yieldStrengthMPa: positiveSchema,
  source: textSchema,
});

export const parallelSchema = z.object({
  id: idSchema,
  height: sizeSchema,
  thickness: sizeSchema,
  length: sizeSchema,
  count: z.number().int().min(1).max(100),
});

const toolCommon = {
  id: idSchema,
  number: textSchema,
  name: textSchema,
  toolMaterial: z.enum(['carbide', 'hss']),
  diameter: sizeSchema,
  flutes: z.number().int().min(1).max(1000),
  shankDiameter: sizeSchema,
  overallLength: sizeSchema,
  wearFactor: z.number().gt(0).max(10),
  coatingFactor: z.number().gt(0).max(10),
  source: textSchema,
};

export const toolSchema = z.discriminatedUnion('kind', [
  z.object({
    kind: z.literal('endMill'),
    ...toolCommon,
    helixDeg: z.number().min(0).max(75),
    fluteLength: sizeSchema,
    cornerRadius: lengthSchema,
    neck: z.object({ diameter: sizeSchema, length: lengthSchema }).nullable(),
  }),
  z.object({
    kind: z.literal('keySeat'),
    ...toolCommon,
    width: sizeSchema,
    neckDiameter: sizeSchema,
    neckLength: lengthSchema,
    keyNumber: textSchema,
  }),
  z.object({
    kind: z.literal('slittingSaw'),
    ...toolCommon,
    width: sizeSchema,
    flangeDiameter: sizeSchema,
    arborLength: lengthSchema,
    // Files from before it was asked for say nothing of it.
    screwHeight: lengthSchema.default(0),
  }),
  z.object({
    kind: z.literal('drill'),
    ...toolCommon,
    pointAngleDeg: z.number().gt(0).max(180),
    fluteLength: sizeSchema,
  }),
]);

export const holderSchema = z.object({
  id: idSchema,
  name: textSchema,
  noseDiameter: sizeSchema,
  noseLength: lengthSchema,
  bodyDiameter: sizeSchema,
  source: textSchema,
});

export const sawSchema = z.object({
  id: idSchema,
  name: textSchema,
  kerf: lengthSchema,
  lengthPlus: lengthSchema,
  lengthMinus: lengthSchema,
  stub: lengthSchema,
  squaringTrim: lengthSchema,
  badEnd: lengthSchema,
  areaRateMm2PerMin: positiveSchema,
  source: textSchema,
});

export const bowMeasurementSchema = z.object({
  id: idSchema,
  date: textSchema,
  materialId: referenceSchema,
  sizeClassId: referenceSchema,
  length: sizeSchema,
  height: sizeSchema,
  bow: lengthSchema,
  sidesCut: z.enum(['both', 'one']),
  note: textSchema,
});

function getRulesShape(): Record<RuleKey, z.ZodNumber> {
  const entries = Object.entries<RuleEntry>(RULE_BOOK).map(([key, { least, most }]) => [
    key,
    z.number().min(least).max(most),
  ]);
  return Object.fromEntries(entries) as Record<RuleKey, z.ZodNumber>;
}

export const rulesSchema = z.object(getRulesShape());

const RACK_LIMIT = 100_000;

/** The shop's lists, shared with the copies a plan carries. */
export const shopLists = {
  materials: getListSchema(materialSchema),
  sizeClasses: getListSchema(sizeClassSchema),
  bars: getListSchema(barOfferSchema),
  vises: getListSchema(viseSchema),
  jawSets: getListSchema(jawSetSchema),
  parallels: getListSchema(parallelSchema),
  tools: getListSchema(toolSchema),
  holders: getListSchema(holderSchema),
  saws: getListSchema(sawSchema),
};

/** A shop file of the present version. Unknown keys are dropped; say so to the user ({@link findUnknownKeys}). */
export const shopSchema = z.object({
  format: z.literal('kerfgrip-shop'),
  version: piecesSchema,
  name: textSchema,
  currency: z.string().max(20),
  machine: machineSchema,
  materials: shopLists.materials,
  sizeClasses: shopLists.sizeClasses,
  bars: shopLists.bars,
  rack: getListSchema(remnantSchema, RACK_LIMIT),
  vises: shopLists.vises,
  jawSets: shopLists.jawSets,
  parallels: shopLists.parallels,
  tools: shopLists.tools,
  holders: shopLists.holders,
  saws: shopLists.saws,
  bowMeasurements: getListSchema(bowMeasurementSchema),
  rules: rulesSchema,
});

/** Compile-time proof that each schema yields the readable interface, no more and no less. */
export const shopSchemaProofs: [
  SameType<z.infer<typeof machineSchema>, Machine>,
  SameType<z.infer<typeof materialSchema>, Material>,
  SameType<z.infer<typeof sizeBandSchema>, SizeBand>,
  SameType<z.infer<typeof sizeClassSchema>, SizeClass>,
  SameType<z.infer<typeof barLengthSchema>, BarLength>,
  SameType<z.infer<typeof barOfferSchema>, BarOffer>,
  SameType<z.infer<typeof remnantSchema>, Remnant>,
  SameType<z.infer<typeof viseScrewSchema>, ViseScrew>,
  SameType<z.infer<typeof viseSchema>, Vise>,
  SameType<z.infer<typeof jawBoltsSchema>, JawBolts>,
  SameType<z.infer<typeof jawSetSchema>, JawSet>,
  SameType<z.infer<typeof parallelSchema>, ParallelPair>,
  SameType<z.infer<typeof toolSchema>, Tool>,
  SameType<z.infer<typeof holderSchema>, Holder>,
  SameType<z.infer<typeof sawSchema>, Saw>,
  SameType<z.infer<typeof bowMeasurementSchema>, BowMeasurement>,
  SameType<z.infer<typeof rulesSchema>, Rules>,
  SameType<z.infer<typeof shopSchema>, Shop>,
] = [true, true, true, true, true, true, true, true, true, true, true, true, true, true, true, true, true, true];
