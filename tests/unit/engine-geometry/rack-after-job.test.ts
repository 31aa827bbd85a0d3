import { describe, expect, it } from 'vitest';
import { evaluate } from '../../../shared/evaluate';
import { computeRackAfterJob } from '../../../shared/evaluate/rack-after-job';
import { defaultShop } from '../../../shared/model/catalogue/default-shop';
import type { Plan } from '../../../shared/model/plan';
import type { Shop } from '../../../shared/model/shop';
import { readSamplePlan } from '../support/sample-plans';

function cutJob(plan: Plan, shop: Shop) {
  const { order, section } = evaluate(plan, shop);
  const bar = shop.bars.find((one) => one.id === section?.barId.value);
  if (order === null || bar === undefined) throw new Error('the sample must have an order');
  return { order, change: computeRackAfterJob(shop, order, bar, 'H-1') };
}

describe('the rack after the job', () => {
  const plan = readSamplePlan('hoist-arms');

  it('holds each drop worth keeping, with its share of the cost, and the shop given is not changed', () => {
    const before = JSON.stringify(defaultShop.rack);
    const { order, change } = cutJob(plan, defaultShop);
    expect(change.kept).toBe(1);
    expect(change.rack[0]).toMatchObject({ length: order.bars[0]?.drop, quantity: 1, heatMark: 'H-1' });
    expect(change.rack[0]?.worth).toBeCloseTo((223 * (order.bars[0]?.drop ?? 0)) / 3657.6, 2);
    expect(JSON.stringify(defaultShop.rack)).toBe(before);
  });

  it('puts a second piece like the first beside it', () => {
    const { change } = cutJob(plan, defaultShop);
    const again = cutJob(plan, { ...defaultShop, rack: change.rack });
    const pieces = again.change.rack.reduce((sum, remnant) => sum + remnant.quantity, 0);
    expect(pieces).toBe(1 - again.change.used + again.change.kept);
  });

  it('loses the remnants that were cut up', () => {
    const bar = defaultShop.bars.find((one) => one.id === evaluate(plan, defaultShop).section?.barId.value);
    if (bar === undefined) throw new Error('a bar is expected');
    const remnant = {
      id: 'remnant-1',
      materialId: bar.materialId,
      sizeClassId: bar.sizeClassId,
      width: bar.width,
      thickness: bar.thickness,
      length: 3600,
      quantity: 2,
      worth: 10,
      heatMark: 'X',
      note: '',
    };
    const { change } = cutJob(plan, { ...defaultShop, rack: [remnant] });
    expect(change.used).toBe(1);
    expect(change.rack.find((one) => one.id === 'remnant-1')?.quantity).toBe(1);
    expect(change.rack.some((one) => one.id !== 'remnant-1' && one.heatMark === 'X')).toBe(true);
  });
});
