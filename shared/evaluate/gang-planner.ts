import type { BarCutting } from '../engine/bar-count';
import type { EngineContext } from '../engine/context';
import {
  chooseFewestLoads,
  chooseLeanestPerBlank,
  choosePartsPerBlank,
  type GangOption,
  getGangOptions,
  getPinnedPartsPerBlank,
  type LengthOffer,
} from '../engine/gang';
import { computeLayout, type LaidBlank } from '../engine/layout';
import { SAME_LENGTH } from '../engine/rounding';
import { isPinned } from '../model/choice';
import type { Part } from '../model/plan';
import type { BarOffer } from '../model/shop';
import { LIGHT_BUDGET } from '../nest/compute-nest';
import type { NestTotals } from '../nest/types';
import { buildNestInput } from './nest-job';
import { getNestTotals } from './nest-memo';

/** What a section and its vises leave for a blank with several parts on it. */
export interface BlankRoom {
  /** Longest blank the vises and the machine take, mm. */
  readonly longestBlank: number;
  /** Whether the bar is thick enough for a part on a blank of this length, mm: a longer one may be bent by more. */
  readonly takes: (part: Part, blankLength: number) => boolean;
}

/**
 * Parts per blank for many sections of one plan. What a gang takes hangs on the lengths on offer alone; the section only
 * brings its prices and how long a blank may be. So each set of lengths is worked out once, and each layout too.
 */
export class GangPlanner {
  private readonly options = new Map<string, readonly PartOptions[]>();
  private readonly layouts = new Map<string, readonly LaidBlank[]>();
  private readonly leaner = new Map<string, boolean>();
  private readonly context: EngineContext;
  private readonly partingWidth: number;
  private readonly cutting: BarCutting;
  private readonly make: ReadonlyMap<string, number>;

  constructor(context: EngineContext, partingWidth: number, cutting: BarCutting, make: ReadonlyMap<string, number>) {
    this.context = context;
    this.partingWidth = partingWidth;
    this.cutting = cutting;
    this.make = make;
  }

  /**
   * The blanks for a bar: the number of parts on each as it is best for that part alone, or, where all parts together
   * come cheaper so, the number that takes least metal for each.
   *
   * @param alone where they are known, the blanks as they are best part by part
   */
  lay(
    bar: BarOffer,
    offers: readonly LengthOffer[],
    room: BlankRoom,
    alone: readonly LaidBlank[] = this.layAlone(offers, room),
  ): readonly LaidBlank[] {
    const { context } = this;
    if (context.parts.length < 2 || isPinned(context.plan.layout) || getPinnedPartsPerBlank(context) !== null)
      return alone;
    const leanest = this.layOut(this.chooseEach(offers, room, chooseLeanestPerBlank));
    return leanest === alone || !this.isLeanestCheaper(bar, offers, { leanest, alone }) ? alone : leanest;
  }

  /** Asked of the first bar that comes in these lengths: prices go by the length in much the same way for the others. */
  private isLeanestCheaper(
    bar: BarOffer,
    offers: readonly LengthOffer[],
    { leanest, alone }: { leanest: readonly LaidBlank[]; alone: readonly LaidBlank[] },
  ): boolean {
    const key = [leanest, alone].map((blanks) => blanks.map(({ onIt }) => onIt.length).join(' '));
    const whole = [...key, offers.map(({ length }) => length).join(' ')].join('|');
    const known = this.leaner.get(whole);
    if (known !== undefined) return known;
    const price = (blanks: readonly LaidBlank[]): NestTotals =>
      getNestTotals(buildNestInput(this.context, bar, blanks), LIGHT_BUDGET);
    const answer = isCheaper(price(leanest), price(alone));
    this.leaner.set(whole, answer);
    return answer;
  }

  /** The blanks with the number of parts on each as it is best for that part alone. */
  layAlone(offers: readonly LengthOffer[], room: BlankRoom): readonly LaidBlank[] {
    return this.layOut(this.choose(offers, room));
  }

  /**
   * The blanks that take fewest loads of the vises, whatever the bars then cost; null where there is nothing to choose.
   */
  layFewest(offers: readonly LengthOffer[], room: BlankRoom): readonly LaidBlank[] | null {
    const { context } = this;
    if (isPinned(context.plan.layout) || getPinnedPartsPerBlank(context) !== null) return null;
    return this.layOut(this.chooseEach(offers, room, chooseFewestLoads));
  }

  /** @param partsPerBlank in the order of the parts */
  private layOut(partsPerBlank: readonly number[]): readonly LaidBlank[] {
    const key = partsPerBlank.join(' ');
    const known = this.layouts.get(key);
    if (known !== undefined) return known;
    const { context, make } = this;
    const byPart = new Map(context.parts.map(({ id }, index) => [id, partsPerBlank[index] ?? 1]));
    const blanks = computeLayout(context, this.partingWidth, { partsPerBlank: byPart, make });
    this.layouts.set(key, blanks);
    return blanks;
  }

  private choose(offers: readonly LengthOffer[], room: BlankRoom): number[] {
    const pinned = getPinnedPartsPerBlank(this.context);
    if (pinned !== null) return this.context.parts.map(() => pinned);
    const costs = offers.map(({ cost, length }) => cost ?? length);
    return this.chooseEach(offers, room, (options) => choosePartsPerBlank(options, costs));
  }

  private chooseEach(
    offers: readonly LengthOffer[],
    room: BlankRoom,
    choose: (options: readonly GangOption[]) => number,
  ): number[] {
    return this.getOptions(offers.map(({ length }) => length)).map((of) => choose(getHeldOptions(of, room)));
  }

  /** The options of each part, in the order of the parts. */
  private getOptions(lengths: readonly number[]): readonly PartOptions[] {
    const key = lengths.join(' ');
    const known = this.options.get(key);
    if (known !== undefined) return known;
    const { context, partingWidth, cutting, make } = this;
    const options = context.parts.map((part) => ({
      part,
      options: getGangOptions(context, partingWidth, lengths, cutting, part, make.get(part.id) ?? part.quantity),
    }));
    this.options.set(key, options);
    return options;
  }
}

interface PartOptions {
  readonly part: Part;
  readonly options: readonly GangOption[];
}

/** The options, shortest blank first, up to the longest that is held and that the bar is thick enough for; one part always is. */
function getHeldOptions({ part, options }: PartOptions, room: BlankRoom): readonly GangOption[] {
  // Most often all are held, and it is asked of every section.
  let held = options.length;
  while (held > 1 && !isHeld(part, options[held - 1] as GangOption, room)) held -= 1;
  return held === options.length ? options : options.slice(0, held);
}

function isHeld(part: Part, { blankLength }: GangOption, { longestBlank, takes }: BlankRoom): boolean {
  return blankLength <= longestBlank + SAME_LENGTH && takes(part, blankLength);
}

function isCheaper(totals: NestTotals, than: NestTotals): boolean {
  if (totals.partsMissing !== than.partsMissing) return totals.partsMissing < than.partsMissing;
  if (totals.totalMinor !== than.totalMinor) return totals.totalMinor < than.totalMinor;
  return totals.barCount < than.barCount;
}
