import { getBarPrice, getUsableLengths } from '../engine/bar-prices';
import type { EngineContext } from '../engine/context';
import type { Figure } from '../engine/figure';
import type { LaidBlank } from '../engine/layout';
import type { BarUse, OrderProblem, OrderResult, SectionResult } from '../engine/results';
import { getFigure, getInput, getTextInput } from '../engine/workings';
import type { BarOffer } from '../model/shop';
import type { NestProblem, NestResult } from '../nest/types';
import { formatLength } from '../units/format';
import type { CutBlanks } from './cut-blanks';
import { buildBarUse, buildCutList } from './cut-list';
import { getCutting, getMinorPerUnit, getPaidPrice, getRackFor, getStockId } from './nest-job';
import { getAmounts } from './order-amounts';

/**
 * Bars to buy and how to saw them: least cost, then fewest bars, then one long remnant.
 *
 * @param cut the blanks and the bars they are cut from
 */
export function computeOrder(
  context: EngineContext,
  section: SectionResult,
  bar: BarOffer,
  { blanks, nest, isProvenForBlanks, fewest }: CutBlanks,
): OrderResult {
  const bars = buildBars(context, bar, blanks, nest);
  const amounts = getAmounts(context, section, bars, blanks, nest);
  const isPriced = nest.isPriced && nest.patterns.length > 0;
  return {
    bars,
    purchase: buildPurchase(context, bar, nest),
    cost: isPriced ? getCostFigure(context, bar, nest) : null,
    priceKnown: !nest.problems.some((problem) => problem.code === 'price-missing') && nest.isPriced,
    bound: isPriced ? nest.boundMinor / getMinorPerUnit(context) : null,
    proven: nest.isProven,
    provenForBlanks: isProvenForBlanks,
    problems: buildProblems(context, bar, nest),
    unplaced: buildUnplaced(nest, blanks),
    ...amounts,
    totalBars: nest.barCount,
    loads: countLoads(blanks),
    fewestLoads: getFewestLoads(context, fewest, countLoads(blanks)),
  };
}

function buildBars(context: EngineContext, bar: BarOffer, blanks: readonly LaidBlank[], nest: NestResult): BarUse[] {
  const labels = new Map(blanks.map((blank) => [blank.templateId, blank.label]));
  const cutting = getCutting(context);
  const headKind = cutting.badEnd > cutting.squaringTrim ? 'badEnd' : 'trim';
  const facts = getStockFacts(context, bar);
  return nest.patterns.map((pattern, barIndex) =>
    buildBarUse(pattern, barIndex, buildCutList(pattern, barIndex, labels, headKind), {
      lengthId: facts.get(pattern.stockId)?.lengthId ?? pattern.stockId,
      cost: facts.get(pattern.stockId)?.price ?? 0,
      zeroMargin: context.rules.zeroMargin,
    }),
  );
}

interface StockFacts {
  lengthId: string;
  length: number;
  price: number | null;
}

function getStockFacts(context: EngineContext, bar: BarOffer): Map<string, StockFacts> {
  const densityKgM3 = context.material?.densityKgM3 ?? 0;
  const facts = new Map<string, StockFacts>();
  for (const barLength of getUsableLengths(bar)) {
    facts.set(getStockId('new', barLength.id), {
      lengthId: barLength.id,
      length: barLength.length,
      price: getPaidPrice(context, getBarPrice(bar, barLength, densityKgM3)),
    });
  }
  for (const remnant of getRackFor(context, bar)) {
    facts.set(getStockId('remnant', remnant.id), { lengthId: remnant.id, length: remnant.length, price: 0 });
  }
  return facts;
}

function buildPurchase(context: EngineContext, bar: BarOffer, nest: NestResult): OrderResult['purchase'] {
  const facts = getStockFacts(context, bar);
  return nest.stockUse.flatMap((use) => {
    const fact = facts.get(use.stockId);
    if (fact === undefined || !use.stockId.startsWith(getStockId('new', ''))) return [];
    return [
      {
        barId: bar.id,
        lengthId: fact.lengthId,
        length: fact.length,
        count: use.count,
        unitCost: fact.price,
        cost: fact.price === null ? null : fact.price * use.count,
      },
    ];
  });
}

function getCostFigure(context: EngineContext, bar: BarOffer, nest: NestResult): Figure {
  const facts = getStockFacts(context, bar);
  const getName = (stockId: string): string => {
    const kind = stockId.startsWith(getStockId('new', '')) ? 'bars' : 'remnants';
    return `${kind} of ${formatLength(facts.get(stockId)?.length ?? 0, context.units, { unit: true })}`;
  };
  return getFigure('money', nest.costMinor / getMinorPerUnit(context), {
    rule: nest.isProven
      ? 'Least cost of bars for all blanks, proven: no cheaper way to saw them exists'
      : 'Best cost found; no way can cost less than the bound',
    formula: 'cost = sum(count price)',
    inputs: [
      ...nest.stockUse.map((use) => getInput(getName(use.stockId), use.count, 'count')),
      getInput('bound', nest.boundMinor / getMinorPerUnit(context), 'money'),
      getTextInput('currency', context.shop.currency),
    ],
    source: 'prices as entered in the shop',
  });
}

function countLoads(blanks: readonly LaidBlank[]): number {
  return blanks.reduce((sum, { count }) => sum + count, 0);
}

function getFewestLoads(
  context: EngineContext,
  fewest: CutBlanks['fewest'],
  loads: number,
): OrderResult['fewestLoads'] {
  if (fewest === null || fewest.totals.partsMissing > 0 || countLoads(fewest.blanks) >= loads) return null;
  const { isPriced, costMinor, barCount } = fewest.totals;
  return {
    loads: countLoads(fewest.blanks),
    cost: isPriced ? costMinor / getMinorPerUnit(context) : null,
    bars: barCount,
  };
}

/** Bars that had to be left out, and limits that could not be kept; where nothing could be cut at all the blanks say why. */
function buildProblems(context: EngineContext, bar: BarOffer, nest: NestResult): OrderProblem[] {
  const facts = getStockFacts(context, bar);
  return nest.problems.flatMap(({ code, about }): OrderProblem[] => {
    const fact = about.kind === 'stock' ? facts.get(about.id) : undefined;
    const lengthId = fact?.lengthId ?? '';
    const length = formatLength(fact?.length ?? 0, context.units, { unit: true, trim: true });
    switch (code) {
      case 'price-missing':
        return [
          {
            code,
            lengthId,
            sentence: nest.isPriced
              ? `The ${bar.name} bar of ${length} has no price and is left out until one is entered in the shop.`
              : `The ${bar.name} bar of ${length} has no price: bars are counted by their length until one is entered in the shop.`,
          },
        ];
      case 'ends-use-up-bar':
        return [
          {
            code: 'bar-used-up-by-ends',
            lengthId,
            sentence: `Nothing can be cut from the ${length} ${about.id.startsWith(getStockId('new', '')) ? 'bar' : 'piece on the rack'}: squaring trim, bad ends and the stub the saw needs use it up.`,
          },
        ];
      case 'pattern-limit-too-tight':
        return [
          {
            code: 'too-many-patterns',
            lengthId,
            sentence: `More cutting patterns are needed than the ${context.plan.order.maxPatterns ?? 0} allowed; the limit is not kept.`,
          },
        ];
      default:
        return [];
    }
  });
}

/** Bars that are on offer but used up by their ends are not bars that are missing. */
function getCause(nest: NestResult, problem: NestProblem): NestProblem {
  if (problem.code !== 'no-stock') return problem;
  return nest.problems.find(({ code }) => code === 'ends-use-up-bar') ?? problem;
}

/** What each nesting problem means to the person who orders. */
function getProblemReason(problem: NestProblem): string {
  switch (problem.code) {
    case 'longer-than-every-bar':
      return 'it is longer than any bar on offer leaves after its ends.';
    case 'not-enough-bars':
      return 'there are not enough bars of this size.';
    case 'no-stock':
      return 'no bar of this size is on offer.';
    case 'ends-use-up-bar':
      return 'trim, bad ends and stub use up the whole bar.';
    case 'pattern-limit-too-tight':
      return 'more cutting patterns are needed than the plan allows.';
    default:
      return problem.message;
  }
}

function buildUnplaced(nest: NestResult, blanks: readonly LaidBlank[]): OrderResult['unplaced'] {
  const labels = new Map(blanks.map((blank) => [blank.templateId, blank.label]));
  return nest.outcomes
    .filter((outcome) => outcome.partsMissing > 0)
    .map((outcome) => {
      const problem =
        nest.problems.find(({ about }) => about.kind === 'demand' && about.id === outcome.demandId) ??
        nest.problems.find(({ partsMissing }) => (partsMissing ?? 0) > 0) ??
        nest.problems[0];
      return {
        blankTemplateId: outcome.demandId,
        label: labels.get(outcome.demandId) ?? '',
        count: outcome.partsMissing,
        reason: problem === undefined ? 'no bar takes it.' : getProblemReason(getCause(nest, problem)),
      };
    });
}
