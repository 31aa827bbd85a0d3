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
        const meets =
          box.left < other.right && box.right > other.left && box.top < other.bottom && box.bottom > other.top;
        expect(meets).toBe(false);
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
});
