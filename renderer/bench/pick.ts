import type { Point, View } from '../../shared/drawing/marks';
import type { Scene } from '../../shared/drawing/scene';
import type { Bounds } from '../../shared/drawing/sinks/bounds';
import { hitTest } from '../../shared/drawing/sinks/hit-test';
import type { FeatureRef } from '../../shared/findings/finding';
import { isSameFeature } from '../state/view';
import { getShownFeatures, uniteBounds } from './feature-index';
import { getBenchFeature, isShownBy } from './feature-match';

const pickable = new WeakMap<View, View>();

/** What is under a point, as a thing of the Bench; null over paper and furniture that stands for nothing. */
export function pick(view: View, scene: Scene, point: Point, tolerance: number): FeatureRef | null {
  const mark = hitTest(getPickable(view, scene), point, tolerance);
  return mark?.feature == null ? null : getBenchFeature(mark.feature, scene);
}

function getPickable(view: View, scene: Scene): View {
  const known = pickable.get(view);
  if (known !== undefined) return known;
  const marks = view.marks.filter((mark) => mark.feature !== null && getBenchFeature(mark.feature, scene) !== null);
  const made = { ...view, marks };
  pickable.set(view, made);
  return made;
}

/** Bounds of what shows a reference in a view, without its dimensions and notes; null where the view does not show it. */
export function getFeatureBounds(view: View, scene: Scene, meant: FeatureRef): Bounds | null {
  const shown = getShownFeatures(view).filter(({ feature }) => isShownBy(meant, feature, scene));
  const solid = shown.flatMap((one) => one.solid ?? []);
  const all = solid.length > 0 ? solid : shown.map((one) => one.all);
  return all.length === 0 ? null : all.reduce(uniteBounds);
}

/** The parts and vises that lie wholly inside a rectangle of a view. */
export function pickInside(view: View, scene: Scene, area: Bounds): FeatureRef[] {
  const found: FeatureRef[] = [];
  for (const { feature: shown } of getShownFeatures(view)) {
    const feature = getBenchFeature(shown, scene);
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
