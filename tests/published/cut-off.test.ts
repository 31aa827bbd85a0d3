import { describe, expect, it } from 'vitest';
import {
  computeDepthPerSide,
  computeDiameterNeeded,
  computeReachBeside,
  computeRibAtDepth,
} from '../../shared/engine/cutter-reach';
import {
  computeRibNeeded,
  computeRibSection,
  computeRibShearN,
  computeRibStressMPa,
  computeSnapForceN,
  getEvenRib,
  SHEAR_YIELD_RATIO,
} from '../../shared/engine/rib-strength';

const INCH = 25.4;
const LBF = 4.4482216152605;
const PSI = LBF / INCH ** 2;

// Geometry of a key-seat cutter beside a part .500 wide: neck .375, running clearance .010, rib aimed at .010-.030.
describe('reach of key-seat cutters', () => {
  const getReach = (diameter: number) => computeReachBeside(diameter * INCH, 0.375 * INCH, 0.01 * INCH) / INCH;

  it.each([
    [0.75, 0.1775, 0.145],
    [0.875, 0.24, 0.02],
    [1, 0.3025, -0.105],
  ])('a %f in cutter reaches %f and would leave %f', (diameter, reach, rib) => {
    expect(getReach(diameter)).toBeCloseTo(reach, 4);
    expect(computeRibAtDepth(0.5, 2, getReach(diameter))).toBeCloseTo(rib, 4);
  });

  // Bound by the 1/2 in straight shank of standard key-seat cutters, where the neck is too short: geometry.
  it.each([
    [0.75, 0.125],
    [0.875, 0.1875],
    [1, 0.25],
    [1.25, 0.375],
    [1.5, 0.5],
  ])('a %f in cutter on a 1/2 in shank reaches no more than %f', (diameter, reach) => {
    expect(computeReachBeside(diameter, 0.5, 0)).toBeCloseTo(reach, 12);
  });

  it('a rib of .030 asks for a cutter of .865', () => {
    const needed = computeDiameterNeeded(0.5 * INCH, 0.03 * INCH, 2, 0.375 * INCH, 0.01 * INCH);
    expect(needed / INCH).toBeCloseTo(0.865, 4);
  });

  it('a 1 in cutter is held to .240 for a rib of .020, not to its full reach', () => {
    expect(computeDepthPerSide(0.5, 0.02, 2, getReach(1))).toBeCloseTo(0.24, 9);
  });
});

// A rib .010 × 1.500 in under 5 lbf, at the undercut's own height and at the top of the part; 27 000 psi allowed.
describe('a rib that is strong enough now, not later', () => {
  const rib = getEvenRib(1.5 * INCH, 0.01 * INCH);
  const getPsi = (heightInch: number) => computeRibStressMPa(rib, 5 * LBF, heightInch * INCH) / PSI;

  it('12 500 psi while it is undercut', () => {
    expect(getPsi(0.0625)).toBeCloseTo(12_500, 6);
  });

  it('200 000 psi under a chamfer on top afterwards', () => {
    expect(getPsi(1)).toBeCloseTo(200_000, 5);
  });

  it('needs .0272; .030 bears 22 222 psi', () => {
    const needed = computeRibNeeded(5 * LBF, INCH, 27_000 * PSI, 1.5 * INCH);
    expect(needed / INCH).toBeCloseTo(0.0272, 4);
    const thicker = computeRibStressMPa(getEvenRib(1.5 * INCH, 0.03 * INCH), 5 * LBF, INCH);
    expect(thicker / PSI).toBeCloseTo(22_222, 0);
  });
});

// von Mises and the section moduli of a rectangle: exact. A tab 3 × 1 mm, σy 240.
describe('strength of a tab', () => {
  const tab = getEvenRib(3, 1);

  it('yields in shear at 415.7 N', () => {
    expect(SHEAR_YIELD_RATIO).toBeCloseTo(0.57735, 5);
    expect(computeRibShearN(tab, 240)).toBeCloseTo(415.7, 1);
  });

  it('yields at 120 N·mm and folds at 180 N·mm', () => {
    expect(computeRibStressMPa(tab, 120, 1)).toBeCloseTo(240, 9);
    expect(computeSnapForceN(tab, 240, 1)).toBeCloseTo(180, 9);
  });

  it('20 × 6 has a plastic modulus of 180 and an elastic one of 120 mm³', () => {
    const section = getEvenRib(20, 6);
    expect(section.squareMm3 / 4).toBeCloseTo(180, 9);
    expect(section.squareMm3 / 6).toBeCloseTo(120, 9);
  });

  it('a tapered rib is the integral of its squares', () => {
    const taper = computeRibSection([{ length: 10, thickness: 1, thicknessEnd: 3 }]);
    const strips = Array.from({ length: 1000 }, (_, index) => 1 + (2 * (index + 0.5)) / 1000);
    expect(taper.squareMm3).toBeCloseTo(
      strips.reduce((sum, b) => sum + b ** 2 * 0.01, 0),
      3,
    );
    expect(taper.areaMm2).toBeCloseTo(20, 9);
  });
});
