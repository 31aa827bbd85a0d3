import type { ChanceResult } from './chance';
import type { Figure } from './figure';
import type {
  AcrossResult,
  AllowanceRow,
  BlankResult,
  BowResult,
  CutForceResult,
  GangRow,
  OrderResult,
  ReachResult,
  ReleaseResult,
  SeatResult,
  SectionResult,
  SectionRow,
  SparesRow,
  VisesResult,
} from './results';

/** The figures that never leave the screen; null where they cannot be computed. */
export interface HeadlineFigures {
  grip: Figure | null;
  proudHeight: Figure | null;
  shelfDepth: Figure | null;
  hold: Figure | null;
  rib: Figure | null;
  stickOut: Figure | null;
  bars: Figure | null;
  yield: Figure | null;
  cost: Figure | null;
}

/** Everything the engine computes of a plan, before it is judged. */
export interface EngineResults {
  /** Null when no bar on offer can be taken at all. */
  section: SectionResult | null;
  /** One for each kind of blank; empty when there is no section or no part. */
  blanks: BlankResult[];
  /** Index of the blank that grips least. */
  governingBlank: number;
  across: AcrossResult[];
  seat: SeatResult | null;
  vises: VisesResult | null;
  cuts: CutForceResult[];
  reach: ReachResult[];
  release: ReleaseResult | null;
  bow: BowResult[];
  allowance: AllowanceRow[];
  /** Beside the worst case, never in its place; null without a setup. */
  chance: ChanceResult | null;
  gang: GangRow[];
  spares: SparesRow[];
  order: OrderResult | null;
  sections: SectionRow[];
  figures: HeadlineFigures;
}
