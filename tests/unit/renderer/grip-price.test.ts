import { describe, expect, it } from 'vitest';
import { computeGripPrice } from '../../../renderer/order/grip-price';
import { evaluate } from '../../../shared/evaluate';
import { defaultShop } from '../../../shared/model/catalogue/default-shop';
import { readSamplePlan } from '../support/sample-plans';

const { sections } = evaluate(readSamplePlan('hoist-arms'), defaultShop);

describe('what the grip costs', () => {
  it('is the step from the 2 in bar to the 2-1/4 in bar in the arms sample: 223 less 199', () => {
    const price = computeGripPrice(sections, 9.525);
    expect(price?.cheapest.height).toBeCloseTo(50.8, 6);
    expect(price?.keeping.height).toBeCloseTo(57.15, 6);
    expect(price?.extra).toBeCloseTo(24, 6);
  });

  it('is nothing when the cheapest bar already grips so much', () => {
    expect(computeGripPrice(sections, 6)?.extra).toBe(0);
  });

  it('cannot be told when nothing grips so much', () => {
    expect(computeGripPrice(sections, 500)).toBeNull();
  });
});
