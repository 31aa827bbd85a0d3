import { describe, expect, it } from 'vitest';
import { buildBenchView } from '../../../renderer/bench/bench-model';
import { getScaleText, PX_PER_SCREEN_MM, pan, toDrawing, toScreen, zoomAt } from '../../../renderer/bench/camera';
import { setCamera } from '../../../renderer/bench/cameras';
import { computeArrangement, isStale } from '../../../renderer/bench/compute-fit';
import { computeHatchTile } from '../../../renderer/bench/draw/hatch-tile';
import { PANES } from '../../../renderer/bench/panes';
import { getFeatureBounds, pick } from '../../../renderer/bench/pick';
import { FILL_STYLES } from '../../../shared/drawing/fills';
import { buildSetting, withTabs } from './setting';

const camera = { pxPerMm: 2, left: -10, top: 50 };

describe('camera', () => {
  it('gives a point back that went to the screen', () => {
    const point = { x: 12.5, y: -3 };
    expect(toDrawing(camera, toScreen(camera, point))).toEqual(point);
  });

  it('zooms about the pointer, which keeps its place in the drawing', () => {
    const at = { x: 120, y: 80 };
    const before = toDrawing(camera, at);
    const after = toDrawing(zoomAt(camera, 1.7, at), at);
    expect(after.x).toBeCloseTo(before.x, 9);
    expect(after.y).toBeCloseTo(before.y, 9);
  });

  it('moves the drawing with the pointer', () => {
    const point = toDrawing(camera, { x: 10, y: 10 });
    expect(toScreen(pan(camera, 5, -7), point)).toEqual({ x: 15, y: 3 });
  });

  it.each([
    [PX_PER_SCREEN_MM, '1 : 1'],
    [PX_PER_SCREEN_MM / 2.2, '1 : 2.2'],
    [PX_PER_SCREEN_MM / 14.4, '1 : 14'],
    [PX_PER_SCREEN_MM * 2, '2 : 1'],
  ])('says the scale of %f px a mm as %s', (pxPerMm, text) => {
    expect(getScaleText(pxPerMm)).toBe(text);
  });
});

describe('arrangement', () => {
  const { plan, shop, setting } = buildSetting();
  const subject = { plan, shop, evaluation: setting.scene.evaluation, blankIndex: 0, sectionX: 40 };
  const rooms = [
    { width: 704, height: 614, remPx: 16 },
    { width: 1280, height: 614, remPx: 16 },
    { width: 1805, height: 1300, remPx: 21 },
    { width: 500, height: 900, remPx: 16 },
  ];

  it.each(rooms)('shows every view whole at $width × $height', ({ width, height, remPx }) => {
    const pxPerPaperMm = (3.1 * remPx) / 16;
    const arrangement = computeArrangement(subject, { width, height }, remPx, pxPerPaperMm);
    for (const pane of PANES) {
      const { pxPerMm } = arrangement.cameras[pane];
      const view = buildBenchView(pane, subject, arrangement.look, pxPerPaperMm / pxPerMm);
      const rect = arrangement.panes[pane];
      const upper = toScreen(arrangement.cameras[pane], { x: view.bounds.left, y: view.bounds.top });
      const lower = toScreen(arrangement.cameras[pane], { x: view.bounds.right, y: view.bounds.bottom });
      expect(upper.x, `${pane} left`).toBeGreaterThanOrEqual(-1);
      expect(upper.y, `${pane} top`).toBeGreaterThanOrEqual(-1);
      expect(lower.x, `${pane} right`).toBeLessThanOrEqual(rect.width + 1);
      expect(lower.y, `${pane} bottom`).toBeLessThanOrEqual(rect.height + 1);
      expect(rect.left + rect.width).toBeLessThanOrEqual(width);
      expect(rect.top + rect.height).toBeLessThanOrEqual(height);
    }
  });

  it('sets the plan view square below the elevation and the stack level with the section', () => {
    const { cameras } = computeArrangement(subject, { width: 1000, height: 700 }, 16, 3.1);
    expect(cameras.plan).toMatchObject({ pxPerMm: cameras.elevation.pxPerMm, left: cameras.elevation.left });
    expect(cameras.stack).toMatchObject({ pxPerMm: cameras.section.pxPerMm, top: cameras.section.top });
  });

  it('keeps them so when one is zoomed', () => {
    const arrangement = computeArrangement(subject, { width: 1000, height: 700 }, 16, 3.1);
    const zoomed = setCamera(arrangement, 'plan', zoomAt(arrangement.cameras.plan, 2, { x: 30, y: 20 }));
    expect(zoomed.cameras.elevation).toMatchObject({
      pxPerMm: zoomed.cameras.plan.pxPerMm,
      left: zoomed.cameras.plan.left,
    });
    expect(zoomed.cameras.section).toBe(arrangement.cameras.section);
  });

  it('is stale when the drawing runs out of its pane, not when it moved a little', () => {
    const arrangement = computeArrangement(subject, { width: 1000, height: 700 }, 16, 3.1);
    const build = (pane: (typeof PANES)[number], scale: number) =>
      buildBenchView(pane, subject, arrangement.look, 3.1 / arrangement.cameras[pane].pxPerMm / scale);
    const views = (scale: number) => ({
      elevation: build('elevation', scale),
      plan: build('plan', scale),
      section: build('section', scale),
      stack: build('stack', scale),
    });
    expect(isStale(arrangement, views(1))).toBe(false);
    expect(isStale(arrangement, views(0.5))).toBe(true);
  });
});

describe('pointing', () => {
  const { plan, shop, setting } = buildSetting();
  const subject = { plan, shop, evaluation: setting.scene.evaluation, blankIndex: 0, sectionX: 40 };
  const view = buildBenchView('elevation', subject, { base: 'table', planDimensions: false }, 2);

  it('finds the part, the vise, the bar and the section line where they are drawn', () => {
    const { scene } = setting;
    const piece = scene.parts[1];
    if (piece === undefined) throw new Error('no second part');
    const centre = scene.vises.centres.value[0] ?? Number.NaN;
    const at = (x: number, y: number) => pick(view, scene, { x, y }, 0.5);
    expect(at(piece.left + 60, piece.top - 8)).toEqual({ kind: 'part', id: piece.placed.slotId });
    expect(at(centre + 20, -scene.seat.jawHeight - 5)).toEqual({ kind: 'vise', id: '0' });
    expect(at(centre + 20, -scene.seat.jawHeight + 12)).toEqual({ kind: 'vise', id: '0' });
    expect(at(scene.parts[0] === undefined ? 0 : scene.parts[0].right + 5, 10)?.kind).toBe('blank');
    expect(at(40, scene.parts[0]?.top ?? 0)).toEqual({ kind: 'field', id: 'sectionX' });
    expect(at(-400, 300)).toBeNull();
  });

  it('finds the bar in a gap narrower than the pointer is vague, and a tab under its part', () => {
    const { scene } = setting;
    const [first, second] = scene.parts;
    if (first === undefined || second === undefined) throw new Error('two parts are needed');
    const gap = second.left - first.right;
    const middle = { x: (first.right + second.left) / 2, y: first.top - 10 };
    expect(pick(view, scene, middle, gap)).toEqual({ kind: 'blank', id: scene.blank.templateId });

    const tabbed = buildSetting(withTabs);
    const tabScene = tabbed.setting.scene;
    const tabView = buildBenchView(
      'elevation',
      { ...subject, plan: tabbed.plan, evaluation: tabScene.evaluation },
      { base: 'table', planDimensions: false },
      2,
    );
    const id = `${tabScene.parts[0]?.placed.slotId}:0`;
    const bounds = getFeatureBounds(tabView, tabScene, { kind: 'tab', id });
    if (bounds === null) throw new Error('no tab is drawn');
    const beside = { x: bounds.left - 0.3, y: (bounds.bottom + bounds.top) / 2 };
    expect(pick(tabView, tabScene, beside, 2.5)).toEqual({ kind: 'tab', id });
  });

  it('measures a part by its own marks, not by the dimensions that speak of it', () => {
    const piece = setting.scene.parts[0];
    if (piece === undefined) throw new Error('no part');
    const bounds = getFeatureBounds(view, setting.scene, { kind: 'part', id: piece.placed.slotId });
    expect(bounds?.top).toBeCloseTo(piece.top + piece.allowance.top, 6);
    expect(bounds?.left).toBeCloseTo(piece.left - piece.allowance.leftEnd, 6);
  });

  it('takes a finding that names the part for each of its pieces', () => {
    const piece = setting.scene.parts[0];
    if (piece === undefined) throw new Error('no part');
    const bounds = getFeatureBounds(view, setting.scene, { kind: 'part', id: piece.part.id });
    expect(bounds?.right).toBeCloseTo((setting.scene.parts[1]?.right ?? 0) + piece.allowance.rightEnd, 6);
  });
});

describe('hatch tiles', () => {
  const hatches = Object.values(FILL_STYLES).flatMap((style) => style.hatch);

  it.each(hatches)('close without a seam: $angleDeg° at $spacing mm', (lines) => {
    const { side, strokes } = computeHatchTile(lines, 6.2);
    expect(Number.isInteger(side)).toBe(true);
    const near = (x: number, y: number): number => Math.min(...strokes.map((stroke) => getDistance(stroke, x, y)));
    for (let at = 0; at <= side; at += 0.5) {
      expect(near(0, at), `left and right at ${at}`).toBeCloseTo(near(side, at), 6);
      expect(near(at, 0), `top and bottom at ${at}`).toBeCloseTo(near(at, side), 6);
    }
  });

  it.each(hatches)('keep the spacing within a tenth: $angleDeg° at $spacing mm', (lines) => {
    const { strokes } = computeHatchTile(lines, 6.2);
    const angleRad = (lines.angleDeg * Math.PI) / 180;
    const heights = strokes.map(({ x1, y1 }) => x1 * Math.sin(angleRad) + y1 * Math.cos(angleRad));
    const rows = heights.toSorted((a, b) => a - b);
    // Dashes of one row stand at one height but for rounding.
    const gaps = rows
      .slice(1)
      .map((row, at) => row - (rows[at] ?? Number.NaN))
      .filter((gap) => gap > 0.01);
    expect(gaps.length).toBeGreaterThan(1);
    for (const gap of gaps) expect(Math.abs(gap / 6.2 / lines.spacing - 1)).toBeLessThan(0.1);
  });

  function getDistance({ x1, y1, x2, y2 }: { x1: number; y1: number; x2: number; y2: number }, x: number, y: number) {
    const square = (x2 - x1) ** 2 + (y2 - y1) ** 2;
    const along = ((x - x1) * (x2 - x1) + (y - y1) * (y2 - y1)) / square;
    const t = Math.min(1, Math.max(0, along));
    return Math.hypot(x - x1 - t * (x2 - x1), y - y1 - t * (y2 - y1));
  }
});
