import { readdirSync, readFileSync } from 'node:fs';
import { fileURLToPath } from 'node:url';
import { describe, expect, test } from 'vitest';
import { ExpectedProblem } from '../../../main/services/expected-problem';
import type { Outline } from '../../../shared/outline/outline';
import { OUTLINE_FILES } from '../../data/outlines/outline-files';
import { getOutline, getRemarks, getSkipped, readSample } from './read-sample';

const FOLDER = fileURLToPath(new URL('../../data/outlines/files/', import.meta.url));

/** The link of most drawings: 120 x 20, its ends square, or round with radius 10. */
const SQUARE_AREA = 2400;
const ROUND_AREA = 2000 + 100 * Math.PI;

interface Expected {
  width: number;
  height: number;
  areaMm2: number;
  /** x, y and diameter of each round hole. */
  bores: [number, number, number][];
  slots: number;
  windows: number;
  remarks: Record<string, number>;
  skipped: Record<string, number>;
}

const square = (more: Partial<Expected> = {}): Expected => ({
  width: 120,
  height: 20,
  areaMm2: SQUARE_AREA,
  bores: [],
  slots: 0,
  windows: 0,
  remarks: {},
  skipped: {},
  ...more,
});
const round = (more: Partial<Expected> = {}): Expected => square({ areaMm2: ROUND_AREA, ...more });
const inch = (more: Partial<Expected> = {}): Expected =>
  square({ width: 119.9896, height: 19.9898, areaMm2: 119.9896 * 19.9898, ...more });

const EXPECTED: Readonly<Record<string, Expected>> = {
  'r12-lines.dxf': square(),
  'r12-polyline-bulge.dxf': round(),
  'lwpolyline-bulge.dxf': round(),
  'lwpolyline-clockwise.dxf': round(),
  'lines-and-arcs-any-direction.dxf': round(),
  'bores.dxf': square({
    bores: [
      [15, 10, 8],
      [105, 10, 10],
    ],
  }),
  'bore-of-two-arcs.dxf': square({ bores: [[60, 10, 10]] }),
  'bore-of-bulges.dxf': square({ bores: [[60, 10, 10]] }),
  'bore-of-a-spline.dxf': square({ bores: [[60, 10, 10]] }),
  'bore-of-fit-points.dxf': square({ bores: [[60, 10, 10]] }),
  'bore-off-centre.dxf': square({ bores: [[60, 12, 6]] }),
  'slot-along.dxf': square({ slots: 1 }),
  'slot-across.dxf': square({ slots: 1 }),
  'window.dxf': square({ windows: 1, remarks: { windows: 1 } }),
  'ellipse-window.dxf': square({ windows: 1, remarks: { windows: 1 } }),
  // Half an ellipse of half axes 20 and 10.
  'ellipse-end.dxf': square({ areaMm2: 2000 + 100 * Math.PI }),
  // A quarter of that ellipse, its minor axis down, beside a corner of 20 x 10.
  'ellipse-normal-down.dxf': square({ areaMm2: 2200 + 50 * Math.PI }),
  // A cubic with its inner controls 20 out reaches three quarters of that, and encloses 3/20 of 20 (2 · 20).
  'spline-end.dxf': square({ width: 115, areaMm2: 2000 + 240 }),
  'spline-kinked.dxf': square(),
  'insert.dxf': square(),
  'insert-nested.dxf': square(),
  'insert-mirrored.dxf': square({ bores: [[105, 10, 8]] }),
  'insert-normal-down.dxf': square({ bores: [[105, 10, 8]] }),
  'insert-uneven.dxf': square({ windows: 1, remarks: { windows: 1 } }),
  'insert-rows.dxf': square({
    bores: [
      [15, 10, 6],
      [60, 10, 6],
      [105, 10, 6],
    ],
  }),
  'insert-layer-of-reference.dxf': square({ skipped: { INSERT: 1 } }),
  'insert-without-block.dxf': square({ skipped: { INSERT: 1 } }),
  'insert-of-itself.dxf': square({ skipped: { INSERT: 1 } }),
  'block-named-block.dxf': square(),
  'arc-normal-down.dxf': round(),
  'lwpolyline-normal-down.dxf': round(),
  'circle-normal-down.dxf': square({ bores: [[15, 10, 8]] }),
  'circle-tilted.dxf': square({ skipped: { CIRCLE: 1 } }),
  'line-rising.dxf': square({ skipped: { LINE: 1 } }),
  'units-inch.dxf': inch(),
  'units-metre-by-mistake.dxf': square({ width: 120_000, height: 20_000, areaMm2: 2.4e9 }),
  'gap-wide.dxf': square({ width: 0, height: 0, areaMm2: 0, remarks: { 'no-outline': 1, 'gaps-open': 1, loose: 4 } }),
  // Each corner is where its two lines would have met.
  'gaps-many.dxf': square({ remarks: { 'gaps-closed': 4 } }),
  'gap-at-an-arc.dxf': round({ remarks: { 'gaps-closed': 1 } }),
  'duplicate-covered.dxf': square({ remarks: { duplicates: 2 } }),
  'duplicate-curves.dxf': square({
    bores: [
      [15, 10, 8],
      [105, 10, 10],
    ],
    remarks: { duplicates: 2 },
  }),
  'no-length.dxf': square({ remarks: { 'too-short': 1 } }),
  'divided.dxf': square({ remarks: { junctions: 2, loose: 1 } }),
  'stub.dxf': square({ remarks: { junctions: 1, loose: 1 } }),
  'two-parts.dxf': square({ remarks: { outside: 1 } }),
  'layer-off.dxf': square({ skipped: { CIRCLE: 1 } }),
  'layers-named-like-marks.dxf': square({ bores: [[90, 10, 10]], skipped: { CIRCLE: 2 } }),
  'sheet-and-hidden.dxf': square({ skipped: { CIRCLE: 2 } }),
  'other-kinds.dxf': square({
    skipped: { TEXT: 1, MTEXT: 1, DIMENSION: 1, HATCH: 1, LEADER: 1, RAY: 1, XLINE: 1, POINT: 1 },
  }),
  'polyline-curve-fit.dxf': square(),
  'mesh.dxf': square({ skipped: { POLYLINE: 1 } }),
  'negative-radius.dxf': square({ skipped: { CIRCLE: 1 } }),
  'no-number.dxf': square({ skipped: { CIRCLE: 1 } }),
  'far-away.dxf': square(),
  'forked.dxf': square({ areaMm2: 2400 - 30 * 8 }),
  // The shank is 12 wide; each taper ends a triangle 20 long and 4 high.
  'shanked.dxf': square({ areaMm2: 2400 - 2 * (50 * 4) - (2 * (20 * 4)) / 2 }),
  'old-code-page.dxf': square(),
  'comments-and-spaces.dxf': square(),
  'line-ends-unix.dxf': square(),
  'line-ends-old.dxf': square(),
  'end-mark-missing.dxf': square(),
  'after-the-end.dxf': square(),
  'svg-mm.svg': square(),
  // The drawing keeps its proportions in a page of others, so its height rules.
  'svg-inch.svg': square({ width: 19.9898 * 6, height: 19.9898, areaMm2: 19.9898 ** 2 * 6 }),
  'svg-pixels.svg': square(),
  'svg-view-box-offset.svg': square(),
  'svg-relative-path.svg': square(),
  'svg-packed-arc-flags.svg': round(),
  'svg-arcs-too-small.svg': round(),
  'svg-bezier-bore.svg': square({ bores: [[60, 10, 10]] }),
  // Archimedes: a parabola encloses two thirds of the triangle of its chord and tangents, here 100 each.
  'svg-quadratic-end.svg': square({ areaMm2: 2000 + 2 * (100 + (2 / 3) * 100) }),
  'svg-transforms.svg': square({ bores: [[105, 10, 8]] }),
  'svg-turned.svg': square(),
  'svg-shapes.svg': square({ bores: [[15, 10, 8]], slots: 1, remarks: { duplicates: 1 } }),
  'svg-rounded-rect.svg': round(),
  'svg-ellipse-shape.svg': square({ bores: [[20, 10, 8]], windows: 1, remarks: { windows: 1 } }),
  'svg-use.svg': square({
    bores: [
      [15, 10, 6],
      [105, 10, 6],
    ],
  }),
  'svg-use-of-itself.svg': square({ skipped: { use: 1 } }),
  'svg-hidden.svg': square({ skipped: { circle: 3 } }),
  'svg-other-kinds.svg': square({ skipped: { text: 1, image: 1, foreignObject: 1 } }),
  'svg-broken-path.svg': square({ windows: 1, remarks: { windows: 1 }, skipped: { path: 1 } }),
  'svg-own-entities.svg': square(),
  'svg-entity-bomb.svg': square(),
};

/** Drawings that are refused, with the code of the refusal. */
const REFUSED: Readonly<Record<string, string>> = {
  'truncated.dxf': 'outline-truncated',
  'truncated-in-polyline.dxf': 'outline-truncated',
  'damaged.dxf': 'outline-damaged',
  'no-entities.dxf': 'outline-nothing',
  'binary.dxf': 'outline-binary',
  'empty.dxf': 'outline-empty',
  'no-dxf.dxf': 'outline-not-dxf',
  'svg-truncated.svg': 'outline-damaged',
  'svg-no-svg.svg': 'outline-not-svg',
};

/** Drawings with tests of their own below. */
const APART = [
  'spline-fit-points-only.dxf',
  'spline-one-fit-point.dxf',
  'insert-bomb.dxf',
  'units-none.dxf',
  'r5-gap-and-duplicates.dxf',
  'crossing.dxf',
  'upright.dxf',
  'svg-no-units.svg',
  'svg-use-bomb.svg',
];

function getFigures(outline: Outline): Pick<Expected, 'width' | 'height' | 'areaMm2' | 'slots' | 'windows'> {
  const { width, height, areaMm2 } = outline;
  return { width, height, areaMm2, slots: outline.slots.length, windows: outline.windows.length };
}

test('every drawing is as the script writes it, and every one is expected to be something', () => {
  expect(readdirSync(FOLDER).toSorted()).toEqual([...OUTLINE_FILES.keys()].toSorted());
  for (const [name, content] of OUTLINE_FILES) {
    expect(Buffer.compare(readFileSync(`${FOLDER}${name}`), content), name).toBe(0);
  }
  const told = [...Object.keys(EXPECTED), ...Object.keys(REFUSED), ...APART];
  expect(told.toSorted()).toEqual([...OUTLINE_FILES.keys()].toSorted());
});

describe('a drawing gives its outline, and all that was changed or left', () => {
  test.each(Object.entries(EXPECTED))('%s', (name, expected) => {
    const outline = getOutline(name);
    const { width, height, areaMm2, slots, windows, bores, remarks, skipped } = expected;
    const figures = getFigures(outline);
    expect(getRemarks(outline)).toEqual(remarks);
    expect(getSkipped(readSample(name))).toEqual(skipped);
    expect({ slots: figures.slots, windows: figures.windows }).toEqual({ slots, windows });
    // Straight lines and arcs are exact; ellipses and splines come within the curve tolerance of 0.005.
    expect(Math.abs(figures.width - width), `width ${figures.width}`).toBeLessThan(0.001 + width * 1e-6);
    expect(Math.abs(figures.height - height), `height ${figures.height}`).toBeLessThan(0.001 + height * 1e-6);
    expect(Math.abs(figures.areaMm2 - areaMm2), `area ${figures.areaMm2}`).toBeLessThan(0.25 + areaMm2 * 1e-6);
    expect(outline.bores).toHaveLength(bores.length);
    for (const [index, [x, y, diameter]] of bores.entries()) {
      const bore = outline.bores[index];
      expect(bore?.centre.x).toBeCloseTo(x, 2);
      expect(bore?.centre.y).toBeCloseTo(y, 2);
      expect(Math.abs((bore?.diameter ?? 0) - diameter)).toBeLessThan(0.01);
    }
  });
});

describe('a file that cannot be read is refused in one sentence that names it', () => {
  test.each(Object.entries(REFUSED))('%s: %s', (name, code) => {
    let problem: ExpectedProblem | null = null;
    try {
      readSample(name);
    } catch (error) {
      problem = error instanceof ExpectedProblem ? error : null;
    }
    expect(problem?.problem.code).toBe(code);
    expect(problem?.problem.sentence).toMatch(/^[^.]*\.(?:dxf|svg)\b.*\.$/u);
    expect(problem?.problem.sentence).toContain(name);
  });
});

test('a spline that cannot be drawn blocks the outline and is listed', () => {
  const drawing = readSample('spline-one-fit-point.dxf');
  expect(drawing.counts.find(({ type }) => type === 'SPLINE')).toEqual({
    type: 'SPLINE',
    read: 0,
    skipped: 1,
    reasons: ['a spline with too few points'],
  });
  const outline = getOutline('spline-one-fit-point.dxf');
  expect(outline.outer).toBeNull();
  expect(outline.remarks[0]).toMatchObject({ code: 'no-outline', severity: 'block' });
});

test('a spline by the points it passes through is read as the smooth cubic through them, and that is told', () => {
  const drawing = readSample('spline-fit-points-only.dxf');
  expect(drawing.counts.find(({ type }) => type === 'SPLINE')).toMatchObject({ read: 1, skipped: 0 });
  expect(drawing.remarks).toEqual([
    '1 spline is given by the points it passes through alone, and read as the smooth cubic through them; between the points another program may draw a little differently.',
  ]);
  const outline = getOutline('spline-fit-points-only.dxf');
  expect(outline.width).toBeCloseTo(120, 3);
  // Through five points of a half circle the cubic stays within 0.01 mm of it.
  expect(Math.abs(outline.areaMm2 - (2200 + 50 * Math.PI))).toBeLessThan(0.01 * 10 * Math.PI);
});

test('blocks that multiply into millions are cut off and told', () => {
  for (const name of ['insert-bomb.dxf', 'svg-use-bomb.svg']) {
    const drawing = readSample(name);
    expect(drawing.remarks, name).toEqual(['The drawing holds more than is read of one, so part of it is missing.']);
    expect(drawing.entities.length, name).toBeLessThanOrEqual(20_000);
  }
});

test('an outline that crosses itself closes by its ends and is blocked all the same', () => {
  const outline = getOutline('crossing.dxf');
  expect(outline.outer).not.toBeNull();
  expect(outline.remarks).toContainEqual(expect.objectContaining({ code: 'crossings', severity: 'block', count: 2 }));
});

test('the end mark that is missing is told', () => {
  expect(readSample('end-mark-missing.dxf').remarks).toHaveLength(1);
  expect(readSample('r12-lines.dxf').remarks).toEqual([]);
});

test('a name in an old code page is read in it', () => {
  expect(readSample('old-code-page.dxf').entities.map(({ layer }) => layer)).toContain('Контур');
});

test('a layer that the user hides is left out', () => {
  const hidden = getOutline('old-code-page.dxf', { hiddenLayers: ['Контур'] });
  expect(getRemarks(hidden)).toMatchObject({ 'no-outline': 1 });
});

test('quarter turns and the other hand', () => {
  const upright = getOutline('upright.dxf');
  expect([upright.width, upright.height, upright.bores[0]?.centre]).toEqual([20, 120, { x: 10, y: 15 }]);
  const turned = getOutline('upright.dxf', { quarterTurns: 1 });
  expect([turned.width, turned.height, turned.bores[0]?.centre]).toEqual([120, 20, { x: 105, y: 10 }]);
  const back = getOutline('upright.dxf', { quarterTurns: 3 });
  expect(back.bores[0]?.centre).toEqual({ x: 15, y: 10 });
  const mirrored = getOutline('upright.dxf', { quarterTurns: 1, isMirrored: true });
  expect(mirrored.bores[0]?.centre).toEqual({ x: 15, y: 10 });
});
