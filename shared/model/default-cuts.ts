import { inchesToMm } from '../units/exact';
import type { Cut, Plan } from './plan';
import type { EndMill, Shop } from './shop';

type Units = Plan['units'];

/** End mill aimed at for profiling: stiff, and long enough for a part an inch and a half tall. */
const WANTED_DIAMETER: Readonly<Record<Units, number>> = { in: inchesToMm(0.5), mm: 12 };
const WANTED_FLUTE_LENGTH = 38;

interface CutValues {
  roughStepDown: number;
  roughEngagement: number;
  finishStepDown: number;
  finishEngagement: number;
  cutOffEngagement: number;
  feedPerTooth: number;
  finishFeedPerTooth: number;
  cutOffFeedPerTooth: number;
}

// Deep profiles are stepped down about 0.3 in at a time: common practice, no source. The rest are cautious starting values.
const CUT_VALUES: Readonly<Record<Units, CutValues>> = {
  in: {
    roughStepDown: inchesToMm(0.3),
    roughEngagement: inchesToMm(0.03),
    finishStepDown: inchesToMm(0.3),
    finishEngagement: inchesToMm(0.005),
    cutOffEngagement: inchesToMm(0.06),
    feedPerTooth: inchesToMm(0.0015),
    finishFeedPerTooth: inchesToMm(0.0015),
    cutOffFeedPerTooth: inchesToMm(0.0006),
  },
  mm: {
    roughStepDown: 7.5,
    roughEngagement: 0.8,
    finishStepDown: 7.5,
    finishEngagement: 0.15,
    cutOffEngagement: 1.5,
    feedPerTooth: 0.04,
    finishFeedPerTooth: 0.04,
    cutOffFeedPerTooth: 0.015,
  },
};

const CUTTING_SPEED_CARBIDE_M_PER_MIN = 90;
const CUTTING_SPEED_HSS_M_PER_MIN = 25;
const CUT_OFF_SPEED_M_PER_MIN = 50;

/** The end mill nearest to the wanted size that is long enough, carbide before steel; else the nearest of any length. */
export function findProfilingEndMill(shop: Shop, units: Units): EndMill | undefined {
  const wanted = WANTED_DIAMETER[units];
  const getRank = (tool: EndMill): number =>
    Math.abs(tool.diameter - wanted) +
    (tool.fluteLength >= WANTED_FLUTE_LENGTH ? 0 : 1000) +
    (tool.toolMaterial === 'carbide' ? 0 : 100) +
    (tool.neck === null ? 0 : 10);
  const endMills = shop.tools.filter((tool) => tool.kind === 'endMill');
  return endMills.toSorted((a, b) => getRank(a) - getRank(b))[0];
}

/** A holder that takes the shank: the slimmest standard one, by its body. */
function findHolderId(shop: Shop): string {
  const wanted = shop.holders.find((holder) => holder.id === 'holder-collet-25');
  return (wanted ?? shop.holders[0])?.id ?? '';
}

/**
 * The usual order of work: rough both sides, finish both sides, cut off last.
 *
 * @param shop where tools and holders are picked from; with none of them the ids are '' and the user picks later
 * @param units decides round starting values in inch or mm
 * @returns three cuts with ids `cut-1` to `cut-3`, starting values for steel
 */
export function buildDefaultCuts(shop: Shop, units: Units): Cut[] {
  const endMill = findProfilingEndMill(shop, units);
  const values = CUT_VALUES[units];
  const speed = endMill?.toolMaterial === 'hss' ? CUTTING_SPEED_HSS_M_PER_MIN : CUTTING_SPEED_CARBIDE_M_PER_MIN;
  const common = { toolId: endMill?.id ?? '', holderId: findHolderId(shop), stickOut: 'auto' as const };
  return [
    {
      ...common,
      id: 'cut-1',
      name: 'Rough sides',
      kind: 'side',
      stepDown: values.roughStepDown,
      sideEngagement: values.roughEngagement,
      feedPerTooth: values.feedPerTooth,
      cuttingSpeedMPerMin: speed,
    },
    {
      ...common,
      id: 'cut-2',
      name: 'Finish sides',
      kind: 'side',
      stepDown: values.finishStepDown,
      sideEngagement: values.finishEngagement,
      feedPerTooth: values.finishFeedPerTooth,
      cuttingSpeedMPerMin: speed,
    },
    {
      ...common,
      id: 'cut-3',
      name: 'Cut off',
      kind: 'cutOff',
      toolId: '',
      stepDown: 0,
      sideEngagement: values.cutOffEngagement,
      feedPerTooth: values.cutOffFeedPerTooth,
      cuttingSpeedMPerMin: CUT_OFF_SPEED_M_PER_MIN,
    },
  ];
}
