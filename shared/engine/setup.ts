import type { CutOffCutter } from '../model/shop';
import type { EngineContext } from './context';
import type { Decided } from './figure';
import type { AcrossResult, BlankResult, SeatResult, SectionResult, VisesResult } from './results';

/**
 * The engine works in stages, each reading only the ones before it:
 * section -> cut-off cutter -> stack and available grip -> seat -> stack as seated -> blanks -> vises and
 * contacts -> forces, hold, deflection, release, reach, bow, allowance.
 */

/** The cut-off cutter that is used, why, and the gap it keeps to the jaw tops. `tool` is null when the shop has none. */
export interface CutterChoice {
  tool: CutOffCutter | null;
  id: Decided<string>;
  clearance: Decided<number>;
  /** Width of the slot it cuts along Z: its measured width; 0 without a cutter. */
  kerf: number;
}

/** First stage: one bar, one way up, one cut-off cutter. */
export interface SectionSetup {
  readonly context: EngineContext;
  readonly section: SectionResult;
  readonly cutter: CutterChoice;
}

/** A blank as it stands in the vises, before any force is put on it. */
export type SeatedBlank = Omit<BlankResult, 'hold' | 'deflection' | 'longestLegalOverhang'>;

/** Last geometric stage: everything about one choice of section that forces need to know. */
export interface Setup extends SectionSetup {
  readonly across: readonly AcrossResult[];
  readonly seat: SeatResult;
  readonly vises: VisesResult;
  readonly blanks: readonly SeatedBlank[];
  /** Index of the blank that grips least; -1 when there are none. */
  readonly governingBlank: number;
}
