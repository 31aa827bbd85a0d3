import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { applyPatch, computePatch } from '../../../renderer/bench/evaluation-patch';
import { evaluate } from '../../../shared/evaluate';
import { buildSetting, inch, pinHolding } from './setting';

/** As the worker's message arrives. */
const send = <T>(value: T): T => structuredClone(value);

describe('what changed in an evaluation', () => {
  it('makes any plain data of any other again', () => {
    const names = fc.constantFrom('a', 'b', 'key', 'toString', 'length');
    const { value } = fc.letrec((tie) => ({
      value: fc.oneof(
        { maxDepth: 4 },
        fc.constantFrom(null, true, 0, 1.5, '', 'x'),
        fc.array(tie('value'), { maxLength: 4 }),
        fc.dictionary(names, tie('value')),
      ),
    }));
    fc.assert(
      fc.property(value, value, (before, after) => {
        expect(applyPatch(before, send(computePatch(before, after)))).toEqual(after);
      }),
    );
  });

  it('makes keyed entries again that came, went and changed places', () => {
    const entries = fc.uniqueArray(fc.record({ key: fc.constantFrom('a', 'b', 'c', 'd', 'e'), value: fc.nat(3) }), {
      selector: ({ key }) => key,
    });
    fc.assert(
      fc.property(entries, entries, (before, after) => {
        expect(applyPatch(before, send(computePatch(before, after)))).toEqual(after);
      }),
    );
  });

  it('keeps what stayed the same as the very object it was', () => {
    const before = { findings: [{ key: 'b', says: ['x'] }], order: { bars: [1] } };
    const after = {
      findings: [
        { key: 'a', says: [] },
        { key: 'b', says: ['x'] },
      ],
      order: { bars: [1] },
    };
    const made = applyPatch(before, send(computePatch(before, after))) as typeof after;
    expect(made).toEqual(after);
    expect(made.order).toBe(before.order);
    expect(made.findings[1]).toBe(before.findings[0]);
  });

  it('is a small part of the evaluation after a vise was moved, and makes the new one of the old', () => {
    const { plan, shop, setting } = buildSetting(pinHolding);
    const before = setting.scene.evaluation;
    const moved = { ...plan.holding, vises: { pinned: [3 * inch, 9 * inch, 15.1 * inch] } };
    const after = evaluate({ ...plan, holding: moved }, shop);
    const patch = computePatch(before, after);
    expect(applyPatch(before, send(patch))).toEqual(after);
    expect(JSON.stringify(patch).length).toBeLessThan(JSON.stringify(after).length / 2);
  });
});
