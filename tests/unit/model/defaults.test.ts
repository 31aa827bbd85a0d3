import { describe, expect, it } from 'vitest';
import { buildPart } from '../../../shared/model/build-part';
import { defaultShop } from '../../../shared/model/catalogue/default-shop';
import { buildEmptyPlan } from '../../../shared/model/defaults';
import { nextId } from '../../../shared/model/next-id';
import { parsePlan } from '../../../shared/model/parse-plan';

describe.each(['in', 'mm'] as const)('an empty plan in %s', (units) => {
  const plan = buildEmptyPlan({ units, date: '2025-06-01', author: 'A. Miller', shop: defaultShop });

  it('is a valid plan without remarks', () => {
    expect(parsePlan(plan)).toEqual({ ok: true, plan, remarks: [] });
  });

  it('names only things the shop has', () => {
    const shopIds = new Set(
      [
        defaultShop.materials,
        defaultShop.vises,
        defaultShop.jawSets,
        defaultShop.tools,
        defaultShop.holders,
        defaultShop.saws,
      ]
        .flat()
        .map(({ id }) => id),
    );
    const named = [plan.stock.materialId, plan.holding.viseId, plan.holding.jawSetId, plan.order.sawId];
    const tools = plan.cuts.flatMap((cut) => [cut.toolId, cut.holderId]).filter((id) => id !== '');
    for (const id of [...named, ...tools]) expect(shopIds, id).toContain(id);
  });

  it('cuts off last, with the release cutter', () => {
    expect(plan.cuts.map(({ kind, toolId }) => [kind, toolId === ''])).toEqual([
      ['side', false],
      ['side', false],
      ['cutOff', true],
    ]);
  });

  it('begins with a vise and an end mill of its own units', () => {
    expect(plan.holding.viseId).toBe(units === 'in' ? 'vise-6in' : 'vise-125mm');
    const tool = defaultShop.tools.find(({ id }) => id === plan.cuts[0]?.toolId);
    expect(tool?.diameter).toBe(units === 'in' ? 12.7 : 12);
    expect(tool?.toolMaterial).toBe('carbide');
  });
});

describe('an empty plan', () => {
  it('can be made with an empty shop', () => {
    const shop = { ...defaultShop, materials: [], vises: [], jawSets: [], tools: [], holders: [], saws: [] };
    expect(parsePlan(buildEmptyPlan({ units: 'mm', date: '', author: '', shop })).ok).toBe(true);
  });

  it('shares nothing that a change could reach', () => {
    const start = { units: 'mm', date: '', author: '', shop: defaultShop } as const;
    expect(buildEmptyPlan(start)).toEqual(buildEmptyPlan(start));
    expect(buildEmptyPlan(start).cuts).not.toBe(buildEmptyPlan(start).cuts);
  });
});

describe('nextId', () => {
  it('counts on from the highest, whatever else is there', () => {
    expect(nextId([], 'part')).toBe('part-1');
    expect(nextId([{ id: 'part-2' }, { id: 'part-10' }, { id: 'part-x' }, { id: 'hole-99' }], 'part')).toBe('part-11');
    expect(nextId([{ id: 'part--5' }, { id: 'part-1e99' }], 'part')).toBe('part-1');
  });
});

describe('buildPart', () => {
  it('gives usual values and keeps what is said', () => {
    const part = buildPart({ id: 'part-1', name: 'Link', length: 95, height: 20, thickness: 10, quantity: 24 });
    expect(part).toMatchObject({ quantity: 24, hand: 'none', stations: [], allowance: null });
  });
});
