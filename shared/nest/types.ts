/**
 * What goes into and comes out of the nesting of blanks into bars.
 *
 * Every length is an exact integer in nanometres, every amount of money an exact integer in the currency's
 * minor unit, so nothing here is ever rounded. A 20 m bar is 2e10 nm, far inside what a double holds exactly.
 */

/** One size a blank of some demand may have. */
export interface BlankChoice {
  /** Parts in a row on this blank, 1 or more. */
  readonly partsPerBlank: number;
  /** Sawn length of the blank, nm, over 0. */
  readonly lengthNm: number;
}

/** A number of parts wanted. A plain piece has one choice with one part per blank; a ganged one has several. */
export interface NestDemand {
  readonly id: string;
  /** Parts wanted, spares included; integer, 1 or more. */
  readonly parts: number;
  /** The blank sizes that may carry them; which are used, and how many of each, is part of what is optimised. */
  readonly choices: readonly BlankChoice[];
}

/** How the two ends of a bar are treated; all nm, 0 or more. */
export interface BarEnds {
  /** Length sawn off the left end to get a square face; its cut costs a kerf on top. 0 = end used as it is. */
  readonly squaringTrimNm: number;
  /** Length at the left end that may be in no blank. One head cut removes the larger of this and the trim. */
  readonly badEndLeftNm: number;
  /** Length at the right end that may be in no blank. */
  readonly badEndRightNm: number;
  /** Shortest length the saw can still hold behind its last cut. The bad right end may lie in it. */
  readonly stubNm: number;
}

/** One kind of bar that may be cut. */
export interface NestStock {
  readonly id: string;
  readonly kind: 'new' | 'remnant';
  readonly lengthNm: number;
  /** Money to pay for one, minor units; `null` = price missing. 0 for what lies on the rack. */
  readonly costMinor: number | null;
  /** What one is worth as it lies on the rack, minor units: using it up costs this. 0 for bars still to be bought. */
  readonly worthMinor: number;
  /** How many there are; `null` = as many as wanted. */
  readonly quantity: number | null;
  /** Ends of this bar where they differ from the job's. A remnant's bad ends are 0 unless given here. */
  readonly ends?: Partial<BarEnds>;
}

/** One nesting job: one section, one material. */
export interface NestInput {
  readonly demands: readonly NestDemand[];
  readonly stocks: readonly NestStock[];
  /** Width each saw cut turns into chips, nm, 0 or more. */
  readonly kerfNm: number;
  readonly ends: BarEnds;
  /** Shortest drop worth putting back on the rack, nm; 0 = every drop. */
  readonly remnantMinNm: number;
  /** Most distinct patterns (same bar, same blanks) a person will put up with; absent = no limit. */
  readonly maxPatterns?: number;
}

/** What the caller lets a computation spend, and how it listens. The computation itself reads no clock. */
export interface NestBudget {
  /** Elementary steps allowed (about 5e8 a second on a 2020s desktop core). The answer depends on this, never on speed. */
  readonly workUnits: number;
  /** Asked now and then; `true` ends the work with the best so far. */
  readonly shouldStop?: () => boolean;
  /** Told when the proven bound or the best answer gets better. */
  readonly onProgress?: (progress: NestProgress) => void;
}

/** State of a running computation; both are total costs, minor units. `incumbent` is `null` until there is an answer. */
export interface NestProgress {
  readonly boundMinor: number;
  readonly incumbentMinor: number | null;
  /** Lays out the best answer so far, with the bound so far; `null` until there is one. */
  readonly getResult: () => NestResult | null;
}

/** One stretch of a bar, left to right; the stretches of a pattern fill the bar without gap or overlap. */
export interface BarStretch {
  /** `head` is trim and bad left end, `over` what the last blank is left long by (less than a kerf). */
  readonly kind: 'head' | 'kerf' | 'blank' | 'over' | 'drop';
  readonly startNm: number;
  readonly endNm: number;
  /** Only on a blank: the demand it serves and the parts it carries. */
  readonly demandId?: string;
  readonly partsPerBlank?: number;
}

/** One cut of the saw, in the order it is made. */
export interface SawCut {
  /** Left face of the kerf, measured from the bar's left end as delivered, nm. */
  readonly positionNm: number;
  readonly widthNm: number;
  /** What the cut parts off. */
  readonly frees: 'head' | 'blank';
}

/** How the last blank of a bar meets the bar's end: see `marginNm`. */
export type BarFit =
  /** Nothing to spare at all: the length must be exactly what it says. */
  | 'exact'
  /** Less than a kerf to spare: the last blank takes no full cut and is left long by the margin. */
  | 'under-a-kerf'
  /** A full last cut with something behind it. */
  | 'clear';

/** One way of cutting one kind of bar, and how many bars are cut so. */
export interface NestPattern {
  readonly stockId: string;
  readonly kind: 'new' | 'remnant';
  readonly barLengthNm: number;
  /** Bars cut like this, 1 or more. */
  readonly count: number;
  /** Blanks longest first, as a person would saw them. */
  readonly stretches: readonly BarStretch[];
  readonly cuts: readonly SawCut[];
  /** Length left behind the last cut, nm (it may hold the bad right end and the stub). */
  readonly dropNm: number;
  /** Whether the drop is at least the least length worth keeping (and over 0). */
  readonly isDropKept: boolean;
  readonly fit: BarFit;
  /** By how much all blanks together could grow before this pattern no longer fits, nm. */
  readonly marginNm: number;
}

/** How many of one kind of bar the answer uses. */
export interface StockUse {
  readonly stockId: string;
  readonly count: number;
  readonly costMinor: number;
  readonly worthMinor: number;
}

/** What became of one demand. */
export interface DemandOutcome {
  readonly demandId: string;
  /** Blanks cut, by size. */
  readonly blanks: readonly { readonly partsPerBlank: number; readonly lengthNm: number; readonly count: number }[];
  readonly partsMade: number;
  /** Parts beyond the demand (a gang, or a limit on patterns, may bring some). */
  readonly partsOver: number;
  readonly partsMissing: number;
}

/** Stable codes of what can be wrong with an input or left undone. */
export type NestProblemCode =
  | 'bad-parts'
  | 'bad-choice'
  | 'duplicate-id'
  | 'bad-stock-length'
  | 'bad-quantity'
  | 'bad-price'
  | 'price-missing'
  | 'bad-job-value'
  | 'ends-use-up-bar'
  | 'longer-than-every-bar'
  | 'not-enough-bars'
  | 'no-stock'
  | 'pattern-limit-too-tight';

/** One thing wrong with the input, or one thing that could not be done; the rest is solved all the same. */
export interface NestProblem {
  readonly code: NestProblemCode;
  /** The demand, stock or field it is about. */
  readonly about: { readonly kind: 'demand' | 'stock' | 'job'; readonly id: string; readonly field?: string };
  /** One plain sentence with lengths in mm; callers that show other units build their own from code and `about`. */
  readonly message: string;
  /** Parts left unmade because of it, where that is what it is about. */
  readonly partsMissing?: number;
}

/** The answer to one job. */
export interface NestResult {
  readonly patterns: readonly NestPattern[];
  readonly stockUse: readonly StockUse[];
  readonly outcomes: readonly DemandOutcome[];
  readonly problems: readonly NestProblem[];
  /** Bars cut, remnants included. */
  readonly barCount: number;
  readonly cutCount: number;
  /** Money to pay, minor units. */
  readonly costMinor: number;
  /** Worth of the remnants used up, minor units. */
  readonly worthMinor: number;
  /** What was made as small as possible: `costMinor + worthMinor`. */
  readonly totalMinor: number;
  /** No answer can have a smaller total than this (for the parts that were placed). */
  readonly boundMinor: number;
  /** `totalMinor` equals the bound: no cheaper answer exists. */
  readonly isProven: boolean;
  /** `(totalMinor - boundMinor) / totalMinor`, 0 when proven. */
  readonly gap: number;
  /** With the total proven: no answer of the same total has fewer bars. */
  readonly isBarCountProven: boolean;
  /** With both proven: no answer of the same total and bars has a longer longest drop. */
  readonly isDropProven: boolean;
  /** Longest drop of one bar, nm. */
  readonly longestDropNm: number;
  /** False when no bar had a price and bars were weighed by their length (in mm) instead. */
  readonly isPriced: boolean;
  /** Elementary steps spent. */
  readonly workUnits: number;
}

/** The totals of one job, for comparing many. */
export interface NestTotals {
  readonly stockUse: readonly StockUse[];
  readonly barCount: number;
  readonly costMinor: number;
  readonly worthMinor: number;
  readonly totalMinor: number;
  readonly boundMinor: number;
  readonly isProven: boolean;
  readonly isPriced: boolean;
  /** Parts that cannot be made, for the reasons among the problems. */
  readonly partsMissing: number;
  /** Length of all bars cut, and of the new ones among them, nm. */
  readonly barsNm: number;
  readonly newBarsNm: number;
  /** Length of the drops that are worth keeping, nm. */
  readonly keptDropNm: number;
  readonly problems: readonly NestProblem[];
}
