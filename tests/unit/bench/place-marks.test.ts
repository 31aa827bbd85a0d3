import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { toScreen } from '../../../renderer/bench/camera';
import type { FindingAnchor } from '../../../renderer/bench/finding-anchors';
import { placeMarks } from '../../../renderer/bench/place-marks';
import type { TextMark, View } from '../../../shared/drawing/marks';
import { measureBounds } from '../../../shared/drawing/sinks/bounds';
import type { Finding } from '../../../shared/findings/finding';

const camera = { pxPerMm: 2, left: 0, top: 100 };
const pane = { width: 400, height: 200 };

const buildText = (x: number, y: number): TextMark => ({
  kind: 'text',
  layer: 'dimension',
  feature: null,
  at: { x, y },
  text: '123.45',
  size: 4,
  anchor: 'start',
  angle: 0,
  weight: 'regular',
});

const buildView = (marks: TextMark[]): View => ({
  name: 'elevation',
  title: '',
  bounds: measureBounds(marks),
  mmPerPaperMm: 1,
  marks,
});

const buildAnchor = (x: number, y: number, count = 1): FindingAnchor => ({
  pane: 'elevation',
  x,
  y,
  severity: 'check',
  findings: Array.from({ length: count }, () => ({}) as Finding),
  feature: { kind: 'part', id: 'p' },
});

describe('marks of findings', () => {
  it('stand off the corner of what they are about', () => {
    const [mark] = placeMarks([buildAnchor(50, 50)], { view: buildView([]), camera, pane, remPx: 16 });
    expect(mark?.at).toEqual({ x: 108, y: 92 });
  });

  it.each([1, 5])('lie over no label and over none of each other, with %i findings each', (count) => {
    const view = buildView([buildText(50, 52), buildText(50, 46), buildText(120, 50)]);
    const anchors = [50, 50, 52, 118].map((x) => buildAnchor(x, 50, count));
    const boxes = placeMarks(anchors, { view, camera, pane, remPx: 16 }).map(({ at }) => ({
      left: at.x - 8,
      right: at.x + 8 + (count > 1 ? 14 : 0),
      top: at.y - 8,
      bottom: at.y + 8,
    }));
    const labels = view.marks.map((mark) => {
      const { left, right, top, bottom } = measureBounds([mark]);
      const [upper, lower] = [toScreen(camera, { x: left, y: top }), toScreen(camera, { x: right, y: bottom })];
      return { left: upper.x, right: lower.x, top: upper.y, bottom: lower.y };
    });
    for (const [index, box] of boxes.entries()) {
      for (const other of [...labels, ...boxes.slice(index + 1)]) {
        expect(meets(box, other)).toBe(false);
      }
    }
  });

  it('are not there for what is out of sight, and stay inside the pane', () => {
    const anchors = [buildAnchor(-40, 50), buildAnchor(199.5, 99.5)];
    const marks = placeMarks(anchors, { view: buildView([]), camera, pane, remPx: 16 });
    expect(marks).toHaveLength(1);
    expect(marks[0]?.at.x).toBeLessThanOrEqual(pane.width - 9);
    expect(marks[0]?.at.y).toBeGreaterThanOrEqual(9);
  });

  it('never overlap nor leave the pane, wherever and however many they are, while there is room', () => {
    const anchorAt = fc.record({
      x: fc.double({ min: 0, max: 200, noNaN: true }),
      y: fc.double({ min: 0, max: 100, noNaN: true }),
      count: fc.constantFrom(1, 1, 2, 9, 14),
    });
    // Crowds about one corner are what a plan with many faults has.
    const crowd = fc.record({ at: anchorAt, size: fc.integer({ min: 1, max: 8 }) });
    const label = fc.record({
      x: fc.double({ min: 0, max: 200, noNaN: true }),
      y: fc.double({ min: 0, max: 100, noNaN: true }),
    });
    const crowds = fc.array(crowd, { maxLength: 3 });
    fc.assert(
      fc.property(crowds, fc.array(label, { maxLength: 60 }), fc.constantFrom(16, 21), (places, labels, remPx) => {
        const view = buildView(labels.map(({ x, y }) => buildText(x, y)));
        const anchors = places.flatMap(({ at, size }) =>
          Array.from({ length: size }, (_, index) => buildAnchor(at.x + index * 0.1, at.y, at.count)),
        );
        // 24 marks stop at most a quarter of this pane to one more.
        const wide = { width: 900, height: 600 };
        const scale = remPx / 16;
        const boxes = placeMarks(anchors, { view, camera, pane: wide, remPx }).map(({ anchor, at }) => ({
          left: at.x - 9 * scale,
          right: at.x + (9 + getCountPx(anchor.findings.length)) * scale,
          top: at.y - 9 * scale,
          bottom: at.y + 9 * scale,
        }));
        expect(boxes).toHaveLength(anchors.length);
        for (const [index, box] of boxes.entries()) {
          expect(box.left).toBeGreaterThanOrEqual(0);
          expect(box.top).toBeGreaterThanOrEqual(0);
          expect(box.right).toBeLessThanOrEqual(wide.width);
          expect(box.bottom).toBeLessThanOrEqual(wide.height);
          expect(boxes.slice(index + 1).filter((other) => meets(box, other))).toEqual([]);
        }
      }),
    );
  });

  it('go to the last gap of a pane with room for one row of them', () => {
    const anchors = Array.from({ length: 3 }, () => buildAnchor(0, 100));
    const row = { width: 76, height: 23 };
    const places = placeMarks(anchors, { view: buildView([]), camera, pane: row, remPx: 16 }).map(({ at }) => at);
    expect(places.map(({ y }) => y)).toEqual([11.5, 11.5, 11.5]);
    expect(places.map(({ x }) => x)).toEqual([11.5, 44, 63]);
  });
});

/** What a count takes behind its sign, px at the usual text size: digits of 6.6 px with 4 px about them. */
const getCountPx = (count: number): number => (count > 1 ? 4 + 6.6 * String(count).length : 0);

interface Box {
  left: number;
  right: number;
  top: number;
  bottom: number;
}

const meets = (box: Box, other: Box): boolean =>
  box.left < other.right && box.right > other.left && box.top < other.bottom && box.bottom > other.top;
