import type { Rules } from './rules';

/**
 * The shop: the user's own library. Every entry is editable and carries the source of its figures.
 * Lengths are mm; anything else carries its unit in its name.
 */
export interface Shop {
  format: 'kerfgrip-shop';
  version: number;
  name: string;
  /** Label printed beside money, such as "USD"; never converted. */
  currency: string;
  machine: Machine;
  materials: Material[];
  sizeClasses: SizeClass[];
  bars: BarOffer[];
  rack: Remnant[];
  vises: Vise[];
  jawSets: JawSet[];
  parallels: ParallelPair[];
  tools: Tool[];
  holders: Holder[];
  saws: Saw[];
  bowMeasurements: BowMeasurement[];
  rules: Rules;
}

export interface Machine {
  name: string;
  tableLength: number;
  tableWidth: number;
  travelX: number;
  travelY: number;
  /** Greatest distance from the table to the spindle nose. */
  spindleToTable: number;
  spindlePowerKw: number;
  maxSpindleRpm: number;
  /** Distance between T-slots; 0 when there are none. */
  tSlotPitch: number;
  source: string;
}

/** What the size class and the straightness tables need to know of a metal. */
export type MetalGroup =
  | 'lowCarbonSteel'
  | 'carbonSteel'
  | 'alloySteel'
  | 'stainless'
  | 'aluminium'
  | 'copperAlloy'
  | 'castIron'
  | 'titanium';

export interface Material {
  id: string;
  name: string;
  /** Standard or trade designation, such as "42CrMo4 / 4140, annealed". */
  designation: string;
  metalGroup: MetalGroup;
  densityKgM3: number;
  youngsModulusMPa: number;
  yieldStrengthMPa: number;
  tensileStrengthMPa: number;
  /** Specific cutting force at 1 mm chip thickness and its exponent; two families of constants differ by 40-60 %, so the family is named. */
  kienzle: { family: 'vdi3323' | 'germanTextbook'; kc11MPa: number; mc: number; source: string };
  /** Multiplier on jaw friction for this metal; 1 for steel. */
  jawFrictionFactor: number;
  source: string;
}

/** How the surface of a bar face was made; decides jaw friction and fitness for smooth jaws. */
export type SurfaceState = 'drawn' | 'rolled' | 'sawn' | 'ground' | 'milled';

/** A size band: applies over `over` up to and including `upTo`. */
export interface SizeBand {
  over: number;
  upTo: number;
  /** Lower deviation as a positive length (size may be this much under nominal). */
  minus: number;
  /** Upper deviation (size may be this much over nominal). */
  plus: number;
}

export interface SizeClass {
  id: string;
  name: string;
  standard: string;
  form: 'coldFinished' | 'hotRolled' | 'ground' | 'extruded' | 'measured';
  surface: SurfaceState;
  widthBands: SizeBand[];
  thicknessBands: SizeBand[];
  /** `width`: the band found by width applies to thickness as well; `each`: each dimension by its own band. */
  bandBy: 'each' | 'width';
  /** Least skin to machine off each surface, by the size across that surface; empty when none is asked. */
  skinBands: { upTo: number; skin: number }[];
  /** Largest corner radius by thickness; empty for square corners. */
  cornerBands: { upTo: number; radius: number }[];
  /** Straightness as delivered: bow proportional to length, and the bow at a reference length that scales with its square. */
  straightness: { perLength: number; bow: number; overLength: number; source: string };
  source: string;
}

export type PriceBasis = 'piece' | 'length' | 'weight';

/** One section of bar that can be bought. `width` is the larger side. */
export interface BarOffer {
  id: string;
  name: string;
  materialId: string;
  sizeClassId: string;
  width: number;
  thickness: number;
  priceBasis: PriceBasis;
  lengths: BarLength[];
  /** Measured size of the bar in hand; wins over the size class. */
  measured: { width: number; thickness: number } | null;
  source: string;
}

export interface BarLength {
  id: string;
  length: number;
  /** Per bar (`piece`), per metre (`length`) or per kg (`weight`), in the shop's currency; null when not known. */
  price: number | null;
  stocked: boolean;
  /** How many can be had; null for as many as wanted. */
  quantity: number | null;
}

/** A piece of bar on the rack. */
export interface Remnant {
  id: string;
  materialId: string;
  sizeClassId: string;
  width: number;
  thickness: number;
  length: number;
  quantity: number;
  /** What one piece is worth to the shop, in its currency. */
  worth: number;
  heatMark: string;
  note: string;
}

export interface Vise {
  id: string;
  name: string;
  jawWidth: number;
  /** Jaw tops above the vise bed, with the jaws the vise came with. */
  jawHeight: number;
  /** Vise bed above the table. */
  bedHeight: number;
  maxOpening: number;
  /** Footprint along X. */
  bodyLength: number;
  /** Footprint along Y, and where the fixed jaw's face sits from the body's edge on the fixed side. */
  bodyWidth: number;
  fixedJawSetback: number;
  /** Largest clamp force the vise may be driven to. */
  maxClampForceN: number;
  screw: ViseScrew;
  /** True when the moving jaw is guided so that it cannot cock; then both faces may count against tipping. */
  movingJawCannotCock: boolean;
  source: string;
}

export interface ViseScrew {
  nominalDiameter: number;
  meanDiameter: number;
  /** Travel per turn (pitch × starts). */
  lead: number;
  /** Half the thread angle: 0 square, 14.5 Acme, 15 trapezoidal. */
  threadHalfAngleDeg: number;
  threadFriction: number;
  collarFriction: number;
  collarMeanDiameter: number;
  source: string;
}

export type JawFace = 'smooth' | 'serrated' | 'toothed' | 'soft';

/** A pair of jaws. The limits belong to the face: what is too little grip for a smooth jaw is plenty for a toothed one. */
export interface JawSet {
  id: string;
  name: string;
  face: JawFace;
  /** Plate thickness across Y. */
  thickness: number;
  /** Jaw tops above the vise bed; null for the vise's own height. */
  height: number | null;
  /** True when a shelf may be milled into it. */
  millable: boolean;
  bolts: JawBolts | null;
  leastFlatGrip: number;
  /** Grip at or above which the jaw is comfortable; between least and this is a check. */
  comfortableGrip: number;
  maxProudToGrip: number;
  maxProudToThickness: number;
  /** Coefficients of friction by the surface gripped: ground or finely machined, machined, as supplied. */
  friction: { ground: number; machined: number; asSupplied: number };
  yieldStrengthMPa: number;
  source: string;
}

export interface JawBolts {
  /** Thread of the socket-head screw, a key of the head table (`M10`, `3/8` …). */
  thread: string;
  spacing: number;
  /** Bolt centre above the vise bed. */
  centreHeight: number;
  counterboreDiameter: number;
  /** Depth of the counterbore from the gripping face. */
  counterboreDepth: number;
}

export interface ParallelPair {
  id: string;
  height: number;
  thickness: number;
  length: number;
  /** 2 for a pair, 1 for a single. */
  count: number;
}

export type ToolMaterial = 'carbide' | 'hss';

interface ToolCommon {
  id: string;
  /** Tool number as on the machine, such as "T3". */
  number: string;
  name: string;
  toolMaterial: ToolMaterial;
  /** Measured diameter. */
  diameter: number;
  flutes: number;
  shankDiameter: number;
  overallLength: number;
  /** Force multiplier for wear, 1 sharp; 1.3 is a usual worn tool. */
  wearFactor: number;
  /** What a coating changes in force: 1, kept apart from wear. */
  coatingFactor: number;
  source: string;
}

export interface EndMill extends ToolCommon {
  kind: 'endMill';
  helixDeg: number;
  fluteLength: number;
  cornerRadius: number;
  /** Relieved neck above the flutes; null when the shank follows directly. */
  neck: { diameter: number; length: number } | null;
}

/** Key-seat cutter: a short wide head on a neck. Diameter and width are measured, they may be over nominal. */
export interface KeySeatCutter extends ToolCommon {
  kind: 'keySeat';
  width: number;
  neckDiameter: number;
  /** Length of the neck from the head's upper face to the shank. */
  neckLength: number;
  /** Number by the ASME B17.2 rule where there is one, else ''. */
  keyNumber: string;
}

/** Slitting saw on an arbor: the flange is its neck. */
export interface SlittingSaw extends ToolCommon {
  kind: 'slittingSaw';
  width: number;
  flangeDiameter: number;
  /** Length of arbor between saw and holder. */
  arborLength: number;
  /** How far screw and washer stand out below the saw, over the jaws; 0 for a flush one. */
  screwHeight: number;
}

export interface Drill extends ToolCommon {
  kind: 'drill';
  pointAngleDeg: number;
  fluteLength: number;
}

export type Tool = EndMill | KeySeatCutter | SlittingSaw | Drill;
export type CutOffCutter = KeySeatCutter | SlittingSaw;

export interface Holder {
  id: string;
  name: string;
  noseDiameter: number;
  /** Length of the nose at that diameter before the holder widens. */
  noseLength: number;
  bodyDiameter: number;
  source: string;
}

export interface Saw {
  id: string;
  name: string;
  /** Measured width of cut. */
  kerf: number;
  /** What a sawn blank may be over and under its length. */
  lengthPlus: number;
  lengthMinus: number;
  /** Length of bar the saw cannot hold for a cut. */
  stub: number;
  /** First cut that squares the bar's end, kerf included. */
  squaringTrim: number;
  /** Bad mill end at each end of a new bar. */
  badEnd: number;
  /** Sawing rate through a section, for the comparison with milling the piece off. */
  areaRateMm2PerMin: number;
  source: string;
}

/** What the shop saw a part do when it was released. */
export interface BowMeasurement {
  id: string;
  date: string;
  materialId: string;
  sizeClassId: string;
  length: number;
  height: number;
  bow: number;
  /** Faces that had metal taken off before release. */
  sidesCut: 'both' | 'one';
  note: string;
}
