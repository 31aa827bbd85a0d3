import { describe, expect, it } from 'vitest';
import {
  computeClampForceNeededN,
  computeLiftFactor,
  computeOpeningMomentNmm,
  computeRollOutMomentNmm,
  computeSlipFactor,
  computeTipFactor,
  computeTipMomentNmm,
} from '../../shared/engine/vise-grip';

// Statics of two friction faces; the side force is that of group 2 in the milling checks (783.4 N, Tschätsch), factor 2;
// coefficients as a chuck-maker's clamping guide lists them for smooth, diamond and gripper jaws.
describe('clamp force that keeps a bar from slipping with a factor of two', () => {
  it.each([
    [0.07, 11191],
    [0.1, 7834],
    [0.15, 5223],
    [0.2, 3917],
    [0.35, 2238],
  ])('friction %f asks %f N', (friction, clampForceN) => {
    const needed = computeClampForceNeededN(2, 783.4, friction);
    expect(Math.abs(needed - clampForceN)).toBeLessThan(1);
    const grip = { clampForceN: needed, friction, flatGrip: 10, bothFaces: false };
    const load = { sideForceN: 783.4, liftForceN: 0, loadHeight: 20 };
    expect(computeSlipFactor(grip, load)).toBeCloseTo(2, 9);
  });

  it('an upward force shares the same friction', () => {
    const grip = { clampForceN: 10_000, friction: 0.1, flatGrip: 10, bothFaces: false };
    expect(computeSlipFactor(grip, { sideForceN: 300, liftForceN: 400, loadHeight: 20 })).toBeCloseTo(4, 9);
    expect(computeLiftFactor(grip, { sideForceN: 0, liftForceN: 400, loadHeight: 20 })).toBeCloseTo(5, 9);
  });
});

// Worked example of the pressure wedge: C 10 kN, g 6, e 20, F 500 N.
describe('tipping about the gripped band', () => {
  const grip = { clampForceN: 10_000, friction: 0.1, flatGrip: 6, bothFaces: false };
  const load = { sideForceN: 500, liftForceN: 0, loadHeight: 20 };

  it('the moment is 11.5 N·m: over 10, where the lower corner opens, under 30, where it rolls out', () => {
    expect(computeTipMomentNmm(grip, load)).toBeCloseTo(11_500, 9);
    expect(computeOpeningMomentNmm(grip)).toBeCloseTo(10_000, 9);
    expect(computeRollOutMomentNmm(grip)).toBeCloseTo(30_000, 9);
    expect(computeTipFactor(grip, load)).toBeCloseTo(2.61, 2);
  });

  it('two rigid faces hold twice as much', () => {
    expect(computeTipFactor({ ...grip, bothFaces: true }, load)).toBeCloseTo(2 * 2.6087, 3);
  });
});
