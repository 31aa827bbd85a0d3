import { expect, test } from 'vitest';
import { defaultShop } from '../../../shared/model/catalogue/default-shop';
import { compareShops, mergeShops } from '../../../shared/model/merge-shop';
import { parseShopText } from '../../../shared/model/parse-shop';
import { serializeShop } from '../../../shared/model/serialize';
import type { Shop } from '../../../shared/model/shop';

const [vise, ...otherVises] = defaultShop.vises;
const [bar] = defaultShop.bars;
if (vise === undefined || bar === undefined) throw new Error('The built-in shop has no vise or no bar.');

const material = { ...structuredClone(defaultShop.materials[0]), id: 'material-of-theirs', name: 'Their steel' };
const theirs: Shop = {
  ...structuredClone(defaultShop),
  materials: [...defaultShop.materials, material as Shop['materials'][number]],
  vises: [{ ...vise, jawWidth: vise.jawWidth + 1 }, ...otherVises],
  bars: [{ ...bar, id: 'bar-of-theirs', name: 'Their bar', materialId: 'material-of-theirs' }],
};

test('every entry of the other shop is new, changed or the same, with the fields that differ', () => {
  const lines = compareShops(defaultShop, theirs);
  expect(lines.filter(({ kind }) => kind !== 'same')).toEqual([
    { list: 'materials', id: 'material-of-theirs', name: 'Their steel', kind: 'new', fields: [] },
    { list: 'bars', id: 'bar-of-theirs', name: 'Their bar', kind: 'new', fields: [] },
    { list: 'vises', id: vise.id, name: vise.name, kind: 'changed', fields: ['jawWidth'] },
  ]);
});

test('only what is chosen is taken, and nothing is taken away', () => {
  const merged = mergeShops(defaultShop, theirs, [{ list: 'vises', id: vise.id }]);
  expect(merged.vises[0]?.jawWidth).toBe(vise.jawWidth + 1);
  expect({ ...merged, vises: defaultShop.vises }).toEqual(defaultShop);
});

test('a bar brings the material that it names, where it is missing', () => {
  const merged = mergeShops(defaultShop, theirs, [{ list: 'bars', id: 'bar-of-theirs' }]);
  expect(merged.bars).toHaveLength(defaultShop.bars.length + 1);
  expect(merged.materials.at(-1)?.id).toBe('material-of-theirs');
  const read = parseShopText(serializeShop(merged));
  expect(read).toMatchObject({ ok: true, remarks: [] });
});

test('a shop merged with itself is as it was', () => {
  const lines = compareShops(defaultShop, defaultShop);
  expect(lines.every(({ kind }) => kind === 'same')).toBe(true);
  expect(mergeShops(defaultShop, defaultShop, lines)).toEqual(defaultShop);
});
