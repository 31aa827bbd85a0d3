import type { PerFace } from '../model/faces';
import type { ClampChoice, CutKind, SeatChoice, WayUp } from '../model/plan';
import type { SurfaceState } from '../model/shop';
import type { Decided, Figure, Limits } from './figure';

/** The bar as held: height along Z, thickness across Y. */
export interface SectionResult {
  barId: Decided<string>;
  wayUp: Decided<WayUp>;
  name: string;
  sizeClassId: string;
  height: Limits;
  thickness: Limits;
  /** `measured` when either side was measured, else `class`. */
  sizeFrom: 'class' | 'measured';
  cornerRadius: number;
  skinPerSide: Decided<number>;
  /** Least skin to machine off the raw top, by the size class; 0 when none is asked. */
  skinTop: number;
  surface: 'ground' | 'machined' | 'asSupplied';
  /** How the bar's own faces were made. */
  surfaceState: SurfaceState;
  /** Mass of the bar per metre of length. */
  massKgPerM: number;
}

/** One slice of the height stack, from the top down. */
export interface StackSlice {
  kind: 'cleanup' | 'allowanceTop' | 'part' | 'allowanceBottom' | 'kerf' | 'clearance' | 'grip';
  label: string;
  height: number;
  /** Z of the slice's upper face; 0 at the jaw tops. */
  zTop: number;
}

/** The stack of one blank, for the tallest part on it. */
export interface StackResult {
  governingPartId: string;
  slices: StackSlice[];
  /** What must stand above the jaws: everything but the grip. */
  needAboveJaws: number;
  /** Bar height less what must stand above the jaws, before the seat is rounded: at nominal, smallest and largest bar. */
  availableGrip: Limits;
  /** Grip the blank must get: pinned, else the jaw's least flat grip and the corner radius. */
  gripAsked: number;
  /** Grip as seated. `least`: with the smallest bar the part's own stack is kept; see `shortBy`. */
  grip: Limits;
  proudHeight: Limits;
  /** Gap from jaw tops to the cutter's lower face as seated. */
  clearance: number;
  /** Positive when the smallest bar cannot hold the stack and the grip asked. */
  shortBy: number;
  /** Z of part bottom (finished). */
  partBottomZ: number;
  partTopZ: number;
  gripFigure: Figure;
  proudFigure: Figure;
}

export interface AcrossResult {
  partId: string;
  /** Positive when the thinnest bar is too thin by so much. */
  shortBy: number;
  /** Positive when the sides stay as supplied and the thickest bar is over the part's size limit by so much. */
  overBy: number;
  need: number;
  /** Bow of the bar that was counted, mm. */
  bow: number;
  /** Y of the part's fixed-side finished face from the fixed jaw, nominal bar. */
  partFromFixedJaw: number;
  cleanup: { fixedSide: number; movingSide: number };
  oneSided: boolean;
  why: Figure;
}

export interface PlacedPart {
  slotId: string;
  partId: string;
  /** Left end of finished part from the blank's left end, and its right end. */
  x: number;
  xEnd: number;
  mirrored: boolean;
  /** Clash with a neighbour, an end or the blank's limits, in words; '' when well. */
  clash: string;
}

export interface Contact {
  viseIndex: number;
  /** Contact span along X from the stop. */
  from: number;
  to: number;
}

export interface BlankResult {
  templateId: string;
  label: string;
  count: number;
  length: number;
  /** Length of the same parts set as tight as the gaps allow; the length when auto. */
  tightLength: number;
  parts: PlacedPart[];
  /** Blank's left end from the stop, and right end. */
  x: number;
  xEnd: number;
  stack: StackResult;
  /** Where vises touch the blank. */
  contacts: Contact[];
  contactLength: number;
  overhangLeft: number;
  overhangRight: number;
  largestGap: number;
  /** Longest overhang within the deflection limit. */
  longestLegalOverhang: Figure;
  hold: HoldResult;
  deflection: DeflectionResult;
  massKg: number;
}

export interface GangRow {
  partId: string;
  partsPerBlank: number;
  blankLength: number;
  /** For the longest bar length considered. */
  blanksPerBar: number;
  partsPerBar: number;
  drop: number;
  /** Vises needed to hold it. */
  vises: number;
  fits: boolean;
  /** Why not, or ''. */
  reason: string;
}

export interface SeatResult {
  choice: Decided<SeatChoice>;
  /** Grip the seat gives. */
  grip: number;
  shelfDepth: Decided<number>;
  deepestLegalShelf: Figure;
  /** What limits it: floor, counterbore, head or jaw. */
  deepestLimitedBy: string;
  spacer: Decided<number>;
  spacerHeight: Decided<number>;
  ledge: Figure;
  wallBehind: number;
  /** Face of the screw heads from the gripping face; null when the jaw has no screws there. */
  headFace: number | null;
  /** True when the ledge reaches the screw heads at a height where they stand. */
  reachesHead: boolean;
  /** Jaw height above bed in force. */
  jawHeight: number;
  /** Parallels in the drawer and what each would do. */
  parallels: ParallelRow[];
  /** Next lower and higher set than wanted, and the grip each gives; null when there is none. */
  nextLower: { parallelId: string; height: number; grip: number } | null;
  nextHigher: { parallelId: string; height: number; grip: number } | null;
  /** Shim that would make the next lower pair serve, 0 when none is needed. */
  shim: { parallelId: string; least: number; most: number } | null;
  flatGrip: number;
  /** Grip aimed at: pinned, else the jaw's comfortable grip. */
  targetGrip: Decided<number>;
  /** Most grip the smallest bar leaves under the tallest stack; negative when it is short. */
  mostGrip: number;
  /** Metal under the part's bottom before a drill meets the seat. */
  stumpHeight: number;
  /** Through-holes whose mouth lies over what carries the bar. */
  holesOverSupport: { partId: string; holeId: string }[];
}

export interface ParallelRow {
  parallelId: string;
  height: number;
  thickness: number;
  /** How many of them would be used: two where they go in the bar's width, else one. */
  count: 1 | 2;
  grip: number;
  fits: boolean;
  reason: string;
}

export interface VisesResult {
  count: Decided<number>;
  centres: Decided<number[]>;
  /** Clash between bodies or with the table, in words; '' when well. */
  clash: string;
  clampForceN: Figure;
  /** Clamp force counted on after scatter. */
  countedClampForceN: number;
}

export interface CutForceResult {
  cutId: string;
  name: string;
  kind: CutKind;
  toolId: string;
  feasible: boolean;
  engagementAngleRad: number;
  meanChip: number;
  specificForceMPa: number;
  tangentialForceN: number;
  sideForceN: Figure;
  liftForceN: number;
  powerKw: Figure;
  torqueNm: number;
  spindleRpm: number;
  feedMmPerMin: number;
  /** Height of the load above the jaw tops for the blank where it is worst. */
  loadHeight: number;
}

export interface HoldRow {
  cutId: string;
  slipFactor: Figure;
  tipFactor: Figure;
  /** Against being pulled up out of the jaws; as good as unlimited for a cut that does not lift. */
  liftFactor: Figure;
  /** Lowest of the three. */
  factor: number;
  /** True when the grip starts to open at the fixed jaw (N g / 6). */
  opens: boolean;
  /** Factor against that opening. */
  openingFactor: number;
  /** Height of this cut's load above the jaw tops on this blank. */
  loadHeight: number;
}

export interface HoldResult {
  rows: HoldRow[];
  weakest: { cutId: string; factor: Figure; by: 'slip' | 'tip' | 'lift' } | null;
  jawPressureMPa: Figure;
  jawPressureAllowedMPa: number;
  /** At most three changes that help most, best first, on the blank that holds least; none when its hold is comfortable. */
  remedies: Remedy[];
}

export interface Remedy {
  sentence: string;
  /** Lowest hold factor of the blank once the change is made, the bar and the blanks otherwise as they are. */
  factor: number;
  change: RemedyChange;
}

/** What a remedy changes, in terms of the plan. */
export type RemedyChange =
  | { kind: 'grip'; targetGrip: number }
  | { kind: 'stepDown'; cuts: { cutId: string; stepDown: number }[] }
  | { kind: 'passDepth'; cuts: { cutId: string; sideEngagement: number }[] }
  | { kind: 'jawSet'; jawSetId: string; grip: number }
  | { kind: 'clamp'; clamp: ClampChoice }
  | { kind: 'vises'; count: number }
  | { kind: 'bar'; barId: string; wayUp: WayUp };

export interface DeflectionResult {
  proudWall: Figure;
  overhang: Figure;
  betweenVises: Figure;
  worst: Figure;
}

export interface ReleaseResult {
  cutterId: Decided<string>;
  clearance: Decided<number>;
  ribTarget: Decided<number>;
  keep: Decided<'rib' | 'tabs'>;
  /** Largest radial depth the cutter reaches beside the work. */
  reach: Figure;
  /** Depth taken from each side at the full width. */
  depthPerSide: Figure;
  parts: RibResult[];
  /** Milling the piece off beside sawing it off. */
  cutOffMinutes: Figure;
  sawMinutes: Figure;
}

export interface RibResult {
  partId: string;
  narrowest: { rib: number; x: number };
  widest: { rib: number; x: number };
  widestFigure: Figure;
  /** Rib along the part, for drawing: rib thickness at breakpoints of the width profile, 0 where cut through. */
  profile: { x: number; width: number; rib: number }[];
  /** Length of rib along X that carries. */
  ribLength: number;
  tabs: { x: number; from: number; to: number }[];
  tabsFrom: 'auto' | 'pinned' | 'none';
  /** False when tabs cannot keep their spans, ends and keep-outs, or a pinned row does not. True for a rib. */
  tabsOk: boolean;
  shearStrengthN: number;
  bendingStressNowMPa: Figure;
  allowedStressMPa: number;
  /** Stress under each cut planned after the cut-off. */
  later: { cutId: string; stressMPa: Figure; ok: boolean; ribNeeded: number }[];
  snapForceN: Figure;
  snapBy: 'falls off' | 'hand' | 'mallet' | 'pry' | 'will not snap';
}

export interface AllowanceRow {
  partId: string;
  face: keyof PerFace<number>;
  left: number;
  worstCase: number;
  rootSumSquare: number;
  terms: AllowanceTerm[];
  ok: boolean;
  /** True where nothing is left for later: the face is finished in this setup and is not judged. */
  finishedHere: boolean;
}

export interface AllowanceTerm {
  /** `curl` stands in the bow's place where metal comes off one side only. */
  cause: 'bow' | 'curl' | 'springBack' | 'locating' | 'workBending' | 'toolBending' | 'leastCut';
  name: string;
  value: number;
  /** True for what is always taken, such as the least finishing cut; such terms add up, the others average out. */
  isFixed: boolean;
}

export interface BowResult {
  partId: string;
  bow: Figure;
  assumed: boolean;
  /** How many of the shop's own measurements speak for this metal. */
  measurements: number;
  /** Lowest and highest of the shop's own measurements, scaled to this part. */
  spread: { least: number; most: number } | null;
  straightness: Figure;
  /** Force that pulls a bent bar straight in the vises; 0 with a single vise. */
  forcedStraightN: Figure;
  /** Bow that comes back over the part once such a bar is let go. */
  springBack: number;
  forcedStressMPa: number;
}

export interface ReachResult {
  cutId: string;
  toolId: string;
  stickOut: Decided<number>;
  needStickOut: number;
  /** Furthest the tool can stick out with enough shank held. */
  mostStickOut: number;
  ratio: Figure;
  ratioComfort: number;
  ratioLimit: number;
  deflection: Figure;
  stepDowns: number;
  /** Clash of holder, shank or neck with work or jaws, in words; '' when well. */
  clash: string;
  /** Gap between holder nose and the highest metal beside it. */
  holderGap: number;
  /** '' when the cut names no holder. */
  holderId: string;
  /** Z of the tip at its lowest and of the holder's nose then; 0 at the jaw tops. */
  tipZ: number;
  noseZ: number;
  /** Distance of the tool's axis from the side of the work; under 0 it stands over the work. */
  axisFromWork: number;
  /** Depth of wall that runs along a plain shank above the flutes; 0 where flutes or a relieved neck pass it. */
  beyondFlutes: number;
}

export interface SparesRow {
  partId: string;
  ordered: number;
  spares: number;
  make: number;
  blanks: number;
  /** Parts that come out of the blanks, after rounding up. */
  made: number;
  chanceOfEnough: Figure | null;
  why: Figure;
}

export interface CutListLine {
  /** Order in which a person saws. */
  sequence: number;
  barIndex: number;
  kind: 'trim' | 'blank' | 'partBlank' | 'drop' | 'badEnd';
  blankTemplateId: string;
  label: string;
  length: number;
  from: number;
  to: number;
  kerf: number;
}

export interface BarUse {
  barIndex: number;
  /** How many bars are cut to this same pattern. */
  times: number;
  lengthId: string;
  kind: 'new' | 'remnant';
  length: number;
  cost: number;
  lines: CutListLine[];
  drop: number;
  dropIsRemnant: boolean;
  zeroMargin: boolean;
  /** By how much all blanks of this bar together could grow, mm. */
  margin: number;
  cuts: number;
}

/** One thing an order was worked out in spite of. */
export interface OrderProblem {
  code: 'price-missing' | 'bar-used-up-by-ends' | 'too-many-patterns';
  /** The length of bar or remnant it is about; '' for the whole order. */
  lengthId: string;
  sentence: string;
}

export interface OrderResult {
  bars: BarUse[];
  /** Bars to buy, by length. */
  purchase: {
    barId: string;
    lengthId: string;
    length: number;
    count: number;
    unitCost: number | null;
    cost: number | null;
  }[];
  cost: Figure | null;
  priceKnown: boolean;
  /** No order can cost less, whatever the sizes of blank that are left open. */
  bound: number | null;
  /** The cost is the bound. */
  proven: boolean;
  /** No cheaper way to cut these very blanks exists. */
  provenForBlanks: boolean;
  /** What is amiss with the bars on offer or the limits set, though an order is worked out all the same. */
  problems: OrderProblem[];
  /** Blanks no bar takes; `reason` ends the sentence. */
  unplaced: { blankTemplateId: string; label: string; count: number; reason: string }[];
  yieldByLength: Figure;
  yieldToBlank: Figure;
  yieldToPart: Figure;
  massKg: Figure;
  totalBars: number;
  /** Times a blank is put in the vises. */
  loads: number;
  /** What the fewest loads would take where the sizes of blanks are open and that is fewer than now; else null. */
  fewestLoads: { loads: number; cost: number | null; bars: number } | null;
}

/** One row of the comparison of sections. */
export interface SectionRow {
  barId: string;
  wayUp: WayUp;
  name: string;
  height: number;
  thickness: number;
  fitsNominal: boolean;
  fitsWorst: boolean;
  reason: string;
  grip: number;
  gripLeast: number;
  seat: string;
  shelfDepth: number;
  holdFactor: number | null;
  cost: number | null;
  massKg: number | null;
  yieldToPart: number | null;
  bars: number | null;
  proven: boolean;
  verdict: 'stop' | 'check' | 'good';
  weakest: string;
  chosen: boolean;
  /** True when another row is no dearer and grips no less. */
  dominated: boolean;
}
