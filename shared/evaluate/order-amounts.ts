import { getBarMassKgPerM } from '../engine/bar-prices';
import type { EngineContext } from '../engine/context';
import { getLengthInput } from '../engine/decide';
import type { Figure } from '../engine/figure';
import type { LaidBlank } from '../engine/layout';
import type { BarUse, OrderResult, SectionResult } from '../engine/results';
import { GEOMETRY, getFigure, getInput } from '../engine/workings';
import type { NestResult } from '../nest/types';
import { getPartVolumeMm3 } from './part-volume';

/** Yields and mass of an order. */
export type Amounts = Pick<OrderResult, 'yieldByLength' | 'yieldToBlank' | 'yieldToPart' | 'massKg'>;

/** Yields by length and by volume, and the mass to buy. */
export function getAmounts(
  context: EngineContext,
  section: SectionResult,
  bars: readonly BarUse[],
  blanks: readonly LaidBlank[],
  nest: NestResult,
): Amounts {
  const barLength = sum(bars.map((bar) => bar.length * bar.times));
  const kept = sum(bars.map((bar) => (bar.dropIsRemnant ? bar.drop * bar.times : 0)));
  const made = new Map(nest.outcomes.map((outcome) => [outcome.demandId, outcome.partsMade]));
  const blankLength = sum(blanks.map((blank) => blank.length * (made.get(blank.templateId) ?? 0)));
  const areaMm2 = section.height.nominal * section.thickness.nominal;
  const usedMm3 = (barLength - kept) * areaMm2;
  const partMm3 = sum(
    blanks.map(
      (blank) => (made.get(blank.templateId) ?? 0) * sum(blank.onIt.map(({ part }) => getPartVolumeMm3(part))),
    ),
  );
  const densityKgM3 = context.material?.densityKgM3 ?? 0;
  const newLength = sum(bars.map((bar) => (bar.kind === 'new' ? bar.length * bar.times : 0)));
  const massKgPerM = getBarMassKgPerM(
    { width: section.height.nominal, thickness: section.thickness.nominal },
    densityKgM3,
  );
  return {
    yieldByLength: getShare('Length of blanks over length of the bars cut', 'yield = blanks / bars', [
      ['blanks', blankLength],
      ['bars', barLength],
    ]),
    yieldToBlank: getShare(
      'Blanks over what the job uses up: bars less the drops that go back on the rack',
      'yield = blanks / bars less kept',
      [
        ['blanks', blankLength],
        ['bars less kept', barLength - kept],
      ],
    ),
    yieldToPart: getFigure('fraction', usedMm3 > 0 ? partMm3 / usedMm3 : 0, {
      rule: 'Volume of finished parts over the volume the job uses up',
      formula: 'yield = parts / used, used = H T (bars - kept)',
      inputs: [
        getInput('parts', partMm3, 'volume'),
        getInput('used', usedMm3, 'volume'),
        getLengthInput('H', section.height.nominal),
        getLengthInput('T', section.thickness.nominal),
        getLengthInput('bars', barLength),
        getLengthInput('kept', kept),
      ],
      source: GEOMETRY,
    }),
    massKg: getFigure('mass', (massKgPerM * newLength) / 1000, {
      rule: 'Mass of the bars to buy, at nominal size',
      formula: 'm = density H T L',
      inputs: [
        getInput('density', densityKgM3, 'density'),
        getLengthInput('H', section.height.nominal),
        getLengthInput('T', section.thickness.nominal),
        getLengthInput('L', newLength),
      ],
      source: context.material?.source ?? '',
    }),
  };
}

function getShare(rule: string, formula: string, [part, whole]: [[string, number], [string, number]]): Figure {
  return getFigure('fraction', whole[1] > 0 ? part[1] / whole[1] : 0, {
    rule,
    formula,
    inputs: [getLengthInput(...part), getLengthInput(...whole)],
    source: GEOMETRY,
  });
}

function sum(values: readonly number[]): number {
  return values.reduce((total, value) => total + value, 0);
}
