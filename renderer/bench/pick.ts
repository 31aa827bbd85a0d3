import type { Mark, Point, View } from '../../shared/drawing/marks';
import type { Scene } from '../../shared/drawing/scene';
import { type Bounds, measureBounds } from '../../shared/drawing/sinks/bounds';
import { hitTest } from '../../shared/drawing/sinks/hit-test';
import type { FeatureRef } from '../../shared/findings/finding';
import { isSameFeature } from '../state/view';
import { getBenchFeature, isShownBy } from './feature-match';

const FURNITURE = new Set<Mark['layer']>(['dimension', 'note', 'centre', 'frame', 'hidden', 'finding', 'guide']);

/** What is under a point, as a thing of the Bench; null over paper and furniture that stands for nothing. */
export function pick(view: View, scene: Scene, point: Point, tolerance: number): FeatureRef | null {
  const marks = view.marks.filter((mark) => mark.feature !== null && getBenchFeature(mark.feature, scene) !== null);
  const mark = hitTest({ ...view, marks }, point, tolerance);
  return mark?.feature == null ? null : getBenchFeature(mark.feature, scene);
}

/** Bounds of what shows a reference in a view, without its dimensions and notes; null where the view does not show it. */
export function getFeatureBounds(view: View, scene: Scene, meant: FeatureRef): Bounds | null {
  const shown = view.marks.filter((mark) => mark.feature !== null && isShownBy(meant, mark.feature, scene));
  const solid = shown.filter((mark) => mark.kind === 'path' && !FURNITURE.has(mark.layer));
  const marks = solid.length > 0 ? solid : shown;
  return marks.length === 0 ? null : measureBounds(marks);
}

/** The things of the Bench that lie wholly inside a rectangle of a view. */
export function pickInside(view: View, scene: Scene, area: Bounds): FeatureRef[] {
  const found: FeatureRef[] = [];
  for (const mark of view.marks) {
    const feature = mark.feature === null ? null : getBenchFeature(mark.feature, scene);
    if (feature === null || !isGroupable(feature) || found.some((other) => isSameFeature(other, feature))) continue;
    const bounds = getFeatureBounds(view, scene, feature);
    if (bounds !== null && isInside(bounds, area)) found.push(feature);
  }
  return found;
}

/** Only what there are several of is gathered by a rectangle. */
function isGroupable(feature: FeatureRef): boolean {
  return feature.kind === 'part' || feature.kind === 'vise';
}

function isInside(bounds: Bounds, area: Bounds): boolean {
  return (
    bounds.left >= area.left && bounds.right <= area.right && bounds.bottom >= area.bottom && bounds.top <= area.top
  );
}
