import { type BarCutting, LONGEST, toExactLength } from '../engine/bar-count';
import { getBarPrice, getUsableLengths } from '../engine/bar-prices';
import type { EngineContext } from '../engine/context';
import { isSize } from '../engine/context';
import { SAME_LENGTH } from '../engine/rounding';
import { getPinned } from '../model/choice';
import type { BarOffer, Remnant } from '../model/shop';
import type { NestInput, NestStock } from '../nest/types';
import { getMoneyDecimals } from '../units/currency';

/** Into how many parts an amount is divided to be summed exactly: the currency's smallest unit, never coarser than a hundredth. */
export function getMinorPerUnit({ shop }: EngineContext): number {
  return 10 ** Math.max(2, getMoneyDecimals(shop.currency));
}

/** The saw's cut and what it costs at the ends of a bar, as the plan or the saw says, mm. */
export function getCutting(context: EngineContext): BarCutting {
  const { order } = context.plan;
  const { saw } = context;
  return {
    kerf: Math.max(0, saw?.kerf ?? 0),
    squaringTrim: getPinned(order.squaringTrim) ?? saw?.squaringTrim ?? 0,
    badEnd: getPinned(order.badEnd) ?? saw?.badEnd ?? 0,
    stub: getPinned(order.stub) ?? saw?.stub ?? 0,
  };
}

/** Shortest drop that is kept, mm: pinned, else the shop's rule. */
export function getLeastRemnant(context: EngineContext): number {
  return Math.max(0, getPinned(context.plan.order.leastRemnant) ?? context.rules.leastRemnant);
}

/** A kind of blank to be sawn: how many of which length, mm. */
export interface BlankDemand {
  templateId: string;
  count: number;
  length: number;
}

/** Pieces on the rack that are the same bar: section and size class. */
export function getRackFor(context: EngineContext, bar: BarOffer): Remnant[] {
  if (!context.plan.order.useRack) return [];
  const isSame = (a: number, b: number): boolean => Math.abs(a - b) <= SAME_LENGTH;
  return context.rack.filter(
    (remnant) =>
      remnant.sizeClassId === bar.sizeClassId &&
      isSame(remnant.width, bar.width) &&
      isSame(remnant.thickness, bar.thickness) &&
      isSize(remnant.length) &&
      remnant.quantity > 0,
  );
}

/** Id of a stock in the nesting job. */
export function getStockId(kind: 'new' | 'remnant', id: string): string {
  return `${kind}:${id}`;
}

/** The nesting job of one bar: what is to be sawn from which lengths at which price. */
export function buildNestInput(context: EngineContext, bar: BarOffer, demands: readonly BlankDemand[]): NestInput {
  const cutting = getCutting(context);
  const badEnd = toExactLength(cutting.badEnd);
  return {
    demands: demands
      .filter(({ count, length }) => count > 0 && isSize(length))
      .map(({ templateId, count, length }) => ({
        id: templateId,
        parts: count,
        choices: [{ partsPerBlank: 1, lengthNm: toExactLength(length) }],
      })),
    stocks: [
      ...buildNewStocks(context, bar),
      ...getRackFor(context, bar).map((remnant) => buildRemnantStock(context, remnant)),
    ],
    kerfNm: toExactLength(cutting.kerf),
    ends: {
      squaringTrimNm: toExactLength(cutting.squaringTrim),
      badEndLeftNm: badEnd,
      badEndRightNm: badEnd,
      stubNm: toExactLength(cutting.stub),
    },
    remnantMinNm: toExactLength(getLeastRemnant(context)),
    ...getPatternLimit(context),
  };
}

function getPatternLimit(context: EngineContext): Pick<NestInput, 'maxPatterns'> {
  const { maxPatterns } = context.plan.order;
  return maxPatterns !== null && maxPatterns >= 1 ? { maxPatterns: Math.round(maxPatterns) } : {};
}

function buildNewStocks(context: EngineContext, bar: BarOffer): NestStock[] {
  const densityKgM3 = context.material?.densityKgM3 ?? 0;
  return getUsableLengths(bar)
    .filter(({ length }) => length <= LONGEST)
    .map((barLength) => ({
      id: getStockId('new', barLength.id),
      kind: 'new',
      lengthNm: toExactLength(barLength.length),
      costMinor: getMinor(context, getBarPrice(bar, barLength, densityKgM3)),
      worthMinor: 0,
      quantity: barLength.quantity === null ? null : Math.floor(barLength.quantity),
    }));
}

function buildRemnantStock(context: EngineContext, remnant: Remnant): NestStock {
  return {
    id: getStockId('remnant', remnant.id),
    kind: 'remnant',
    lengthNm: toExactLength(remnant.length),
    costMinor: 0,
    worthMinor: getMinor(context, Math.max(0, remnant.worth)) ?? 0,
    quantity: Math.floor(remnant.quantity),
  };
}

const MOST_MINOR = 1e13;

/** The price as it is summed, and paid: of whole minor units. */
export function getPaidPrice(context: EngineContext, price: number | null): number | null {
  const minor = getMinor(context, price);
  return minor === null ? null : minor / getMinorPerUnit(context);
}

function getMinor(context: EngineContext, price: number | null): number | null {
  if (price === null || !Number.isFinite(price)) return null;
  return Math.min(MOST_MINOR, Math.round(price * getMinorPerUnit(context)));
}
