import { describe, expect, it } from 'vitest';
import { defaultShop } from '../../../shared/model/catalogue/default-shop';
import { setAtPath } from '../../../shared/model/edit';
import type { Plan } from '../../../shared/model/plan';
import {
  collectLibrary,
  getLibraryDifferences,
  LIBRARY_KEYS,
  refreshLibrary,
  resolveShop,
} from '../../../shared/model/plan-library';
import type { Shop } from '../../../shared/model/shop';
import { buildTestPlan } from './build-plan';

function getPlanWithLibrary(change: Partial<Plan> = {}): Plan {
  const plan = { ...buildTestPlan(), ...change };
  return { ...plan, library: collectLibrary(plan, defaultShop) };
}

const EMPTY_SHOP: Shop = {
  ...defaultShop,
  ...Object.fromEntries(LIBRARY_KEYS.map((key) => [key, []])),
};

describe('the copies a plan carries', () => {
  it('hold what the plan names and what the engine may choose from', () => {
    const { library } = getPlanWithLibrary();
    expect(library.materials.map(({ id }) => id)).toEqual(['material-low-carbon-steel']);
    expect(library.vises.map(({ id }) => id)).toEqual(['vise-125mm']);
    expect(library.bars).toEqual(
      defaultShop.bars.filter(({ materialId }) => materialId === 'material-low-carbon-steel'),
    );
    expect(library.sizeClasses.map(({ id }) => id)).toEqual([
      'class-a108-low-carbon',
      'class-en10278-h11',
      'class-en10058',
    ]);
    expect(library.parallels).toEqual(defaultShop.parallels);
    expect(library.tools.filter(({ kind }) => kind === 'endMill')).toHaveLength(1);
    expect(library.tools.filter(({ kind }) => kind === 'keySeat')).toHaveLength(54);
  });

  it('hold only the pinned cutter and parallels where those are pinned', () => {
    const plan = buildTestPlan();
    const { library } = getPlanWithLibrary({
      release: { ...plan.release, cutterId: { pinned: 'tool-key-609' } },
      holding: { ...plan.holding, seat: { pinned: { kind: 'parallels', parallelId: 'parallel-4mm-20', count: 2 } } },
    });
    expect(library.parallels.map(({ id }) => id)).toEqual(['parallel-4mm-20']);
    expect(library.tools.map(({ id }) => id)).toEqual(['tool-em-carbide-long-12mm', 'tool-key-609']);
  });

  it('are enough to open the plan where the shop is empty', () => {
    const plan = getPlanWithLibrary();
    const resolved = resolveShop(plan, EMPTY_SHOP);
    for (const key of LIBRARY_KEYS) expect(resolved[key]).toEqual(plan.library[key]);
    expect(collectLibrary(plan, EMPTY_SHOP)).toEqual(plan.library);
  });

  it('win over the shop for their ids, in the place the shop has them', () => {
    const plan = getPlanWithLibrary();
    const shop = setAtPath(defaultShop, ['vises', 2, 'jawHeight'], 55);
    const resolved = resolveShop(plan, shop);
    expect(resolved.vises.map(({ id }) => id)).toEqual(defaultShop.vises.map(({ id }) => id));
    expect(resolved.vises[2]?.jawHeight).toBe(40);
    expect(resolved.rules).toBe(shop.rules);
    expect(shop.vises[2]?.jawHeight).toBe(55);
  });
});

describe('differences between copies and shop', () => {
  it('are none right after copying, nor for the noise of sums', () => {
    const plan = getPlanWithLibrary();
    expect(getLibraryDifferences(plan, defaultShop)).toEqual([]);
    expect(getLibraryDifferences(plan, setAtPath(defaultShop, ['vises', 2, 'jawHeight'], 40 + 1e-13))).toEqual([]);
  });

  it('name the entry and the fields', () => {
    const plan = getPlanWithLibrary();
    const shop = setAtPath(setAtPath(defaultShop, ['vises', 2, 'jawHeight'], 55), ['vises', 2, 'screw', 'lead'], 4);
    expect(getLibraryDifferences(plan, shop)).toEqual([
      { list: 'vises', id: 'vise-125mm', name: '125 mm machine vise', kind: 'changed', fields: ['jawHeight', 'screw'] },
    ]);
  });

  it('tell of an entry the shop does not have', () => {
    const shop = { ...defaultShop, saws: [] };
    expect(getLibraryDifferences(getPlanWithLibrary(), shop)).toMatchObject([{ id: 'saw-band', kind: 'missing' }]);
  });

  it('are gone once the copies are taken anew, and entries the shop lacks stay', () => {
    const plan = getPlanWithLibrary();
    const shop: Shop = { ...setAtPath(defaultShop, ['vises', 2, 'jawHeight'], 55), saws: [] };
    const fresh = refreshLibrary(plan, shop);
    expect(fresh.library.vises[0]?.jawHeight).toBe(55);
    expect(fresh.library.saws).toEqual(plan.library.saws);
    expect(getLibraryDifferences(fresh, shop).map(({ kind }) => kind)).toEqual(['missing']);
  });
});
