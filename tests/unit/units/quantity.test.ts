import { describe, expect, it } from 'vitest';
import { formatQuantity, QUANTITIES, type QuantityKind } from '../../../shared/units/quantity';

const KINDS = Object.keys(QUANTITIES) as QuantityKind[];

describe('formatQuantity', () => {
  it.each<[number | string, QuantityKind, string, string]>([
    [38.1, 'length', '1.500 in', '38.10 mm'],
    [645.16, 'area', '1.000 in²', '645 mm²'],
    [16387.064, 'volume', '1.00 in³', '16.4 cm³'],
    [16387.064, 'sectionModulus', '1.00 in³', '16387 mm³'],
    [416231.4256, 'secondMoment', '1.00 in⁴', '416231 mm⁴'],
    [64516, 'areaRate', '100 in²/min', '64516 mm²/min'],
    [Math.PI / 2, 'angle', '90.0°', '90.0°'],
    [4448.2216152605, 'force', '1000 lbf', '4448 N'],
    [1.1298482902761668, 'torque', '10.0 lbf·in', '1.13 N·m'],
    [1129.8482902761668, 'moment', '10.0 lbf·in', '1.13 N·m'],
    [6.894757293168361, 'stress', '1000 psi', '6.89 MPa'],
    [0.45359237, 'mass', '1.00 lb', '0.454 kg'],
    [7850, 'density', '0.2836 lb/in³', '7850 kg/m³'],
    [0.7456998715822702, 'power', '1.00 hp', '0.746 kW'],
    [85, 'time', '1 h 25 min', '1 h 25 min'],
    [30.48, 'speed', '100 ft/min', '30.5 m/min'],
    [50.8, 'feed', '2.00 in/min', '50.8 mm/min'],
    [700, 'spindleSpeed', '700 rpm', '700 rpm'],
    [38, 'money', '$38.00', '$38.00'],
    [12, 'count', '12', '12'],
    [2.4, 'ratio', '× 2.4', '× 2.4'],
    [8.5, 'percent', '8.5 %', '8.5 %'],
    [0.87, 'fraction', '87 %', '87 %'],
    ['fixed jaw', 'plainText', 'fixed jaw', 'fixed jaw'],
    ['none', 'length', 'none', 'none'],
  ])('%s as %s is %s, metric %s', (value, kind, inch, metric) => {
    expect(formatQuantity(value, kind, 'in', { currency: '$' })).toBe(inch);
    expect(formatQuantity(value, kind, 'mm', { currency: '$' })).toBe(metric);
  });

  it('shows a dash for any number that is not finite, with no unit after it', () => {
    for (const kind of KINDS.filter((each) => each !== 'plainText')) {
      expect(formatQuantity(Number.NaN, kind, 'in', { currency: '$' }), kind).toBe('—');
    }
  });

  it('never shows a minus before zero', () => {
    for (const kind of KINDS) {
      expect(formatQuantity(-1e-12, kind === 'plainText' ? 'count' : kind, 'in'), kind).not.toContain('-');
    }
  });
});
