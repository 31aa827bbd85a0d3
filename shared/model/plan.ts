import type { Choice } from './choice';
import type { Face, PerFace } from './faces';
import type { Shop } from './shop';

/** The shop entries a plan uses, copied into it so that it opens the same on another machine. */
export type PlanLibrary = Pick<
  Shop,
  'materials' | 'sizeClasses' | 'bars' | 'vises' | 'jawSets' | 'parallels' | 'tools' | 'holders' | 'saws'
>;

/** One job: parts, stock choice, holding, release, order. Lengths are mm. */
export interface Plan {
  format: 'kerfgrip-plan';
  version: number;
  name: string;
  number: string;
  revision: string;
  author: string;
  /** ISO date as typed by the user, or ''. */
  date: string;
  notes: string;
  units: 'in' | 'mm';
  parts: Part[];
  stock: StockChoice;
  /** Left on each face for later operations, unless a part says otherwise. */
  allowance: PerFace<number>;
  /** Which later operation takes the allowance off each face, in words. */
  laterOperation: PerFace<string>;
  cleanup: CleanupChoice;
  /** Blanks as laid out by the user, or left to the engine. */
  layout: Choice<BlankTemplate[]>;
  /** Parts per blank when the layout is auto. */
  partsPerBlank: Choice<number>;
  holding: Holding;
  release: Release;
  /** Cuts in the order of work. */
  cuts: Cut[];
  order: OrderChoice;
  zero: ZeroPoint;
  marking: Marking;
  sheet: SheetChoice;
  accepted: AcceptedFinding[];
  /** What was measured after the job, for the next plan. */
  recorded: RecordedResult[];
  library: PlanLibrary;
}

export interface Part {
  id: string;
  name: string;
  number: string;
  hand: 'none' | 'left' | 'right';
  quantity: number;
  /** Along X. */
  length: number;
  /** Along Z as held. */
  height: number;
  /** Across Y: the widest the part is. */
  thickness: number;
  /** Width along X where it differs from the full thickness; empty for a plain bar shape. */
  stations: Station[];
  holes: Hole[];
  /** Lengths along X, from the part's left end, where no tab may stand. */
  keepOuts: Span[];
  /** Radius of the tightest inside corner of the profile, seen from above; 0 is sharp, null is none or not known. */
  insideCorner: number | null;
  /** Overrides the plan's allowance where not null. */
  allowance: PerFace<number> | null;
  /** Size limits; matter when the faces are left as supplied. */
  thicknessTolerance: { plus: number; minus: number } | null;
  heightTolerance: { plus: number; minus: number } | null;
  /** Faces that stay as the bar came, not machined in any setup. */
  asSupplied: Face[];
  note: string;
}

export interface Span {
  from: number;
  to: number;
}

/** Width of the part between two lengths along X, measured from the part's left end; linear from `width` to `widthEnd`. */
export interface Station extends Span {
  kind: 'shank' | 'boss' | 'taper' | 'web';
  width: number;
  widthEnd: number;
}

/** A hole in the part. `z` runs from top to bottom (bores, seen from above), `y` runs from side to side (cross holes). */
export interface Hole {
  id: string;
  axis: 'z' | 'y';
  /** Centre along X from the part's left end. */
  x: number;
  /** For a cross hole: centre above the part's bottom. Ignored for a bore. */
  z: number;
  diameter: number;
  /** Elongation along X for a slot; 0 for a round hole. */
  slotLength: number;
  through: boolean;
  /** True when it is made before the piece is cut off. */
  beforeCutOff: boolean;
}

export interface StockChoice {
  materialId: string;
  /** Id of a bar on offer. */
  barId: Choice<string>;
  wayUp: Choice<WayUp>;
  /** Measured size as held and bow of the bar in hand; each wins over the table. */
  measuredHeight: number | null;
  measuredThickness: number | null;
  measuredBow: number | null;
  heatMark: string;
}

export type WayUp = 'onEdge' | 'flat';

export interface CleanupChoice {
  /** Taken off the raw top in this setup. */
  top: number;
  /** Taken off each sawn end. */
  leftEnd: number;
  rightEnd: number;
  /** Least skin to take off each side; auto: by the size class. */
  skinPerSide: Choice<number>;
  /** Distance from the fixed jaw to the part's allowance on that side; auto: part centred in the bar. */
  fromFixedJaw: Choice<number>;
}

/** One kind of blank: the parts on it and how many of it are made. */
export interface BlankTemplate {
  id: string;
  /** Length of the blank; auto: the sum of what is on it. */
  length: Choice<number>;
  count: Choice<number>;
  slots: BlankSlot[];
}

export interface BlankSlot {
  id: string;
  partId: string;
  /** Left end of the finished part from the blank's left end. */
  x: number;
  mirrored: boolean;
}

export type SeatChoice = { kind: 'shelf' } | { kind: 'parallels'; parallelId: string; count: 1 | 2 } | { kind: 'bed' };

export interface Holding {
  viseId: string;
  jawSetId: string;
  viseCount: Choice<number>;
  /** Centre of each vise along X, measured from the stop; ascending. */
  vises: Choice<number[]>;
  seat: Choice<SeatChoice>;
  shelfDepth: Choice<number>;
  /** Block the jaws are closed on while the shelf is milled. */
  spacer: Choice<number>;
  spacerHeight: Choice<number>;
  /** Blank's left end from the stop. */
  blankX: Choice<number>;
  /** Grip wanted; auto: the jaw set's comfortable grip. */
  targetGrip: Choice<number>;
  clamp: ClampChoice;
  /** Surface of the gripped faces; auto: by the size class. */
  grippedSurface: Choice<'ground' | 'machined' | 'asSupplied'>;
  /** Bar faces for the sheet, in words: which goes to the fixed jaw and which down. */
  faceToFixedJaw: string;
  /** How and to what target the vises were lined up, in words. */
  alignmentNote: string;
}

export type ClampChoice =
  | { kind: 'force'; clampForceN: number }
  | { kind: 'torque'; handleTorqueNm: number; nutFactor: number | null };

export interface Release {
  cutterId: Choice<string>;
  clearance: Choice<number>;
  sides: 'both' | 'fixedSide' | 'movingSide';
  keep: Choice<'rib' | 'tabs'>;
  ribTarget: Choice<number>;
  /** Pinned tabs, by part, as positions along the part. */
  tabs: Choice<PlacedTab[]>;
  /** Length of each tab along X. */
  tabLength: Choice<number>;
  /** How the rib is broken and dressed, in words. */
  dressNote: string;
}

export interface PlacedTab {
  partId: string;
  /** Centre of the tab along X from the part's left end. */
  x: number;
}

export type CutKind = 'side' | 'slot' | 'plunge' | 'drill' | 'chamfer' | 'cutOff';

/** One cut of the order of work. Depths and widths are what is asked of one pass. */
export interface Cut {
  id: string;
  name: string;
  kind: CutKind;
  /** Tool id; for the cut-off, '' means the release cutter. */
  toolId: string;
  holderId: string;
  /** Step-down (axial depth) of a pass; for the cut-off the cutter's width rules. */
  stepDown: number;
  /** Side engagement (radial width) of a pass. */
  sideEngagement: number;
  feedPerTooth: number;
  cuttingSpeedMPerMin: number;
  stickOut: Choice<number>;
}

export interface OrderChoice {
  sawId: string;
  squaringTrim: Choice<number>;
  badEnd: Choice<number>;
  stub: Choice<number>;
  /** Drop at least this long is kept as a remnant; auto: the shop's rule. */
  leastRemnant: Choice<number>;
  useRack: boolean;
  spares: SpareRule;
  /** Most distinct cutting patterns; null for no limit. */
  maxPatterns: number | null;
}

export type SpareRule =
  | { kind: 'none' }
  | { kind: 'scrapRate'; scrapRate: number; confidence: number }
  | { kind: 'byLength'; setupPieces: number }
  | { kind: 'pieces'; pieces: number };

export interface ZeroPoint {
  x: 'stop' | 'partLeft' | 'blankLeft';
  y: 'fixedJaw' | 'partCentre';
  z: 'jawTop' | 'partTop' | 'blankTop';
}

export interface Marking {
  text: string;
  place: string;
  method: string;
  when: 'beforeFinishing' | 'afterFinishing' | 'tag';
}

/** Paper of the printed sheet. */
export type PaperSize = 'letter' | 'a4' | 'a3' | 'tabloid';

/** How the sheet is printed. Scales are drawing mm to a mm of paper, 2 for 1:2; auto takes one of the standard series. */
export interface SheetChoice {
  paper: Choice<PaperSize>;
  /** The end section and the height stack of page one. */
  sectionScale: Choice<number>;
  elevationScale: Choice<number>;
}

/** A finding the user has accepted, with its numbers at that time. `code` is the finding's key. */
export interface AcceptedFinding {
  code: string;
  by: string;
  date: string;
  sentence: string;
}

export interface RecordedResult {
  partId: string;
  date: string;
  bow: number;
  sidesCut: 'both' | 'one';
  note: string;
}
