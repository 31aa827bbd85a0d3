import { describe, expect, it } from 'vitest';
import { defaultShop } from '../../shared/model/catalogue/default-shop';
import type { SizeBand, SizeClass } from '../../shared/model/shop';

const inch = 25.4;

function findClass(id: string): SizeClass {
  const found = defaultShop.sizeClasses.find((sizeClass) => sizeClass.id === id);
  if (found === undefined) throw new Error(`There is no ${id}.`);
  return found;
}

function findBand(bands: readonly SizeBand[], size: number): SizeBand {
  const found = bands.find(({ over, upTo }) => size > over && size <= upTo);
  if (found === undefined) throw new Error(`There is no band for ${size}.`);
  return found;
}

/** ISO 286-1: IT11 is 100 tolerance units i = 0.45 D^(1/3) + 0.001 D µm, D the geometric mean of the range. */
function computeIt11Mm(over: number, upTo: number): number {
  const mean = Math.sqrt(Math.max(over, 1) * upTo);
  return (100 * (0.45 * Math.cbrt(mean) + 0.001 * mean)) / 1000;
}

describe('EN 10278 bright flats, h11 of ISO 286-2', () => {
  const { widthBands, thicknessBands } = findClass('class-en10278-h11');

  it.each([
    [3, 0.06],
    [6, 0.075],
    [10, 0.09],
    [18, 0.11],
    [30, 0.13],
    [50, 0.16],
    [80, 0.19],
    [100, 0.22],
  ])('width to %d mm is minus %d mm', (size, minus) => {
    expect(findBand(widthBands, size)).toMatchObject({ minus, plus: 0 });
  });

  it('agree with the formula of ISO 286-1 to its rounding', () => {
    for (const { over, upTo, minus } of [...widthBands, ...thicknessBands].filter((band) => band.upTo <= 50)) {
      expect(Math.abs(minus - computeIt11Mm(over, upTo)), `over ${over} to ${upTo}`).toBeLessThan(0.006);
    }
  });

  it.each([
    [101, 0.5],
    [150, 0.5],
    [151, 1],
  ])('width %d mm is plus or minus %d mm (EN 10278)', (size, tolerance) => {
    expect(findBand(widthBands, size)).toMatchObject({ minus: tolerance, plus: tolerance });
  });

  it('thickness over 60 mm is h12 (EN 10278)', () => {
    expect(findBand(thicknessBands, 70).minus).toBe(0.3);
    expect(findBand(thicknessBands, 100).minus).toBe(0.35);
  });

  it('thickness over 0.20 % carbon is twice as wide (EN 10278)', () => {
    for (const band of findClass('class-en10278-alloy').thicknessBands) {
      expect(band.minus).toBeCloseTo(2 * findBand(thicknessBands, band.upTo).minus, 9);
    }
  });
});

describe('EN 10058 hot-rolled flats', () => {
  const { widthBands, thicknessBands, straightness } = findClass('class-en10058');

  it.each([
    [10, 0.75],
    [40, 0.75],
    [41, 1],
    [80, 1],
    [100, 1.5],
    [120, 2],
    [150, 2.5],
  ])('width %d mm is plus or minus %d mm', (size, tolerance) => {
    expect(findBand(widthBands, size)).toMatchObject({ minus: tolerance, plus: tolerance });
  });

  it.each([
    [12, 0.5],
    [20, 0.5],
    [21, 1],
    [40, 1],
    [60, 1.5],
  ])('thickness %d mm is plus or minus %d mm', (size, tolerance) => {
    expect(findBand(thicknessBands, size)).toMatchObject({ minus: tolerance, plus: tolerance });
  });

  it('straightness is 0.4 % of the length: 0.36 mm at 300 mm by the square of the length from 1 m', () => {
    expect(straightness.perLength * 1000).toBe(4);
    expect(straightness.bow * (300 / straightness.overLength) ** 2).toBeCloseTo(0.36, 9);
  });
});

describe('ASTM A108 cold-finished flats', () => {
  it.each([
    ['class-a108-low-carbon', 1.5, 0.004],
    ['class-a108-low-carbon', 1.75, 0.005],
    ['class-a108-low-carbon', 2, 0.005],
    ['class-a108-low-carbon', 0.75, 0.003],
    ['class-a108-low-carbon', 4, 0.006],
    ['class-a108-medium-carbon', 0.75, 0.004],
    ['class-a108-medium-carbon', 1.5, 0.005],
    ['class-a108-medium-carbon', 3, 0.006],
    ['class-a108-medium-carbon', 4, 0.008],
  ])('%s %d in is minus %d in, never over', (id, size, minus) => {
    const band = findBand(findClass(id).widthBands, size * inch);
    expect(band.minus / inch).toBeCloseTo(minus, 9);
    expect(band.plus).toBe(0);
    expect(findClass(id).bandBy).toBe('width');
  });

  // ASTM A108 Table A1.4, level 1, squares and hexagons 5/8 in and over, shorter than 15 ft.
  it.each([
    ['class-a108-low-carbon', 1 / 8],
    ['class-a108-medium-carbon', 3 / 16],
  ])('%s may bow %d in in 10 ft', (id, bow) => {
    const { straightness } = findClass(id);
    expect(straightness.bow / inch).toBeCloseTo(bow, 9);
    expect(straightness.overLength / inch).toBeCloseTo(120, 9);
    expect(straightness.perLength * 120).toBeCloseTo(bow, 9);
  });
});

describe('ASTM A484 cold-finished stainless', () => {
  it('may bow 1/16 in in 5 ft: 0.0615 mm at 300 mm (from memory)', () => {
    const { straightness } = findClass('class-a484-cold-finished');
    expect(straightness.bow * (300 / straightness.overLength) ** 2).toBeCloseTo(0.06152, 5);
  });
});

// Least stock removal per surface of hot-rolled carbon and alloy bar, inch table; corner radii of hot-rolled square-edge flats.
describe('hot-rolled skin and corners', () => {
  const { skinBands, cornerBands } = findClass('class-en10058');

  it.each([
    [0.5, 0.03],
    [0.75, 0.045],
    [1, 0.06],
    [1.5, 0.075],
    [2, 0.09],
  ])('to %d in, %d in comes off', (size, skin) => {
    expect((skinBands.find(({ upTo }) => size * inch <= upTo)?.skin ?? 0) / inch).toBeCloseTo(skin, 9);
  });

  it('12.7 mm needs 0.76 mm a side', () => {
    expect(skinBands.find(({ upTo }) => 12.7 <= upTo)?.skin).toBeCloseTo(0.762, 9);
  });

  it.each([
    [15, 1.5],
    [25, 2],
    [40, 2.5],
  ])('%d mm thick has corners to %d mm', (thickness, radius) => {
    expect(cornerBands.find(({ upTo }) => thickness <= upTo)?.radius).toBe(radius);
  });
});

describe('aluminium extruded bar, inch table', () => {
  it.each([
    [0.5, 0.009],
    [0.75, 0.01],
    [1, 0.012],
    [1.5, 0.014],
    [2, 0.024],
  ])('%d in is plus or minus %d in', (size, tolerance) => {
    const band = findBand(findClass('class-aluminium-extruded').widthBands, size * inch);
    expect(band.minus / inch).toBeCloseTo(tolerance, 9);
    expect(band.plus).toBe(band.minus);
  });
});

// Bow over a reference length as each standard allows it: ASTM A108 Table A1.4 level 1 (5/8 in and over, under 15 ft,
// squares taken for flats), ASTM A484 cold finished (from memory), EN 10278 flats under 120 mm.
describe('straightness of the size classes', () => {
  it.each([
    ['class-a108-low-carbon', inch / 8, 120 * inch],
    ['class-a108-medium-carbon', (3 * inch) / 16, 120 * inch],
    ['class-a484-cold-finished', inch / 16, 60 * inch],
    ['class-en10278-h11', 1.5, 1000],
    ['class-en10278-alloy', 2, 1000],
  ])('%s bows %f mm in %f mm at the most', (id, bow, overLength) => {
    const { straightness } = findClass(id);
    expect(straightness.bow).toBeCloseTo(bow, 9);
    expect(straightness.overLength).toBeCloseTo(overLength, 9);
    expect(straightness.perLength * overLength).toBeCloseTo(bow, 9);
  });
});
