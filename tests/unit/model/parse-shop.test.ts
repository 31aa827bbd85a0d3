import { describe, expect, it } from 'vitest';
import { defaultShop } from '../../../shared/model/catalogue/default-shop';
import { setAtPath } from '../../../shared/model/edit';
import { parseShop, parseShopText } from '../../../shared/model/parse-shop';
import { serializeShop } from '../../../shared/model/serialize';

function getSentence(value: unknown): string {
  const result = parseShop(value);
  return result.ok ? '' : result.problem.sentence;
}

describe('a shop library', () => {
  it('is read back as it was written, without remarks', () => {
    const text = serializeShop(defaultShop);
    const read = parseShopText(text);
    if (!read.ok) throw new Error(read.problem.sentence);
    expect(read.remarks).toEqual([]);
    expect(serializeShop(read.shop)).toBe(text);
    expect(read.shop.materials).toEqual(defaultShop.materials);
  });

  it('gets the first value of a house rule it does not have yet, and says so', () => {
    const { jawFloor: _jawFloor, ...rules } = defaultShop.rules;
    const read = parseShop({ ...defaultShop, rules });
    if (!read.ok) throw new Error(read.problem.sentence);
    expect(read.shop.rules).toEqual(defaultShop.rules);
    expect(read.remarks).toEqual(['House rules that were missing got their first values: Jaw kept below a shelf.']);
  });

  it.each([
    [['rules', 'holdFactorStop'], 99, 'Rules, hold factor stop: must be at most 10, not 99.'],
    [['vises', 0, 'jawWidth'], 0, 'Vise 1, jaw width: must be more than 0, not 0.'],
    [['vises', 1, 'screw', 'threadFriction'], -0.1, 'Vise 2, screw, thread friction: must be 0 or more, not -0.1.'],
    [['bars', 2, 'lengths', 0, 'price'], -1, 'Bar 3, length 1, price: must be 0 or more, not -1.'],
    [
      ['sizeClasses', 0, 'widthBands', 1, 'minus'],
      null,
      'Size class 1, width band 2, minus: must be a number, not empty.',
    ],
    [['tools', 0, 'kind'], 'lathe', 'Tool 1, kind: cannot be "lathe".'],
    [
      ['materials', 1, 'id'],
      defaultShop.materials[0]?.id,
      'Material 2: has the same id, "material-low-carbon-steel", as material 1.',
    ],
  ])('%j = %j is refused by name', (path, value, sentence) => {
    expect(getSentence(setAtPath<unknown>(defaultShop, path, value))).toBe(sentence);
  });

  it('is not a plan, nor from the future, nor half there', () => {
    expect(getSentence({ format: 'kerfgrip-plan', version: 1 })).toBe('The file is not a shop library: it is a plan.');
    expect(getSentence({ ...defaultShop, version: 3 })).toContain('file version 3');
    const cut = parseShopText(serializeShop(defaultShop).slice(0, 9000));
    expect(cut.ok || cut.problem.code).toBe('file-truncated');
  });
});
