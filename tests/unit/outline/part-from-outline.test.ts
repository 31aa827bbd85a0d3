import { describe, expect, test } from 'vitest';
import { computeWidth, computeWidthProfile } from '../../../shared/engine/width-profile';
import { buildHole, buildPart } from '../../../shared/model/build-part';
import { applyOutline, computePartFromOutline, type PartFromOutline } from '../../../shared/outline/apply-outline';
import { computeOutline } from '../../../shared/outline/compute-outline';
import { OUTLINE_DEFAULTS } from '../../../shared/outline/outline';
import type { OutlineDrawing } from '../../../shared/outline/outline-drawing';
import { getOutline } from './read-sample';

const blank = buildPart({ id: 'part-1', name: 'Strut', length: 10, height: 25, thickness: 10 });

function read(name: string, view: 'top' | 'side' = 'top', options = {}): PartFromOutline {
  const found = computePartFromOutline(getOutline(name, options), view, 'mm');
  if (found === null) throw new Error(`${name} has no outline.`);
  return found;
}

describe('seen from above', () => {
  test('a plain bar has no stations', () => {
    expect(read('r12-lines.dxf')).toMatchObject({ length: 120, thickness: 20, height: null, stations: [], holes: [] });
  });

  test('a shank and a taper are two stations; full width is none', () => {
    expect(read('shanked.dxf').stations).toEqual([
      { kind: 'shank', from: 30, to: 80, width: 12, widthEnd: 12 },
      { kind: 'taper', from: 80, to: 100, width: 12, widthEnd: 20 },
    ]);
  });

  test('the stations of round ends follow the circle within a tenth of a mm, and are few', () => {
    const found = read('lwpolyline-bulge.dxf');
    expect(found.stations.length).toBeLessThanOrEqual(20);
    const part = applyOutline(blank, found, 'top');
    for (let x = 0.5; x < 10; x += 0.25) {
      const { least, most } = computeWidth(part, x);
      // Square to the edge: the radius at the station's edge against 10.
      for (const width of [least, most]) {
        expect(Math.abs(Math.hypot(10 - x, width / 2) - 10), `at ${x}`).toBeLessThan(0.11);
        expect(Math.abs(computeWidth(part, 120 - x).least - least), `other end at ${x}`).toBeLessThan(0.25);
      }
    }
    expect(Math.max(...computeWidthProfile(part, null).map(({ width }) => width))).toBe(20);
  });

  test('bores and slots along the part are holes from top to bottom, made before the cut-off', () => {
    expect(read('bores.dxf').holes).toEqual([
      { axis: 'z', x: 15, z: 0, diameter: 8, slotLength: 0, through: true, beforeCutOff: true },
      { axis: 'z', x: 105, z: 0, diameter: 10, slotLength: 0, through: true, beforeCutOff: true },
    ]);
    expect(read('slot-along.dxf').holes).toMatchObject([{ x: 60, diameter: 8, slotLength: 20 }]);
  });

  test('what the model does not hold is said', () => {
    expect(read('slot-across.dxf').remarks).toEqual([
      '1 slot runs across the part; only slots along the part are kept.',
    ]);
    expect(read('bore-off-centre.dxf').remarks).toEqual([
      'A bore stands 2.00 mm off the centre line; the plan keeps its place along the part only.',
    ]);
    expect(read('forked.dxf').remarks).toEqual([
      'From 90.00 mm on the part is forked; its width is taken over the whole fork.',
    ]);
    expect(read('ellipse-normal-down.dxf').remarks[0]).toContain('its middle wanders');
  });
});

test('seen from the side: length and height, round holes across', () => {
  const found = read('bores.dxf', 'side');
  expect(found).toMatchObject({ length: 120, height: 20, thickness: null, stations: [] });
  expect(found.holes).toMatchObject([
    { axis: 'y', x: 15, z: 10, diameter: 8 },
    { axis: 'y', x: 105, z: 10, diameter: 10 },
  ]);
  expect(read('shanked.dxf', 'side').remarks).toEqual([
    'The height changes along the part, from 12.00 mm to 20.00 mm; the plan works with the tallest.',
  ]);
});

describe('the hand of a part', () => {
  test('matters when it reads differently from its two ends', () => {
    expect(read('shanked.dxf').isHanded).toBe(true);
    expect(read('bores.dxf').isHanded).toBe(true);
    expect(read('insert-rows.dxf').isHanded).toBe(false);
    expect(read('lwpolyline-bulge.dxf').isHanded).toBe(false);
  });

  test('turned end for end gives the stations in the other order', () => {
    expect(read('shanked.dxf', 'top', { isMirrored: true }).stations).toEqual([
      { kind: 'taper', from: 20, to: 40, width: 20, widthEnd: 12 },
      { kind: 'shank', from: 40, to: 90, width: 12, widthEnd: 12 },
    ]);
  });
});

describe('putting an outline into a part', () => {
  const drilled = {
    ...blank,
    holes: [
      buildHole({ id: 'hole-1', axis: 'y', x: 5, z: 12, diameter: 3 }),
      buildHole({ id: 'hole-2', x: 5, diameter: 6 }),
    ],
  };

  test('keeps what the view does not show', () => {
    const part = applyOutline(drilled, read('bores.dxf'), 'top');
    expect(part).toMatchObject({ name: 'Strut', length: 120, thickness: 20, height: 25 });
    expect(part.holes.map(({ id, axis, x }) => [id, axis, x])).toEqual([
      ['hole-1', 'y', 5],
      ['hole-2', 'z', 15],
      ['hole-3', 'z', 105],
    ]);
  });

  test('changes neither the part nor the outline it is given', () => {
    const before = structuredClone(drilled);
    applyOutline(drilled, read('bores.dxf'), 'side');
    expect(drilled).toEqual(before);
  });
});

test('an outline with thousands of teeth gives no more stations than a person would look through', () => {
  const teeth = Array.from({ length: 3001 }, (_unused, at) => ({ x: at / 10, y: at % 2 === 0 ? 20 : 12 }));
  const corners = [{ x: 300, y: 0 }, { x: 0, y: 0 }, ...teeth];
  const entities = corners.map((from, index) => ({
    layer: '',
    shape: { kind: 'line' as const, from, to: corners[(index + 1) % corners.length] ?? from },
  }));
  const drawing: OutlineDrawing = { format: 'dxf', entities, counts: [], declaredUnit: 'mm', remarks: [] };
  const outline = computeOutline(drawing, { ...OUTLINE_DEFAULTS, unit: 'mm', units: 'mm' });
  const found = computePartFromOutline(outline, 'top', 'mm');
  expect(found).toMatchObject({ length: 300, thickness: 20 });
  expect(found?.stations.length).toBeLessThanOrEqual(200);
});
