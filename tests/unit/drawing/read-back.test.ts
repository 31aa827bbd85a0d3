import { parseString } from 'dxf';
import { describe, expect, test } from 'vitest';
import { parseDrawing } from '../../../main/services/import/parse-drawing';
import type { Mark, PathMark, View } from '../../../shared/drawing/marks';
import { toDxf } from '../../../shared/drawing/sinks/dxf';
import { toSvg } from '../../../shared/drawing/sinks/svg';
import { buildElevation } from '../../../shared/drawing/views/elevation';
import { buildEndSection } from '../../../shared/drawing/views/end-section';
import { buildPart } from '../../../shared/drawing/views/part-view';
import { buildPlanView } from '../../../shared/drawing/views/plan-view';
import { buildShelfPocket } from '../../../shared/drawing/views/shelf-pocket';
import { getShapePoint } from '../../../shared/outline/flatten';
import type { Point } from '../../../shared/outline/point';
import { getDrawnOnShelf } from '../support/sample-sheets';

/** A micrometre. */
const WITHIN = 0.001;

const { plan, evaluation, shop } = getDrawnOnShelf();
const options = { mmPerPaperMm: 2 };
const views: readonly View[] = [
  buildElevation(plan, evaluation, shop, options),
  buildEndSection(plan, evaluation, shop, options),
  buildPlanView(plan, evaluation, shop, options),
  buildShelfPocket(plan, evaluation, shop, options),
  ...plan.parts.slice(0, 1).map((part) => buildPart(plan, part.id, options)),
];

function isDrawn(mark: Mark): mark is PathMark {
  return mark.kind === 'path' && mark.pen !== 'none';
}

/** Ends of every line and arc that a view draws, none of its text. */
function getEnds({ marks }: View): Point[] {
  return marks
    .filter((mark: Mark): mark is PathMark => mark.kind === 'path' && mark.pen !== 'none')
    .flatMap(getPathEnds);
}

function getPathEnds({ segments }: PathMark): Point[] {
  return segments.flatMap((segment): Point[] => {
    if (segment.op === 'close') return [];
    if (segment.op !== 'arc') return [{ x: segment.x, y: segment.y }];
    const at = (angle: number): Point => ({
      x: segment.cx + segment.radius * Math.cos(angle),
      y: segment.cy + segment.radius * Math.sin(angle),
    });
    // A whole circle has no end of its own that a file keeps.
    if (Math.abs(segment.end - segment.start) >= 2 * Math.PI - 1e-9) return [];
    return [at(segment.start), at(segment.end)];
  });
}

function expectEachNear(wanted: readonly Point[], found: readonly Point[], name: string): void {
  const cells = new Map<string, Point[]>();
  const size = 0.01;
  for (const point of found) {
    for (const dx of [-1, 0, 1]) {
      for (const dy of [-1, 0, 1]) {
        const key = `${Math.floor(point.x / size) + dx},${Math.floor(point.y / size) + dy}`;
        cells.set(key, [...(cells.get(key) ?? []), point]);
      }
    }
  }
  for (const point of wanted) {
    const near = cells.get(`${Math.floor(point.x / size)},${Math.floor(point.y / size)}`) ?? [];
    const distance = Math.min(Infinity, ...near.map((other) => Math.hypot(other.x - point.x, other.y - point.y)));
    expect(distance, `${name}: ${point.x}, ${point.y}`).toBeLessThanOrEqual(WITHIN);
  }
}

function readEnds(content: string, name: string): Point[] {
  const { entities } = parseDrawing(Buffer.from(content), name);
  return entities.flatMap(({ shape }) => [getShapePoint(shape, 0), getShapePoint(shape, 1)]);
}

describe('a view written and read by an independent reader is as it was drawn, to the micrometre', () => {
  test('there are the elevation, end section, plan, shelf pocket, and a part with its allowance', () => {
    expect(views.map(({ name }) => name)).toEqual(['elevation', 'section', 'plan', 'shelf', 'part']);
    for (const view of views) expect(getEnds(view).length, view.name).toBeGreaterThan(20);
  });

  test.each(views.map((view) => [view.name, view] as const))('%s as DXF', (name, view) => {
    const text = toDxf(view);
    expectEachNear(getEnds(view), readEnds(text, `${name}.dxf`), name);
    const read = parseString(text) as { header: { insUnits: number }; entities: { layer: string }[] };
    expect(read.header.insUnits).toBe(4);
    const drawn = new Set(view.marks.filter(isDrawn).map(({ layer }) => layer.toUpperCase()));
    const written = new Set(read.entities.map(({ layer }) => layer));
    for (const layer of drawn) expect(written, name).toContain(layer);
  });

  test.each(views.map((view) => [view.name, view] as const))('%s as SVG', (name, view) => {
    const text = toSvg(view);
    // Its user units run down from the top of the view, and the reader's up from the corner of the page.
    const [boxLeft = 0, boxTop = 0] = /viewBox="([^"]*)"/u.exec(text)?.[1]?.split(' ').map(Number) ?? [];
    const found = readEnds(text, `${name}.svg`).map(({ x, y }) => ({
      x: x + boxLeft,
      y: view.bounds.top - boxTop + y,
    }));
    expectEachNear(getEnds(view), found, name);
  });
});
