import { readFileSync } from 'node:fs';
import { describe, expect, it } from 'vitest';
import { computeGripPrice } from '../../../renderer/order/grip-price';
import { evaluate } from '../../../shared/evaluate';
import { defaultShop } from '../../../shared/model/catalogue/default-shop';
import { parsePlanText } from '../../../shared/model/parse-plan';

function getSections(name: string) {
  const text = readFileSync(new URL(`../../../assets/samples/${name}.kgplan`, import.meta.url), 'utf8');
  const parsed = parsePlanText(text);
  if (!parsed.ok) throw new Error(parsed.problem.sentence);
  return evaluate(parsed.plan, defaultShop).sections;
}

describe('what the grip costs', () => {
  it('is the step from the 2 in bar to the 2-1/4 in bar in the arms sample: 223 less 199', () => {
    const price = computeGripPrice(getSections('hoist-arms'), 9.525);
    expect(price?.cheapest.height).toBeCloseTo(50.8, 6);
    expect(price?.keeping.height).toBeCloseTo(57.15, 6);
    expect(price?.extra).toBeCloseTo(24, 6);
  });

  it('is nothing when the cheapest bar already grips so much', () => {
    expect(computeGripPrice(getSections('hoist-arms'), 6)?.extra).toBe(0);
  });

  it('cannot be told when nothing grips so much', () => {
    expect(computeGripPrice(getSections('hoist-arms'), 500)).toBeNull();
  });
});
