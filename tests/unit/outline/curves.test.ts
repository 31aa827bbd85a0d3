import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import { computeArcShape } from '../../../main/services/import/svg/svg-arc';
import { applyAffine, composeAffine, getMove, getScale, getTurn, transformShape } from '../../../shared/outline/affine';
import { computeBulgeShape } from '../../../shared/outline/bulge';
import { computeFitSpline, type FitEnds } from '../../../shared/outline/fit-spline';
import { computeSegments, getOffset, getShapePoint } from '../../../shared/outline/flatten';
import { getDistance, type Point } from '../../../shared/outline/point';
import type { OutlineShape, SplineShape } from '../../../shared/outline/shapes';
import { getSplineFault, getSplinePoint, getSplineSpans } from '../../../shared/outline/spline';

const number = fc.double({ min: -100, max: 100, noNaN: true });
const point = fc.record({ x: number, y: number });

describe('a bulge', () => {
  test('of 1 is half a circle, anticlockwise from start to end', () => {
    const shape = computeBulgeShape({ x: 0, y: 0 }, { x: 2, y: 0 }, 1);
    expect(shape).toMatchObject({ kind: 'arc', centre: { x: 1, y: 0 }, radius: 1 });
    const middle = getShapePoint(shape, 0.5);
    expect(middle.x).toBeCloseTo(1, 12);
    expect(middle.y).toBeCloseTo(-1, 12);
  });

  test('is the height of the arc over half its chord, to the right for a positive one', () => {
    fc.assert(
      fc.property(point, point, fc.double({ min: -3, max: 3, noNaN: true }), (from, to, bulge) => {
        fc.pre(getDistance(from, to) > 0.1 && Math.abs(bulge) > 0.01);
        const shape = computeBulgeShape(from, to, bulge);
        const chord = getDistance(from, to);
        const middle = getShapePoint(shape, 0.5);
        const side = ((to.x - from.x) * (middle.y - from.y) - (to.y - from.y) * (middle.x - from.x)) / chord;
        expect(side).toBeCloseTo((-bulge * chord) / 2, 6);
        expect(getDistance(getShapePoint(shape, 0), from)).toBeLessThan(1e-8);
        expect(getDistance(getShapePoint(shape, 1), to)).toBeLessThan(1e-8);
      }),
    );
  });

  test('backwards changes its sign and draws the same', () => {
    const [a, b] = [
      { x: 3, y: 4 },
      { x: -2, y: 7 },
    ];
    const [there, back] = [computeBulgeShape(a, b, 0.7), computeBulgeShape(b, a, -0.7)];
    for (const share of [0, 0.3, 0.5, 1]) {
      expect(getDistance(getShapePoint(there, share), getShapePoint(back, 1 - share))).toBeLessThan(1e-12);
    }
  });
});

const HALF_ROOT = Math.SQRT1_2;
const QUARTER: SplineShape = {
  kind: 'spline',
  degree: 2,
  knots: [0, 0, 0, 1, 1, 1],
  controls: [
    { x: 1, y: 0 },
    { x: 1, y: 1 },
    { x: 0, y: 1 },
  ],
  weights: [1, HALF_ROOT, 1],
};

describe('a spline', () => {
  test('with the weights of a circle stays on it (The NURBS Book, section 7.3)', () => {
    for (let at = 0; at <= 1; at += 1 / 64) {
      expect(Math.hypot(...Object.values(getSplinePoint(QUARTER, at)))).toBeCloseTo(1, 12);
    }
  });

  test('cubic without inner knots is the Bézier curve of its controls', () => {
    const controls: Point[] = [
      { x: 0, y: 0 },
      { x: 1, y: 3 },
      { x: 4, y: -2 },
      { x: 6, y: 1 },
    ];
    const shape: SplineShape = {
      kind: 'spline',
      degree: 3,
      knots: [0, 0, 0, 0, 1, 1, 1, 1],
      controls,
      weights: [1, 1, 1, 1],
    };
    for (const t of [0, 0.2, 0.5, 0.9, 1]) {
      const shares = [(1 - t) ** 3, 3 * t * (1 - t) ** 2, 3 * t ** 2 * (1 - t), t ** 3];
      const x = shares.reduce((sum, share, index) => sum + share * (controls[index]?.x ?? 0), 0);
      expect(getSplinePoint(shape, t).x).toBeCloseTo(x, 12);
    }
  });

  test.each<[Partial<SplineShape>, string]>([
    [{ controls: [] }, 'with too few points'],
    [{ knots: [0, 0, 1, 1] }, 'whose knots do not fit its control points'],
    [{ knots: [0, 0, 0, 1, 0.5, 1] }, 'whose knots do not rise'],
    [{ weights: [1, 0, 1] }, 'whose weights are not above zero'],
    [{ knots: [1, 1, 1, 1, 1, 1] }, 'without length'],
    [{ degree: 40 }, 'of a degree that is not read'],
  ])('%o is refused: %s', (change, fault) => {
    expect(getSplineFault({ ...QUARTER, ...change })).toBe(fault);
  });
});

describe('A spline through points', () => {
  const passed = [
    { x: 0, y: 0 },
    { x: 10, y: 5 },
    { x: 25, y: 4 },
    { x: 30, y: -6 },
    { x: 50, y: 0 },
  ];
  const free = { start: null, end: null };
  const up = { x: 0, y: 2 };

  /** The curve half way, by its own measure, between each point and the next. */
  const getMiddles = (ends: FitEnds, isClosed: boolean): number[][] => {
    const spline = computeFitSpline(passed, ends, isClosed);
    if (spline === null) return [];
    const shape: SplineShape = { kind: 'spline', ...spline, weights: spline.controls.map(() => 1) };
    const spans = getSplineSpans(shape);
    return spans.slice(1).map((to, index) => {
      const { x, y } = getSplinePoint(shape, ((spans[index] ?? 0) + to) / 2);
      return [x, y];
    });
  };

  // Worked out by SciPy 1.17.1, interpolate.CubicSpline over chord lengths, with its natural, clamped and periodic ends.
  test.each<[string, FitEnds, boolean, [number, number][]]>([
    [
      'with free ends',
      free,
      false,
      [
        [4.712744036, 2.701183981],
        [18.209179279, 6.49138824],
        [27.68774995, -1.120632578],
        [38.284771847, -6.560829946],
      ],
    ],
    [
      'with a direction at each end',
      { start: up, end: { x: 3, y: 4 } },
      false,
      [
        [3.200059482, 3.620643859],
        [18.86428706, 6.129991635],
        [27.376475044, -1.033887409],
        [40.131317273, -6.771620917],
      ],
    ],
    [
      'with a direction at one',
      { start: up, end: null },
      false,
      [
        [3.209858525, 3.619753821],
        [18.789325786, 6.136800295],
        [27.575384138, -1.051954129],
        [38.367541072, -6.611418839],
      ],
    ],
    [
      'closed',
      free,
      true,
      [
        [3.752929637, 2.419594651],
        [18.691888673, 6.636316435],
        [27.30359868, -1.242554183],
        [41.117053647, -5.647867506],
        [24.816380491, 0.679528904],
      ],
    ],
  ])('is the cubic spline of a general library: %s', (_what, ends, isClosed, expected) => {
    const middles = getMiddles(ends, isClosed);
    expect(middles).toHaveLength(expected.length);
    for (const [index, [x, y]] of expected.entries()) {
      expect(middles[index]?.[0]).toBeCloseTo(x, 8);
      expect(middles[index]?.[1]).toBeCloseTo(y, 8);
    }
  });

  test('is a line through two points, and none through one', () => {
    const [from, to] = [passed[0], passed[1]];
    const spline = computeFitSpline([from, from, to, to] as Point[], free, false);
    expect(spline?.controls.map(({ x, y }) => [x, y].map((value) => Number(value.toFixed(9))))).toEqual([
      [0, 0],
      [3.333333333, 1.666666667],
      [6.666666667, 3.333333333],
      [10, 5],
    ]);
    expect(computeFitSpline([from, from] as Point[], free, false)).toBeNull();
    expect(computeFitSpline([from, to, from] as Point[], free, true)).toBeNull();
  });

  test('passes through every point, whatever the points', () => {
    fc.assert(
      fc.property(fc.array(point, { minLength: 2, maxLength: 12 }), fc.boolean(), (points, isClosed) => {
        const spline = computeFitSpline(points, free, isClosed);
        if (spline === null) return;
        for (const { x, y } of points) {
          const nearest = Math.min(...spline.controls.map((control) => Math.hypot(control.x - x, control.y - y)));
          expect(nearest).toBeLessThan(1e-6);
        }
        expect(getSplineFault({ kind: 'spline', ...spline, weights: spline.controls.map(() => 1) })).toBeNull();
      }),
    );
  });
});

const shapes = fc.oneof(
  fc.record({ kind: fc.constant('line' as const), from: point, to: point }),
  fc.record({
    kind: fc.constant('arc' as const),
    centre: point,
    radius: fc.double({ min: 0.1, max: 100, noNaN: true }),
    startAngleRad: fc.double({ min: -4, max: 4, noNaN: true }),
    sweepRad: fc.double({ min: -6, max: 6, noNaN: true }),
  }),
  fc.record({
    kind: fc.constant('ellipse' as const),
    centre: point,
    axisA: point,
    axisB: point,
    startRad: fc.double({ min: -4, max: 4, noNaN: true }),
    sweepRad: fc.double({ min: 0.1, max: 6.28, noNaN: true }),
  }),
  fc.tuple(point, point, point, point).map(
    (controls): OutlineShape => ({
      kind: 'spline',
      degree: 3,
      knots: [0, 0, 0, 0, 1, 1, 1, 1],
      controls,
      weights: [1, 2, 1, 1],
    }),
  ),
);

describe('lines in place of a curve', () => {
  test('stay within the tolerance of every point of it', () => {
    fc.assert(
      fc.property(shapes, (shape) => {
        const tolerance = 0.01;
        const segments = computeSegments(shape, tolerance).filter((segment) => segment.kind === 'line');
        fc.pre(segments.length > 0 && (shape.kind === 'ellipse' || shape.kind === 'spline'));
        for (let share = 0; share <= 1; share += 1 / 37) {
          const at = getShapePoint(shape, share);
          const off = Math.min(...segments.map(({ from, to }) => getOffset(from, to, at)));
          expect(off).toBeLessThanOrEqual(tolerance);
        }
      }),
      { numRuns: 150 },
    );
  });

  test('a change of place draws the same as changing every point', () => {
    const place = fc
      .tuple(
        number,
        number,
        fc.double({ min: -4, max: 4, noNaN: true }),
        fc.constantFrom(-2, -1, 0.5, 3),
        fc.constantFrom(-2, 1, 0.5),
      )
      .map(([x, y, turn, scaleX, scaleY]) =>
        composeAffine(getMove(x, y), composeAffine(getTurn(turn), getScale(scaleX, scaleY))),
      );
    fc.assert(
      fc.property(shapes, place, (shape, by) => {
        const moved = transformShape(by, shape);
        for (const share of [0, 0.25, 0.5, 0.75, 1]) {
          const [a, b] = [getShapePoint(moved, share), applyAffine(by, getShapePoint(shape, share))];
          expect(getDistance(a, b)).toBeLessThan(1e-6);
        }
      }),
    );
  });
});

test('an arc by its ends runs from one to the other, as large and as turned as it says (SVG 2, B.2)', () => {
  const radius = fc.double({ min: 0.5, max: 80, noNaN: true });
  fc.assert(
    fc.property(
      point,
      point,
      radius,
      radius,
      fc.boolean(),
      fc.boolean(),
      (from, to, radiusX, radiusY, isLarge, isSweep) => {
        fc.pre(getDistance(from, to) > 0.1);
        const shape = computeArcShape({ from, to, radiusX, radiusY, rotationRad: 0.4, isLarge, isSweep });
        expect(getDistance(getShapePoint(shape, 0), from)).toBeLessThan(1e-4);
        expect(getDistance(getShapePoint(shape, 1), to)).toBeLessThan(1e-4);
        const sweep = shape.kind === 'arc' || shape.kind === 'ellipse' ? shape.sweepRad : 0;
        expect(Math.sign(sweep)).toBe(isSweep ? 1 : -1);
        const isHalf = Math.abs(Math.abs(sweep) - Math.PI) < 1e-3;
        if (!isHalf) expect(Math.abs(sweep) > Math.PI).toBe(isLarge);
      },
    ),
  );
});
