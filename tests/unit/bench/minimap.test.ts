import { describe, expect, it } from 'vitest';
import { getShown, toDrawing } from '../../../renderer/bench/camera';
import { computeMinimap, lookAt } from '../../../renderer/bench/compute-minimap';

const content = { left: 0, right: 1000, bottom: -60, top: 40 };
const pane = { width: 500, height: 200 };

describe('the strip of the whole bar', () => {
  it('is not there while all of it is in sight', () => {
    expect(computeMinimap(content, { pxPerMm: 0.5, left: 0, top: 200 }, pane)).toBeNull();
    expect(computeMinimap(content, { pxPerMm: 0.4, left: -100, top: 200 }, pane)).toBeNull();
  });

  it.each([
    ['zoomed along the bar', { pxPerMm: 2, left: 400, top: 60 }],
    ['moved out of sight', { pxPerMm: 0.4, left: 2000, top: 200 }],
    ['zoomed so that the height is cut', { pxPerMm: 5, left: 10, top: 20 }],
  ])('stays inside its share of the pane and shows the sight inside itself: %s', (_name, camera) => {
    const map = computeMinimap(content, camera, pane);
    expect(map).not.toBeNull();
    if (map === null) return;
    const { size, sight } = map;
    expect(size.width).toBeLessThanOrEqual(pane.width * 0.5);
    expect(size.height).toBeLessThanOrEqual(pane.height * 0.3);
    expect(sight.left).toBeGreaterThanOrEqual(0);
    expect(sight.left + sight.width).toBeLessThanOrEqual(size.width + 0.001);
    expect(sight.top).toBeGreaterThanOrEqual(0);
    expect(sight.top + sight.height).toBeLessThanOrEqual(size.height + 0.001);
  });

  it('marks what is in sight at its place in the whole', () => {
    const camera = { pxPerMm: 2, left: 400, top: 60 };
    const map = computeMinimap(content, camera, pane);
    if (map === null) throw new Error('no strip');
    const shown = getShown(camera, pane);
    expect(toDrawing(map.camera, { x: map.sight.left, y: 0 }).x).toBeCloseTo(shown.left, 6);
    expect(toDrawing(map.camera, { x: map.sight.left + map.sight.width, y: 0 }).x).toBeCloseTo(shown.right, 6);
  });
});

describe('looking at a point', () => {
  const camera = { pxPerMm: 2, left: 400, top: 60 };

  it('brings it into the middle', () => {
    const { left } = lookAt(camera, pane, { x: 300, y: 0 }, content);
    expect(left + pane.width / 2 / camera.pxPerMm).toBeCloseTo(300, 9);
  });

  it('goes no further than the ends of what there is', () => {
    expect(lookAt(camera, pane, { x: -5000, y: 0 }, content).left).toBe(0);
    expect(lookAt(camera, pane, { x: 5000, y: 0 }, content).left).toBe(1000 - 250);
  });

  it('keeps a thing that is smaller than the pane wholly in sight', () => {
    const shown = getShown(lookAt({ pxPerMm: 0.2, left: 0, top: 0 }, pane, { x: 9999, y: 9999 }, content), pane);
    expect(shown.left).toBeLessThanOrEqual(content.left);
    expect(shown.right).toBeGreaterThanOrEqual(content.right);
    expect(shown.bottom).toBeLessThanOrEqual(content.bottom);
    expect(shown.top).toBeGreaterThanOrEqual(content.top);
  });
});
