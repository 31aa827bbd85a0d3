import { describe, expect, it } from 'vitest';
import { computeBeamDeflection, computeSteppedDeflection, type Stiffness } from '../../shared/engine/beam';
import {
  computeCarryingLength,
  computeShapedWallBend,
  computeWallDeflection,
  computeWallSecondMoment,
} from '../../shared/engine/plate';
import { computePlateDeflection } from './support/plate-series';

const steel = { thickness: 10, youngsModulusMPa: 210_000 };
const height = 40;

/** 45° estimate over the series solution, load at the top edge. */
function getRatio(lengthOverHeight: number, fromEnd: number): number {
  const length = lengthOverHeight * height;
  const series = computePlateDeflection({
    ...steel,
    length,
    height,
    poisson: 0.3,
    loadX: fromEnd,
    loadY: height,
  });
  const wall = { loadHeight: height, thickness: steel.thickness, length, loadFromEnd: fromEnd };
  return computeWallDeflection(1, steel.youngsModulusMPa, wall) / series;
}

describe('the series solution of the plate is itself right', () => {
  it('a strip that is narrow for its height bends as a beam, within 2 %', () => {
    expect(Math.abs(getRatio(0.1, 2) - 1)).toBeLessThan(0.02);
  });

  // Jaramillo, Deflections and moments due to a concentrated load on a cantilever plate of infinite length, J. Appl. Mech.
  // 17 (1950): 0.168 F a² / D under a load on the free edge, ν 0.3. From memory.
  it('a long wall loaded in the middle of its top edge comes near the published 0.168 F a² / D', () => {
    const rigidity = (steel.youngsModulusMPa * steel.thickness ** 3) / (12 * (1 - 0.3 ** 2));
    const series = computePlateDeflection({ ...steel, length: 160, height, poisson: 0.3, loadX: 80, loadY: height });
    expect((series * rigidity) / height ** 2).toBeGreaterThan(0.16);
    expect((series * rigidity) / height ** 2).toBeLessThan(0.17);
  });
});

describe('how far the 45° estimate of a proud wall is off', () => {
  it.each([
    [0.5, 1.035],
    [1, 1.014],
    [2, 0.869],
    [3, 1.04],
    [4, 1.102],
    [6, 1.144],
  ])('in the middle of a wall %f times as long as it is high: %f of the series', (lengthOverHeight, ratio) => {
    expect(getRatio(lengthOverHeight, (lengthOverHeight * height) / 2)).toBeCloseTo(ratio, 2);
  });

  it.each([
    [0.5, 0.937],
    [1, 0.746],
    [2, 0.873],
    [3, 0.88],
    [6, 0.88],
  ])('at the end of a wall %f times as long as it is high: %f of the series', (lengthOverHeight, ratio) => {
    expect(getRatio(lengthOverHeight, 0)).toBeCloseTo(ratio, 2);
  });

  it('errs to the high side where the load stands below the top edge in the middle', () => {
    for (const share of [0.25, 0.5, 0.75]) {
      const plate = { ...steel, length: 240, height, poisson: 0.3, loadX: 120, loadY: share * height };
      const wall = { loadHeight: share * height, thickness: 10, length: 240, loadFromEnd: 120 };
      expect(computeWallDeflection(1, steel.youngsModulusMPa, wall)).toBeGreaterThan(computePlateDeflection(plate));
    }
  });
});

describe('length of wall that carries', () => {
  it('is twice the height in the middle, once at the end, and never more than the wall', () => {
    const wall = { loadHeight: 20, thickness: 10, length: 200, loadFromEnd: 100 };
    expect(computeCarryingLength(wall)).toBe(40);
    expect(computeCarryingLength({ ...wall, loadFromEnd: 0 })).toBe(20);
    expect(computeCarryingLength({ ...wall, loadFromEnd: 5 })).toBe(25);
    expect(computeCarryingLength({ ...wall, length: 12, loadFromEnd: 6 })).toBe(12);
  });
});

/** E I w'''' = q on equal steps, both ends clamped, by central differences: independent of the beam formulas. */
function solveFixedBeam(forceN: number, span: number, stiffness: Stiffness, steps: number): number {
  const h = span / steps;
  const count = steps - 1;
  const matrix = Array.from({ length: count }, () => new Array<number>(count).fill(0));
  const right = new Array<number>(count).fill(0);
  const stencil = [1, -4, 6, -4, 1];
  for (let i = 0; i < count; i += 1) {
    for (let offset = -2; offset <= 2; offset += 1) {
      let column = i + offset;
      // A clamped end mirrors the point beyond it: w(-h) = w(h).
      if (column === -2) column = 0;
      if (column === count + 1) column = count - 1;
      if (column >= 0 && column < count)
        (matrix[i] as number[])[column] = (matrix[i]?.[column] ?? 0) + (stencil[offset + 2] ?? 0);
    }
  }
  right[(count - 1) / 2] = (forceN * h ** 3) / (stiffness.youngsModulusMPa * stiffness.secondMomentMm4);
  for (let pivot = 0; pivot < count; pivot += 1) {
    for (let row = pivot + 1; row < Math.min(count, pivot + 3); row += 1) {
      const factor = (matrix[row]?.[pivot] ?? 0) / (matrix[pivot]?.[pivot] ?? 1);
      for (let column = pivot; column < Math.min(count, pivot + 6); column += 1) {
        (matrix[row] as number[])[column] = (matrix[row]?.[column] ?? 0) - factor * (matrix[pivot]?.[column] ?? 0);
      }
      right[row] = (right[row] ?? 0) - factor * (right[pivot] ?? 0);
    }
  }
  const deflection = new Array<number>(count).fill(0);
  for (let row = count - 1; row >= 0; row -= 1) {
    let sum = right[row] ?? 0;
    for (let column = row + 1; column < Math.min(count, row + 6); column += 1) {
      sum -= (matrix[row]?.[column] ?? 0) * (deflection[column] ?? 0);
    }
    deflection[row] = sum / (matrix[row]?.[row] ?? 1);
  }
  return Math.max(...deflection);
}

describe('beam formulas against finite differences', () => {
  const stiffness = { youngsModulusMPa: 210_000, secondMomentMm4: 360 };

  it('a bar fixed at both ends, within 0.1 %', () => {
    const exact = computeBeamDeflection('fixedCentre', 500, 100, stiffness);
    expect(Math.abs(solveFixedBeam(500, 100, stiffness, 200) / exact - 1)).toBeLessThan(1e-3);
  });

  it('a stepped tool, by integrating its curvature twice in small steps, within 0.1 %', () => {
    const steps = [
      { length: 20, diameter: 8 },
      { length: 15, diameter: 6 },
      { length: 25, diameter: 10 },
    ];
    const formula = computeSteppedDeflection(300, 210_000, steps);
    // From the holder outwards: slope and deflection add up.
    const total = 60;
    const count = 60_000;
    const h = total / count;
    let slope = 0;
    let deflection = 0;
    for (let index = 0; index < count; index += 1) {
      const fromTip = total - (index + 0.5) * h;
      const diameter = fromTip < 20 ? 8 : fromTip < 35 ? 6 : 10;
      slope += ((300 * fromTip) / (210_000 * ((Math.PI * diameter ** 4) / 64))) * h;
      deflection += slope * h;
    }
    expect(Math.abs(deflection / formula - 1)).toBeLessThan(1e-3);
  });
});

describe('a wall whose thickness changes', () => {
  const even = [
    { x: 0, thickness: 6 },
    { x: 100, thickness: 6 },
  ];

  it('of one thickness is b T³ / 12', () => {
    expect(computeWallSecondMoment(even, 20, 60)).toBeCloseTo((40 * 6 ** 3) / 12, 9);
    expect(computeWallSecondMoment(even, -50, 500)).toBeCloseTo((100 * 6 ** 3) / 12, 9);
  });

  it('that tapers is the integral of T³ / 12', () => {
    const taper = [
      { x: 0, thickness: 4 },
      { x: 30, thickness: 10 },
    ];
    // ∫ (4 + x/5)³ dx / 12 = (5/4) (10⁴ - 4⁴) / 12
    expect(computeWallSecondMoment(taper, 0, 30)).toBeCloseTo((1.25 * (10 ** 4 - 4 ** 4)) / 12, 9);
  });

  it('bends more in a web, less beside a boss than the web alone would', () => {
    const web = [
      { x: 0, thickness: 12 },
      { x: 40, thickness: 12 },
      { x: 40, thickness: 5 },
      { x: 60, thickness: 5 },
      { x: 60, thickness: 12 },
      { x: 100, thickness: 12 },
    ];
    const bend = (points: typeof web) =>
      computeShapedWallBend(200, 210_000, { points, x: 50, loadHeight: 20 }).deflection;
    const all = (thickness: number) => bend(web.map((point) => ({ ...point, thickness })));
    expect(bend(web)).toBeGreaterThan(all(12));
    expect(bend(web)).toBeLessThan(all(5));
  });
});
