import { DxfWriter, LWPolylineFlags, point2d, point3d, Units } from '@tarikjabiri/dxf';
import Drawing from 'dxf-writer';
import { describe, expect, test } from 'vitest';
import { parseDrawing } from '../../../main/services/import/parse-drawing';
import { computeOutline } from '../../../shared/outline/compute-outline';
import { OUTLINE_DEFAULTS, type Outline } from '../../../shared/outline/outline';
import type { OutlineDrawing } from '../../../shared/outline/outline-drawing';

/** Its types know neither bulges nor this verb. */
interface UntypedDrawing {
  drawEllipse(x: number, y: number, majorX: number, majorY: number, ratio: number, start: number, end: number): void;
}

const ROUND_ENDS = [
  [10, 20, 1],
  [10, 0],
  [110, 0, 1],
  [110, 20],
] as unknown as [number, number][];

const HALF = Math.SQRT1_2;

function read(text: string): { drawing: OutlineDrawing; outline: Outline } {
  const drawing = parseDrawing(Buffer.from(text), 'written.dxf');
  const outline = computeOutline(drawing, { ...OUTLINE_DEFAULTS, unit: drawing.declaredUnit ?? 'mm', units: 'mm' });
  return { drawing, outline };
}

describe('what one npm writer writes', () => {
  test('lines, bulges, circles and its units', () => {
    const dxf = new DxfWriter();
    dxf.setUnits(Units.Inches);
    const corner = (x: number, y: number, bulge = 0) => ({ point: point2d(x, y), bulge });
    const flags = LWPolylineFlags.Closed;
    dxf.addLWPolyline([corner(0.5, 1, 1), corner(0.5, 0), corner(4.5, 0, 1), corner(4.5, 1)], { flags });
    dxf.addCircle(point3d(0.5, 0.5), 0.1875);
    dxf.addText(point3d(1, 1), 0.1, 'strut');
    const { drawing, outline } = read(dxf.stringify());
    expect(drawing.declaredUnit).toBe('in');
    expect([outline.width, outline.height]).toEqual([expect.closeTo(127, 9), expect.closeTo(25.4, 9)]);
    expect(outline.areaMm2).toBeCloseTo((4 + Math.PI / 4) * 645.16, 6);
    expect(outline.bores).toMatchObject([{ diameter: expect.closeTo(9.525, 9) }]);
    expect(drawing.counts.find(({ type }) => type === 'TEXT')).toMatchObject({ read: 0, skipped: 1 });
  });

  test('a rational spline that is a circle, and half an ellipse', () => {
    const dxf = new DxfWriter();
    dxf.setUnits(Units.Millimeters);
    dxf.addLine(point3d(0, 0), point3d(100, 0));
    dxf.addLine(point3d(0, 20), point3d(100, 20));
    dxf.addLine(point3d(0, 0), point3d(0, 20));
    dxf.addEllipse(point3d(100, 10), point3d(20, 0), 0.5, -Math.PI / 2, Math.PI / 2);
    const round: [number, number][] = [
      [65, 10],
      [65, 15],
      [60, 15],
      [55, 15],
      [55, 10],
      [55, 5],
      [60, 5],
      [65, 5],
      [65, 10],
    ];
    dxf.addSpline({
      degreeCurve: 2,
      controlPoints: round.map(([x, y]) => point3d(x, y)),
      knots: [0, 0, 0, 1, 1, 2, 2, 3, 3, 4, 4, 4],
      weights: [1, HALF, 1, HALF, 1, HALF, 1, HALF, 1],
    });
    const { outline } = read(dxf.stringify());
    expect(outline.width).toBeCloseTo(120, 9);
    expect(outline.areaMm2).toBeCloseTo(2000 + 100 * Math.PI, 0);
    expect(outline.bores).toMatchObject([{ diameter: expect.closeTo(10, 2) }]);
  });

  test('a block put in turned and scaled', () => {
    const dxf = new DxfWriter();
    dxf.setUnits(Units.Millimeters);
    const block = dxf.addBlock('LINK');
    block.addRectangle(point2d(0, 10), point2d(60, 0));
    block.addCircle(point3d(10, 5), 2);
    dxf.addInsert('LINK', point3d(5, 5), { rotationAngle: 90, scaleFactor: { x: 2, y: 2, z: 2 } });
    const { outline } = read(dxf.stringify());
    expect([outline.width, outline.height]).toEqual([expect.closeTo(20, 9), expect.closeTo(120, 9)]);
    expect(outline.bores).toMatchObject([{ centre: { x: expect.closeTo(10, 9), y: expect.closeTo(20, 9) } }]);
  });
});

describe('what another npm writer writes', () => {
  test('lines, arcs, circles and its units', () => {
    const drawing = new Drawing();
    drawing.setUnits('Millimeters');
    drawing.drawLine(10, 0, 110, 0).drawLine(110, 20, 10, 20);
    drawing.drawArc(110, 10, 10, -90, 90).drawArc(10, 10, 10, 90, 270);
    drawing.drawCircle(10, 10, 4).drawText(20, 20, 5, 0, 'strut');
    const { drawing: found, outline } = read(drawing.toDxfString());
    expect(found.declaredUnit).toBe('mm');
    expect(outline.areaMm2).toBeCloseTo(2000 + 100 * Math.PI, 6);
    expect(outline.bores).toMatchObject([{ centre: { x: 10, y: 10 }, diameter: 8 }]);
    expect(found.counts.find(({ type }) => type === 'TEXT')).toMatchObject({ skipped: 1 });
  });

  test('a polyline with bulges, and an ellipse', () => {
    const drawing = new Drawing() as Drawing & UntypedDrawing;
    drawing.setUnits('Millimeters');
    drawing.drawPolyline(ROUND_ENDS, true);
    drawing.drawEllipse(60, 10, 6, 0, 0.5, 0, 2 * Math.PI);
    const { drawing: found, outline } = read(drawing.toDxfString());
    expect(outline.areaMm2).toBeCloseTo(2000 + 100 * Math.PI, 6);
    expect(outline.windows).toHaveLength(1);
    // Lines within .005 of a curve 29 long take off less than their product.
    expect(Math.abs((outline.windows[0]?.areaMm2 ?? 0) - 18 * Math.PI)).toBeLessThan(0.005 * 29);
    expect(found.counts.filter(({ read: count }) => count > 0).map(({ type }) => type)).toContain('ELLIPSE');
  });
});
