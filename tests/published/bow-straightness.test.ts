import { describe, expect, it } from 'vitest';
import {
  computeBowConstant,
  computeCurvatureBow,
  computeLayerCurvature,
  computeReleaseBow,
} from '../../shared/engine/bow';
import { computeForcedStraight } from '../../shared/engine/forced-straight';
import { getClassBow } from '../../shared/engine/straightness';
import type { SizeClass } from '../../shared/model/shop';

const INCH = 25.4;

function classOf(perLength: number, bow: number, overLength: number): SizeClass {
  return {
    id: 'class',
    name: '',
    standard: '',
    form: 'coldFinished',
    surface: 'drawn',
    widthBands: [],
    thicknessBands: [],
    bandBy: 'each',
    skinBands: [],
    cornerBands: [],
    straightness: { perLength, bow, overLength, source: '' },
    source: '',
  };
}

// Constant curvature and layer removal, worked from beam geometry and equilibrium (Stoney's thin limit).
describe('bow by curvature', () => {
  it('κ 1e-5 over 300 mm bows 0.1125 mm', () => {
    expect(computeCurvatureBow(1e-5, 300)).toBeCloseTo(0.1125, 10);
  });

  it('a 1 mm layer at 100 MPa off 20 mm of steel bows 0.0937 mm over 300 mm', () => {
    const curvature = computeLayerCurvature(100, 1, 20, 210_000);
    expect(curvature).toBeCloseTo(8.3311e-6, 10);
    expect(computeCurvatureBow(curvature, 300)).toBeCloseTo(0.0937246, 7);
  });

  it('for a thin layer it comes to Stoney’s limit, 0.0804 mm for 1 mm if it were thin', () => {
    const thin = computeLayerCurvature(100, 1e-4, 20, 210_000) * 1e4;
    expect(computeCurvatureBow(thin, 300)).toBeCloseTo(0.0803571, 4);
  });
});

// Bright-steel guide: 1 in 1000 over 1 m is 9 mm over a 3 m bar, as bow goes with the square of length.
describe('bow goes with the square of length', () => {
  it('1 mm over 1 m becomes 9 mm over 3 m, at the same height', () => {
    const constant = computeBowConstant({ bow: 1, length: 1000, height: 20 });
    expect(computeReleaseBow(constant, 3000, 20)).toBeCloseTo(9, 9);
  });
});

// Straightness by standard, rescaled to a 300 mm blank as one curve (ASTM A108 Table A1.4, ASTM A484 [second figure from
// memory], BS 970-3:1991, EN 10278, EN 10058).
describe('straightness of a class over 300 mm, as one curve', () => {
  it.each([
    ['A108, 1/16 in in 10 ft', 1.5875, 3048, 0.01538],
    ['A108, 1/4 in in 10 ft', 6.35, 3048, 0.06152],
    ['A484 cold finished, 1/16 in in 5 ft', 1.5875, 1524, 0.06152],
    ['A484 hot finished, 1/8 in in 5 ft', 3.175, 1524, 0.12303],
    ['BS 970 flats, 1/500 of 3 m', 6, 3000, 0.06],
    ['EN 10278, 1.5 mm in a metre', 1.5, 1000, 0.135],
    ['EN 10058, 0.4 % of a metre', 4, 1000, 0.36],
  ])('%s', (_class, bow, overLength, expected) => {
    expect(getClassBow(classOf(0, bow, overLength), 300)).toBeCloseTo(expected, 4);
  });

  it('where a standard’s figure grows with length, the larger of the two is the guarantee', () => {
    const hotRolled = classOf(0.004, 4, 1000);
    expect(getClassBow(hotRolled, 300)).toBeCloseTo(1.2, 9);
    expect(getClassBow(hotRolled, 3000)).toBeCloseTo(36, 9);
  });
});

// Identities of a simply supported beam: Mechanical Engineer's Data Handbook, coefficient 1/48.
describe('a bent bar pulled straight', () => {
  const section = { height: 2 * INCH, thickness: 0.5 * INCH };
  const forced = computeForcedStraight(0.5, 300, section, 200, 207_000);

  it('asks 48 E I δ / L³', () => {
    const secondMoment = (50.8 * 12.7 ** 3) / 12;
    expect(forced.forceN).toBeCloseTo((48 * 207_000 * secondMoment * 0.5) / 300 ** 3, 6);
  });

  it('gives back its bow, rescaled to the part by the square of length', () => {
    expect(forced.springBack).toBeCloseTo(0.5 * (200 / 300) ** 2, 12);
  });

  it('is bent by the strain of that curve, σ = E κ T / 2 with κ = 8 δ / L²', () => {
    expect(forced.stressMPa).toBeCloseTo((207_000 * ((8 * 0.5) / 300 ** 2) * 12.7) / 2, 9);
  });
});
