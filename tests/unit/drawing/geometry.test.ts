import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { computeHatch } from '../../../shared/drawing/hatch';
import type { PathMark, Segment, TextMark, View } from '../../../shared/drawing/marks';
import { getArcCurves, getCircle, getPlaced, getRectangle, getRuns } from '../../../shared/drawing/paths';
import { measureBounds } from '../../../shared/drawing/sinks/bounds';
import { hitTest } from '../../../shared/drawing/sinks/hit-test';
import { spreadLabels } from '../../../shared/drawing/spread-labels';

const lines = { angleDeg: 45, spacing: 1, dashes: [] };

describe('Spreading labels', () => {
  const wanted = fc
    .array(
      fc.record({
        at: fc.double({ min: -50, max: 50, noNaN: true }),
        size: fc.double({ min: 0.5, max: 9, noNaN: true }),
      }),
      {
        maxLength: 12,
      },
    )
    .map((places) => places.toSorted((a, b) => a.at - b.at));

  it('keeps labels apart and in order', () => {
    fc.assert(
      fc.property(wanted, (places) => {
        const middles = spreadLabels(places, 1);
        for (const [index, place] of places.entries()) {
          const before = places[index - 1];
          if (before) {
            const gap = (middles[index] ?? 0) - (middles[index - 1] ?? 0) - (place.size + before.size) / 2;
            expect(gap).toBeGreaterThanOrEqual(1 - 1e-9);
          }
        }
      }),
    );
  });

  it('moves nothing that already stands clear', () => {
    expect(
      spreadLabels(
        [
          { at: 0, size: 2 },
          { at: 10, size: 2 },
        ],
        1,
      ),
    ).toEqual([0, 10]);
  });

  it('moves as little as can be, in the sum of squares', () => {
    fc.assert(
      fc.property(
        wanted,
        fc.array(fc.double({ min: -3, max: 3, noNaN: true }), { minLength: 12, maxLength: 12 }),
        (places, shifts) => {
          const best = spreadLabels(places, 1);
          // Any other arrangement that keeps them apart: the same steps widened by what is drawn at random.
          let edge = Number.NEGATIVE_INFINITY;
          const other = places.map((place, index) => {
            const least = edge === Number.NEGATIVE_INFINITY ? Number.NEGATIVE_INFINITY : edge + 1 + place.size / 2;
            const middle = Math.max(least, place.at + (shifts[index] ?? 0));
            edge = middle + place.size / 2;
            return middle;
          });
          const cost = (middles: number[]): number =>
            middles.reduce((sum, middle, index) => sum + (middle - (places[index]?.at ?? 0)) ** 2, 0);
          expect(cost(best)).toBeLessThanOrEqual(cost(other) + 1e-6);
        },
      ),
    );
  });
});

describe('Hatching', () => {
  it('covers an area: spacing times the length of the strokes is the area', () => {
    const strokes = computeHatch(getRectangle(0, 0, 60, 40), { ...lines, spacing: 0.25 }, 1);
    const length = strokes.reduce((sum, { from, to }) => sum + Math.hypot(to.x - from.x, to.y - from.y), 0);
    expect(length * 0.25).toBeCloseTo(2400, -1);
  });

  it('leaves holes free', () => {
    const ring = [...getRectangle(0, 0, 30, 30), ...getRectangle(10, 10, 20, 20)];
    for (const { from, to } of computeHatch(ring, lines, 1)) {
      const middle = { x: (from.x + to.x) / 2, y: (from.y + to.y) / 2 };
      expect(middle.x > 10 && middle.x < 20 && middle.y > 10 && middle.y < 20).toBe(false);
    }
  });

  it('stays inside its outline', () => {
    for (const { from, to } of computeHatch(getCircle(5, 5, 4), lines, 1)) {
      expect(Math.hypot(from.x - 5, from.y - 5)).toBeLessThanOrEqual(4.001);
      expect(Math.hypot(to.x - 5, to.y - 5)).toBeLessThanOrEqual(4.001);
    }
  });

  it('stands closer on a larger picture: its spacing is on paper', () => {
    const count = (scale: number): number => computeHatch(getRectangle(0, 0, 40, 40), lines, scale).length;
    expect(count(1)).toBeGreaterThan(1.9 * count(2));
  });

  it('does not grow without end on a huge area', () => {
    expect(computeHatch(getRectangle(0, 0, 1e6, 1e6), lines, 1).length).toBeLessThan(1000);
  });
});

describe('Paths', () => {
  it('turn an arc into curves that stay on it', () => {
    const arc: Segment & { op: 'arc' } = { op: 'arc', cx: 0, cy: 0, radius: 100, start: 0.3, end: 5.1 };
    let from = { x: 100 * Math.cos(0.3), y: 100 * Math.sin(0.3) };
    for (const curve of getArcCurves(arc)) {
      const [run] = getRuns([{ op: 'move', ...from }, curve]);
      for (const point of run?.points ?? []) {
        expect(Math.abs(Math.hypot(point.x, point.y) - 100)).toBeLessThan(0.03);
      }
      from = { x: curve.x, y: curve.y };
    }
  });

  it('are scaled and shifted whole, arcs included', () => {
    const placed = measureBounds([path(getPlaced(getCircle(10, 20, 5), 2, 1, 2))]);
    expect(placed.left).toBeCloseTo(11, 6);
    expect(placed.right).toBeCloseTo(31, 6);
    expect(placed.bottom).toBeCloseTo(32, 1);
    expect(placed.top).toBeCloseTo(52, 1);
  });
});

function path(segments: Segment[], look: Partial<PathMark> = {}): PathMark {
  return { kind: 'path', layer: 'bar', feature: null, pen: 'narrow', fill: 'none', segments, ...look };
}

describe('Bounds', () => {
  it('count the width of pens on paper and the size of letters', () => {
    expect(measureBounds([path(getRectangle(0, 0, 10, 5), { pen: 'wide' })], 2)).toEqual({
      left: -0.5,
      right: 10.5,
      bottom: -0.5,
      top: 5.5,
    });
    const text: TextMark = {
      kind: 'text',
      layer: 'note',
      feature: null,
      at: { x: 0, y: 0 },
      text: '000',
      size: 698,
      anchor: 'end',
      angle: Math.PI / 2,
      weight: 'regular',
    };
    const bounds = measureBounds([text]);
    expect(bounds.top).toBeCloseTo(0, 6);
    expect(bounds.bottom).toBeCloseTo(-1800, 6);
  });

  it('are nothing for nothing', () => {
    expect(measureBounds([])).toEqual({ left: 0, right: 0, bottom: 0, top: 0 });
  });
});

describe('Hit test', () => {
  const feature = (id: string) => ({ kind: 'part', id }) as const;
  const view: View = {
    name: 'elevation',
    title: '',
    bounds: { left: 0, right: 30, bottom: 0, top: 30 },
    mmPerPaperMm: 1,
    marks: [
      path(getRectangle(0, 0, 30, 30), { fill: 'bar', feature: feature('bar') }),
      path([...getRectangle(5, 5, 25, 25), ...getRectangle(10, 10, 20, 20)], {
        fill: 'part',
        feature: feature('ring'),
      }),
      path(getRectangle(0, 0, 30, 30), { fill: 'paper' }),
    ],
  };

  it('finds the topmost mark with a feature and looks through furniture', () => {
    expect(hitTest(view, { x: 7, y: 7 }, 0)?.feature?.id).toBe('ring');
  });

  it('falls through a hole to what is below', () => {
    expect(hitTest(view, { x: 15, y: 15 }, 0)?.feature?.id).toBe('bar');
  });

  it('takes a line within the tolerance and nothing beyond it', () => {
    expect(hitTest(view, { x: -0.8, y: 15 }, 1)?.feature?.id).toBe('bar');
    expect(hitTest(view, { x: -1.2, y: 15 }, 1)).toBeNull();
  });
});
