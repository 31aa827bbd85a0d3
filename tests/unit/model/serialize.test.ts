import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { defaultShop } from '../../../shared/model/catalogue/default-shop';
import { cleanNumber } from '../../../shared/model/clean-number';
import { setAtPath } from '../../../shared/model/edit';
import { parsePlanText } from '../../../shared/model/parse-plan';
import { serializePlan, UnwritableError } from '../../../shared/model/serialize';
import { buildTestPlan } from './build-plan';

describe('the text of a plan file', () => {
  it('is the same for the same plan whatever the order of its keys', () => {
    const plan = buildTestPlan();
    const reversed = Object.fromEntries(Object.entries(plan).toReversed()) as unknown as typeof plan;
    expect(serializePlan(reversed)).toBe(serializePlan(plan));
  });

  it('begins with its format and version and ends with a newline', () => {
    const text = serializePlan(buildTestPlan());
    expect(text.startsWith('{\n  "format": "kerfgrip-plan",\n  "version": 2,\n')).toBe(true);
    expect(text.endsWith('}\n')).toBe(true);
  });

  it('holds no noise of sums', () => {
    const plan = setAtPath(buildTestPlan(), ['parts', 0, 'length'], 1.1 * 3 + 0.1 + 0.2);
    expect(serializePlan(plan)).toContain('"length": 3.6,');
    expect(cleanNumber(0.1 + 0.2)).toBe(0.3);
    expect(Object.is(cleanNumber(-0), 0)).toBe(true);
  });

  it('keeps any length of a nanometre or more', () => {
    fc.assert(
      fc.property(fc.integer({ min: 1, max: 100_000_000_000 }), (nanometres) => {
        const mm = nanometres / 1e6;
        expect(Math.round(cleanNumber(mm) * 1e6)).toBe(nanometres);
      }),
    );
  });

  it('survives any text of the user', () => {
    fc.assert(
      fc.property(fc.string({ unit: 'binary', maxLength: 200 }), (name) => {
        const read = parsePlanText(serializePlan({ ...buildTestPlan(), name }));
        expect(read.ok && read.plan.name).toBe(name);
      }),
      { numRuns: 50 },
    );
  });

  it('is never written when it could not be read back', () => {
    const plan = setAtPath(buildTestPlan(), ['parts', 1, 'length'], Number.NaN);
    expect(() => serializePlan(plan)).toThrow(UnwritableError);
    expect(() => serializePlan(plan)).toThrow('Part 2, length: must be a number, not NaN.');
  });

  it('does not change the plan', () => {
    const plan = buildTestPlan();
    const before = JSON.stringify(plan);
    serializePlan(plan);
    expect(JSON.stringify(plan)).toBe(before);
    expect(defaultShop.rack).toEqual([]);
  });
});
