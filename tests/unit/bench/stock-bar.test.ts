import { describe, expect, it } from 'vitest';
import { getStockBar } from '../../../renderer/bench/stock-bar';
import type { BarUse, OrderResult } from '../../../shared/engine/results';
import { getDrawn } from '../support/sample-sheets';

const { evaluation } = getDrawn('hoist-arms');
const order = evaluation.order as OrderResult;
const [bar] = order.bars as [BarUse];
const [first] = evaluation.blanks;
const templateId = first?.templateId ?? '';

/** A further bar with the same cuts. */
const buildNext = (barIndex: number, change: Partial<BarUse> = {}): BarUse => ({ ...bar, barIndex, ...change });

describe('The bar a blank is sawn from', () => {
  it('is named among all of the order, with its length and what is left of it', () => {
    const stock = getStockBar(order, templateId, 'in');
    expect(stock?.bar).toBe(bar);
    expect(stock?.name).toBe('Bar 1 of 1');
    expect(stock?.says).toBe('144 in, keep 34.883');
  });

  it('is the first that carries the blank, and the others are named', () => {
    const without = buildNext(0, { lines: bar.lines.filter((line) => line.blankTemplateId !== templateId) });
    const two = { ...order, bars: [without, buildNext(1), buildNext(2)] };
    expect(getStockBar(two, templateId, 'in')).toMatchObject({ name: 'Bar 2 of 3', bar: { barIndex: 1 } });
    expect(getStockBar(two, templateId, 'in')?.says).toMatch(/, also bar 3$/u);
    const three = { ...order, bars: [...two.bars, buildNext(3)] };
    expect(getStockBar(three, templateId, 'in')?.says).toMatch(/, also 2 others$/u);
  });

  it('says how many are cut alike instead of how many there are', () => {
    const alike = { ...order, bars: [buildNext(0, { times: 4, dropIsRemnant: false, drop: 0 })] };
    expect(getStockBar(alike, templateId, 'mm')).toMatchObject({ name: 'Bar 1 × 4', says: '3657.6 mm, nothing left' });
  });

  it('is not there where nothing is ordered for the blank', () => {
    expect(getStockBar(null, templateId, 'in')).toBeNull();
    expect(getStockBar({ ...order, bars: [] }, templateId, 'in')).toBeNull();
    expect(getStockBar(order, 'none', 'in')).toBeNull();
  });
});
