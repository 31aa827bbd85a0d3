import { getLongestByPart, getTallestNeed } from '../engine/compute-setup';
import type { EngineContext } from '../engine/context';
import type { LaidBlank } from '../engine/layout';
import type { CutterChoice } from '../engine/setup';
import { getPartVolumeMm3 } from './part-volume';

/** What every section that takes the same blanks shares. */
export interface LayoutFacts {
  /** Most any part needs above the jaws, mm. */
  tallestNeed: number;
  /**
   * The blanks that decide: the tallest stack, which leaves least grip, the lowest, which is cut off highest above the
   * jaws, the longest, and the shortest, which the fewest vises touch.
   */
  deciding: readonly LaidBlank[];
  longestByPart: ReadonlyMap<string, number>;
  /** Volume of all finished parts, mm³. */
  partsMm3: number;
}

/** Facts of the layouts of one plan, each worked out once. */
export class LayoutFactsBook {
  private readonly facts = new Map<readonly LaidBlank[], LayoutFacts>();
  private readonly volumes: ReadonlyMap<string, number>;
  private readonly context: EngineContext;
  private readonly cutter: CutterChoice;

  constructor(context: EngineContext, cutter: CutterChoice) {
    this.context = context;
    this.cutter = cutter;
    this.volumes = new Map(context.parts.map((part) => [part.id, getPartVolumeMm3(part)]));
  }

  get(blanks: readonly LaidBlank[]): LayoutFacts {
    const known = this.facts.get(blanks);
    if (known !== undefined) return known;
    const facts = this.compute(blanks);
    this.facts.set(blanks, facts);
    return facts;
  }

  private compute(blanks: readonly LaidBlank[]): LayoutFacts {
    const carried = blanks.filter(({ onIt }) => onIt.length > 0);
    const deciding = new Set([
      takeMost(carried, (blank) => getTallestNeed(this.context, this.cutter, [blank])),
      takeMost(carried, (blank) => -getTallestNeed(this.context, this.cutter, [blank])),
      takeMost(carried, (blank) => blank.length),
      takeMost(carried, (blank) => -blank.length),
    ]);
    let partsMm3 = 0;
    for (const blank of blanks) {
      for (const { part } of blank.onIt) partsMm3 += blank.count * (this.volumes.get(part.id) ?? 0);
    }
    return {
      tallestNeed: getTallestNeed(this.context, this.cutter, blanks),
      deciding: [...deciding].filter((blank) => blank !== undefined),
      longestByPart: getLongestByPart(blanks),
      partsMm3,
    };
  }
}

function takeMost(blanks: readonly LaidBlank[], score: (blank: LaidBlank) => number): LaidBlank | undefined {
  let taken: LaidBlank | undefined;
  let most = Number.NEGATIVE_INFINITY;
  for (const blank of blanks) {
    const own = score(blank);
    if (own > most) {
      taken = blank;
      most = own;
    }
  }
  return taken;
}
