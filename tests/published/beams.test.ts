import { describe, expect, it } from 'vitest';
import {
  type BeamCase,
  computeBeamDeflection,
  computeBeamMoment,
  computeLongestOverhang,
  computeRectangleSecondMoment,
  computeRoundSecondMoment,
  computeSteppedDeflection,
} from '../../shared/engine/beam';
import { computeToolDeflection } from '../../shared/engine/tool-bending';
import type { EndMill } from '../../shared/model/shop';

const bar = { youngsModulusMPa: 210_000, secondMomentMm4: computeRectangleSecondMoment(20, 6) };

// Coefficients: Mechanical Engineer's Data Handbook, table of beams. Numbers worked for b 20, h 6, L 100, E 210 GPa, 500 N.
describe('beam deflections and moments of the data handbook', () => {
  it.each<[BeamCase, number, number]>([
    ['cantileverEnd', 2.20459, 1],
    ['cantileverUniform', 0.82672, 1 / 2],
    ['simpleCentre', 0.137787, 1 / 4],
    ['fixedCentre', 0.0344466, 1 / 8],
    ['simpleUniform', 0.0861166, 1 / 8],
    ['fixedUniform', 0.0172233, 1 / 12],
  ])('%s', (beamCase, deflection, moment) => {
    expect(computeBeamDeflection(beamCase, 500, 100, bar)).toBeCloseTo(deflection, 5);
    expect(computeBeamMoment(beamCase, 500, 100)).toBeCloseTo(moment * 50_000, 6);
  });

  it('cantilever, simple and fixed with one load stand as 64 : 4 : 1', () => {
    const fixed = computeBeamDeflection('fixedCentre', 1, 1, bar);
    expect(computeBeamDeflection('cantileverEnd', 1, 1, bar) / fixed).toBeCloseTo(64, 9);
    expect(computeBeamDeflection('simpleCentre', 1, 1, bar) / fixed).toBeCloseTo(4, 9);
  });

  it('a round bar has π d⁴ / 64', () => {
    expect(computeRoundSecondMoment(10)).toBeCloseTo((Math.PI * 1e4) / 64, 9);
  });
});

const endMill: EndMill = {
  kind: 'endMill',
  id: 'mill',
  number: '',
  name: 'End mill 12 mm',
  toolMaterial: 'carbide',
  diameter: 12,
  flutes: 4,
  shankDiameter: 12,
  overallLength: 100,
  wearFactor: 1,
  coatingFactor: 1,
  source: '',
  helixDeg: 30,
  fluteLength: 60,
  cornerRadius: 0,
  neck: null,
};

// End mill as a cantilever of equivalent diameter 0.80 D: Kops & Vo, CIRP Annals 39 (1990). 200 N, 50 mm out, D 12.
describe('end mill deflection with the equivalent diameter', () => {
  it.each([
    ['carbide' as const, 1, 0.013645],
    ['carbide' as const, 0.8, 0.033313],
    ['hss' as const, 1, 0.038986],
    ['hss' as const, 0.8, 0.09518],
  ])('%s at %f D', (toolMaterial, factor, deflection) => {
    expect(computeToolDeflection({ ...endMill, toolMaterial }, 200, 50, factor)).toBeCloseTo(deflection, 5);
  });

  it('twice the overhang bends eight times, twice the diameter a sixteenth', () => {
    const once = computeToolDeflection(endMill, 200, 25, 0.8);
    expect(computeToolDeflection(endMill, 200, 50, 0.8) / once).toBeCloseTo(8, 9);
    const thick = computeToolDeflection({ ...endMill, diameter: 24 }, 200, 25, 0.8);
    expect(once / thick).toBeCloseTo(16, 9);
  });

  it('a stepped bar of one diameter is a plain cantilever, and a stiff shank shortens it', () => {
    const plain = computeSteppedDeflection(200, 6e5, [{ length: 50, diameter: 9.6 }]);
    const halves = computeSteppedDeflection(200, 6e5, [
      { length: 20, diameter: 9.6 },
      { length: 30, diameter: 9.6 },
    ]);
    const stiff = computeSteppedDeflection(200, 6e5, [
      { length: 20, diameter: 9.6 },
      { length: 30, diameter: 1000 },
    ]);
    expect(halves).toBeCloseTo(plain, 12);
    expect(stiff).toBeCloseTo(plain * (20 / 50) ** 3, 6);
  });
});

// A 26 in bar, 1.745 × 0.500, in 6 in jaws on 9 in centres; 50 lbf, limit 0.001 in, E 30e6 psi. Worked by hand from the
// beam formulas above.
describe('a long bar in two or three vises', () => {
  const inch = 25.4;
  const lbf = 4.4482216152605;
  const psi = lbf / inch ** 2;
  const long = {
    youngsModulusMPa: 30e6 * psi,
    secondMomentMm4: computeRectangleSecondMoment(1.745 * inch, 0.5 * inch),
  };
  const force = 50 * lbf;
  const getInches = (beamCase: BeamCase, span: number) =>
    computeBeamDeflection(beamCase, force, span * inch, long) / inch;

  it('two vises leave 5.5 in at each end, which bends .0051: too much', () => {
    expect(getInches('cantileverEnd', 5.5)).toBeCloseTo(0.0051, 4);
  });

  it('three vises leave 1.0 in and gaps of 3.0 in: .00003 and .000013', () => {
    expect(getInches('cantileverEnd', 1)).toBeCloseTo(0.00003, 5);
    expect(getInches('fixedCentre', 3)).toBeCloseTo(0.000013, 6);
  });

  it('the longest legal overhang is 3.20 in', () => {
    expect(computeLongestOverhang(force, 0.001 * inch, long, 1000) / inch).toBeCloseTo(3.2, 2);
  });
});
