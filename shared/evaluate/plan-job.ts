import type { BarCutting } from '../engine/bar-count';
import { getGangLength, getPartingWidth } from '../engine/blank-length';
import { computeClamp } from '../engine/clamp';
import type { EngineContext } from '../engine/context';
import { computeCutter } from '../engine/cutter';
import type { VisesResult } from '../engine/results';
import { computeSection, getSectionOptions } from '../engine/section';
import type { CutterChoice } from '../engine/setup';
import { getLargestSideForceN } from '../engine/span-limits';
import { computeSpares, type SparesDecision } from '../engine/spares';
import { GangPlanner } from './gang-planner';
import { LayoutFactsBook } from './layout-facts';
import { getCutting } from './nest-job';

/** What does not depend on the section and is worked out once for a plan. */
export interface PlanJob {
  readonly context: EngineContext;
  readonly cutter: CutterChoice;
  readonly clamp: Pick<VisesResult, 'clampForceN' | 'countedClampForceN'> & { cappedByVise: boolean };
  readonly partingWidth: number;
  readonly cutting: BarCutting;
  readonly spares: ReadonlyMap<string, SparesDecision>;
  /** Pieces to make of each part, before rounding up to whole blanks. */
  readonly make: ReadonlyMap<string, number>;
  /** Longest blank with one part on it, mm. */
  readonly longestSingle: number;
  /** Largest side force of any cut, N. */
  readonly sideForceN: number;
  readonly gangs: GangPlanner;
  readonly layouts: LayoutFactsBook;
}

/** Gathers what every section shares. */
export function buildPlanJob(context: EngineContext): PlanJob {
  const cutter = computeCutter(context);
  const partingWidth = getPartingWidth(context);
  const cutting = getCutting(context);
  const spares = new Map(context.parts.map((part) => [part.id, computeSpares(context.plan.order.spares, part)]));
  const make = new Map([...spares].map(([partId, decision]) => [partId, decision.make]));
  const firstOption = getSectionOptions(context)[0];
  const sideForceN =
    firstOption === undefined
      ? 0
      : getLargestSideForceN({ context, cutter, section: computeSection(context, firstOption, null, false) });
  return {
    context,
    cutter,
    clamp: computeClamp(context),
    partingWidth,
    cutting,
    spares,
    make,
    longestSingle: Math.max(0, ...context.parts.map((part) => getGangLength(context, partingWidth, part, 1))),
    sideForceN,
    gangs: new GangPlanner(context, partingWidth, cutting, make),
    layouts: new LayoutFactsBook(context, cutter),
  };
}
