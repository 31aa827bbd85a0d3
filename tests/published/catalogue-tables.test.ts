import { describe, expect, it } from 'vitest';
import { defaultShop } from '../../shared/model/catalogue/default-shop';
import { getKeyNumberSizes, KEY_NUMBERS } from '../../shared/model/catalogue/key-numbers';
import { KEY_SEAT_CUTTERS } from '../../shared/model/catalogue/key-seat-cutters';
import { getScrewHead } from '../../shared/model/catalogue/socket-screws';
import type { Material } from '../../shared/model/shop';

const inch = 25.4;

// Machinery's Handbook, 31st ed., p. 2557, Table 8 (ANSI/ASME B17.2): diameter in inches, widths in 32nds of an inch.
const KEY_TABLE: readonly [diameter: number, widthsIn32nds: readonly number[]][] = [
  [1 / 4, [2]],
  [5 / 16, [2, 3]],
  [3 / 8, [2, 3, 4]],
  [1 / 2, [2, 3, 4]],
  [5 / 8, [3, 4, 5, 6]],
  [3 / 4, [4, 5, 6, 8]],
  [7 / 8, [5, 6, 7, 8]],
  [1, [6, 7, 8, 10, 12]],
  [1 + 1 / 8, [6, 7, 8, 10]],
  [1 + 1 / 4, [6, 7, 8, 10, 12]],
  [1 + 3 / 8, [8, 10, 12]],
  [1 + 1 / 2, [8, 10, 12]],
];

describe('key-seat cutters, ASME B17.2', () => {
  const expected = KEY_TABLE.flatMap(([diameter, widths]) => widths.map((width) => [diameter, width / 32] as const));

  it('are the 41 of the handbook, in its order, made by the number rule', () => {
    const sizes = KEY_NUMBERS.map((keyNumber) => getKeyNumberSizes(keyNumber));
    expect(sizes).toHaveLength(41);
    for (const [index, [diameter, width]] of expected.entries()) {
      expect((sizes[index]?.diameter ?? 0) / inch, KEY_NUMBERS[index]).toBeCloseTo(diameter, 9);
      expect((sizes[index]?.width ?? 0) / inch, KEY_NUMBERS[index]).toBeCloseTo(width, 9);
    }
  });

  it('stand in the shop one for each number', () => {
    const standard = KEY_SEAT_CUTTERS.filter(({ id }) => !id.startsWith('tool-key-long'));
    expect(standard.map(({ keyNumber }) => keyNumber)).toEqual([...KEY_NUMBERS]);
  });

  it.each([
    ['404', 1 / 2, 1 / 8],
    ['202', 1 / 4, 1 / 16],
    ['1012', 1.5, 5 / 16],
    ['303', 3 / 8, 3 / 32],
    ['204', 1 / 2, 1 / 16],
  ])('%s is %d in across and %d in wide', (keyNumber, diameter, width) => {
    const sizes = getKeyNumberSizes(keyNumber);
    expect((sizes?.diameter ?? 0) / inch).toBeCloseTo(diameter, 9);
    expect((sizes?.width ?? 0) / inch).toBeCloseTo(width, 9);
  });

  it.each(['', '4', '44', '4004004', 'abc', '400', '-404', '404.25'])('%j is no key number', (text) => {
    expect(getKeyNumberSizes(text)).toBeUndefined();
  });
});

describe('socket-head cap screws', () => {
  // ISO 4762: head diameter dk and height k, mm; counterbore DIN 974-1 row 1.
  it.each([
    ['M6', 10, 6, 11, 6.8],
    ['M8', 13, 8, 15, 9],
    ['M10', 16, 10, 18, 11],
    ['M12', 18, 12, 20, 13],
    ['M16', 24, 16, 26, 17.5],
  ])('%s: head %d × %d, counterbore %d × %d mm', (thread, diameter, height, counterbore, depth) => {
    expect(getScrewHead(thread)).toMatchObject({
      headDiameter: diameter,
      headHeight: height,
      counterboreDiameter: counterbore,
      counterboreDepth: depth,
    });
  });

  // ASME B18.3: largest head diameter and height, inches; counterbore of its appendix from memory.
  it.each([
    ['1/4', 0.375, 0.25, 0.438],
    ['5/16', 0.469, 0.312, 0.531],
    ['3/8', 0.562, 0.375, 0.625],
    ['1/2', 0.75, 0.5, 0.812],
    ['5/8', 0.938, 0.625, 1],
  ])('%s: head %d × %d, counterbore %d in', (thread, diameter, height, counterbore) => {
    const head = getScrewHead(thread);
    expect((head?.headDiameter ?? 0) / inch).toBeCloseTo(diameter, 9);
    expect((head?.headHeight ?? 0) / inch).toBeCloseTo(height, 9);
    expect(Math.abs((head?.counterboreDiameter ?? 0) / inch - counterbore)).toBeLessThan(0.0006);
  });

  it('are found with their pitch, and not when they are outside the table', () => {
    expect(getScrewHead('3/8-16')?.thread).toBe('3/8');
    expect(getScrewHead('m10x1.5')?.thread).toBe('M10');
    expect(getScrewHead('M20')).toBeUndefined();
    expect(getScrewHead('constructor')).toBeUndefined();
  });
});

function findMaterial(id: string): Material {
  const found = defaultShop.materials.find((material) => material.id === id);
  if (found === undefined) throw new Error(`There is no ${id}.`);
  return found;
}

describe('materials', () => {
  // Mass of flat bar, 0.00785 kg per mm² and metre: the figure of the EN 10058 tables.
  it.each([
    [20, 5, 0.785],
    [50, 10, 3.925],
    [100, 20, 15.7],
  ])('%d × %d mm of steel weighs %d kg/m', (width, thickness, kgPerM) => {
    const { densityKgM3 } = findMaterial('material-low-carbon-steel');
    expect((width * thickness * densityKgM3) / 1e6).toBeCloseTo(kgPerM, 9);
  });

  // Strengths in MPa: the standard is named with each.
  it.each([
    ['material-304', 205, 515, 'ASTM A276, over 12.7 mm'],
    ['material-316', 205, 515, 'ASTM A276, over 12.7 mm'],
    ['material-6061-t6', 241, 262, 'ASTM B221'],
    ['material-6082-t6', 250, 295, 'EN 755-2, to 20 mm'],
    ['material-42crmo4-qt', 750, 1000, 'EN 10083-3, flat 8 to 20 mm'],
    ['material-c954', 221, 586, 'ASTM B505'],
    ['material-ti-6al-4v', 828, 895, 'ASTM B348 grade 5'],
  ])('%s yields at %d and breaks at %d MPa (%s)', (id, yieldStrengthMPa, tensileStrengthMPa) => {
    expect(findMaterial(id)).toMatchObject({ yieldStrengthMPa, tensileStrengthMPa });
  });

  // Moduli in GPa: Callister, Materials Science and Engineering, Table B.2.
  it.each([
    ['material-304', 193],
    ['material-316', 193],
    ['material-4140-annealed', 207],
  ])('%s has a modulus of %d GPa', (id, gpa) => {
    expect(findMaterial(id).youngsModulusMPa).toBe(gpa * 1000);
  });

  it.each([
    ['material-6061-t6', 68.9, 2.7, 'ASTM B221 data'],
    ['material-6082-t6', 70, 2.7, 'EN 755-2 data'],
    ['material-ti-6al-4v', 114, 4.43, 'ASTM B348 data'],
    ['material-c954', 107, 7.45, 'ASTM B505, 0.269 lb/in³; modulus from memory'],
  ])('%s has a modulus of %d GPa and %d g/cm³ (%s)', (id, gpa, density) => {
    expect(findMaterial(id).youngsModulusMPa).toBeCloseTo(gpa * 1000, 6);
    expect(findMaterial(id).densityKgM3).toBeCloseTo(density * 1000, 6);
  });

  it('grey iron GJL-250 breaks at 250 MPa at the least (EN 1561) and weighs 7.2 g/cm³', () => {
    expect(findMaterial('material-grey-iron')).toMatchObject({ tensileStrengthMPa: 250, densityKgM3: 7200 });
  });

  // kc1.1 in MPa and mc as printed beside the groups of VDI 3323 in three issues of one table.
  it.each([
    ['material-low-carbon-steel', 1350, 0.21],
    ['material-4140-annealed', 1775, 0.24],
    ['material-42crmo4-qt', 1725, 0.24],
    ['material-304', 2150, 0.2],
    ['material-316', 2150, 0.2],
    ['material-6061-t6', 800, 0.25],
    ['material-6082-t6', 800, 0.25],
    ['material-c360', 700, 0.27],
  ])('%s takes kc1.1 %d MPa and mc %d of its group', (id, kc11MPa, mc) => {
    expect(findMaterial(id).kienzle).toMatchObject({ family: 'vdi3323', kc11MPa, mc });
  });

  it('are at least the ten that small parts are made of, each with the family of its force constants', () => {
    expect(defaultShop.materials.length).toBeGreaterThanOrEqual(10);
    for (const { kienzle, id } of defaultShop.materials) {
      expect(kienzle.family, id).toBe('vdi3323');
      expect(kienzle.source, id).toContain('VDI 3323');
      expect(kienzle.source, id).toContain('measure your own');
    }
  });
});
