import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import { FILE_UNIT_SIZES, type FileUnit, proposeUnit } from '../../../shared/outline/file-units';
import { getOutline, getRemarks, readSample } from './read-sample';

describe('a drawing without units, 4.724 x .787, two lines drawn twice, a corner open by (.012, .016)', () => {
  const NAME = 'r5-gap-and-duplicates.dxf';

  test('is proposed in inches, with both sizes, and asked about', () => {
    const proposal = proposeUnit(4.724, 0.787, readSample(NAME).declaredUnit, 'mm');
    expect(proposal).toMatchObject({ unit: 'in', mustAsk: true });
    const [inch, mm] = proposal.candidates;
    expect(inch).toMatchObject({ unit: 'in', isPlausible: true });
    expect(inch?.width).toBeCloseTo(119.99, 2);
    expect(inch?.height).toBeCloseTo(19.99, 2);
    expect(mm).toMatchObject({ unit: 'mm', width: 4.724, height: 0.787, isPlausible: false });
    expect(proposal.reason).toContain('4.724 × 0.787 in (119.99 × 19.99 mm)');
    expect(proposal.reason).toContain('4.724 × 0.787 mm');
  });

  test('stays open at a tolerance of .010 and the gap of .020 is told', () => {
    const outline = getOutline(NAME, { unit: 'in', gapTolerance: 0.01 * 25.4, units: 'in' });
    expect(outline.outer).toBeNull();
    expect(outline.gapsOpen).toHaveLength(1);
    expect(outline.gapsOpen[0]?.size).toBeCloseTo(0.02 * 25.4, 9);
    const remark = outline.remarks.find(({ code }) => code === 'gaps-open');
    expect(remark).toMatchObject({ severity: 'block', sentence: '1 gap left open: 0.020 in.' });
  });

  test('is closed at a tolerance of .050 and the gap is told all the same', () => {
    const outline = getOutline(NAME, { unit: 'in', gapTolerance: 0.05 * 25.4, units: 'in' });
    expect(outline.width).toBeCloseTo(119.9896, 4);
    expect(outline.gapsClosed[0]?.size).toBeCloseTo(0.02 * 25.4, 9);
    expect(getRemarks(outline)).toEqual({ 'gaps-closed': 1, duplicates: 2 });
    // The two lines are carried on to the corner that they miss, so nothing is cut off it.
    expect(outline.areaMm2).toBeCloseTo(4.724 * 0.787 * 645.16, 6);
  });
});

describe('the unit of a drawing', () => {
  test('is what the file says where that can be', () => {
    expect(proposeUnit(120, 20, 'mm', 'in')).toMatchObject({ unit: 'mm', mustAsk: false });
    expect(proposeUnit(12, 2, 'cm', 'in')).toMatchObject({ unit: 'cm', mustAsk: false });
  });

  test('is asked when the file says what cannot be: 120 x 20 metres', () => {
    const proposal = proposeUnit(120, 20, readSample('units-metre-by-mistake.dxf').declaredUnit, 'mm');
    expect(proposal).toMatchObject({ unit: 'mm', mustAsk: true });
    expect(proposal.reason).toContain('metres');
  });

  test('is the plan’s own where both inch and mm are plausible', () => {
    expect(proposeUnit(30, 10, null, 'in')).toMatchObject({ unit: 'in', mustAsk: true });
    expect(proposeUnit(30, 10, null, 'mm')).toMatchObject({ unit: 'mm', mustAsk: true });
  });

  test('is asked when an SVG says none', () => {
    expect(readSample('svg-no-units.svg').declaredUnit).toBeNull();
    expect(readSample('units-none.dxf').declaredUnit).toBeNull();
  });

  test('of one size gives the same outline in any other', () => {
    const units = Object.keys(FILE_UNIT_SIZES) as FileUnit[];
    fc.assert(
      fc.property(fc.constantFrom(...units), (unit) => {
        const outline = getOutline('bores.dxf', { unit });
        expect(outline.width).toBeCloseTo(120 * FILE_UNIT_SIZES[unit], 6);
      }),
    );
  });
});
