import { describe, expect, it } from 'vitest';
import { inchesToMm } from '../../shared/units/exact';
import { formatLength } from '../../shared/units/format';
import { parseLength } from '../../shared/units/parse-length';
import {
  KG_M3_PER_LB_PER_CUBIC_INCH,
  KG_PER_LB,
  KW_PER_HP,
  METRES_PER_FOOT,
  MM3_PER_CUBIC_INCH,
  MPA_PER_PSI,
  NEWTON_METRES_PER_LBF_IN,
  NEWTONS_PER_LBF,
} from '../../shared/units/unit-sizes';

// NIST Special Publication 811 (2008), appendix B.8: factors to seven digits, from memory.
describe('sizes of inch-pound units agree with NIST SP 811 to its seven digits', () => {
  it.each([
    ['foot, m', METRES_PER_FOOT, 3.048e-1],
    ['cubic inch, m³', MM3_PER_CUBIC_INCH * 1e-9, 1.638706e-5],
    ['pound, kg', KG_PER_LB, 4.535924e-1],
    ['pound-force, N', NEWTONS_PER_LBF, 4.448222],
    ['pound-force inch, N·m', NEWTON_METRES_PER_LBF_IN, 1.129848e-1],
    ['pound-force foot, N·m', 12 * NEWTON_METRES_PER_LBF_IN, 1.355818],
    ['psi, MPa', MPA_PER_PSI, 6.894757e-3],
    ['horsepower (550 ft·lbf/s), kW', KW_PER_HP, 7.456999e-1],
    ['pound per cubic inch, kg/m³', KG_M3_PER_LB_PER_CUBIC_INCH, 2.76799e4],
  ])('%s', (_unit, size, published) => {
    expect(Math.abs(size / published - 1)).toBeLessThan(5e-7);
  });
});

// The table of decimal and metric equivalents of inch fractions printed in every machinist's handbook
// (inch to six places, mm to three or four); rows from memory.
describe('inch fractions agree with the handbook table of equivalents', () => {
  it.each([
    ['1/64', '0.015625', 0.3969],
    ['1/32', '0.031250', 0.7938],
    ['1/16', '0.062500', 1.5875],
    ['7/64', '0.109375', 2.7781],
    ['5/32', '0.156250', 3.9688],
    ['13/64', '0.203125', 5.1594],
    ['5/16', '0.312500', 7.9375],
    ['29/64', '0.453125', 11.5094],
    ['19/32', '0.593750', 15.0812],
    ['11/16', '0.687500', 17.4625],
    ['57/64', '0.890625', 22.6219],
    ['63/64', '0.984375', 25.0031],
  ])('%s is %s in, %d mm', (fraction, inches, mm) => {
    const parsed = parseLength(fraction, 'in');
    expect(parsed).toEqual({ ok: true, mm: inchesToMm(Number(inches)) });
    expect(parsed.ok && formatLength(parsed.mm, 'in', { decimals: 6 })).toBe(inches);
    expect(parsed.ok && Math.abs(parsed.mm - mm)).toBeLessThanOrEqual(0.000051);
  });
});
