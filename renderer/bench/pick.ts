import type { Mark, Point, View } from '../../shared/drawing/marks';
import type { Scene } from '../../shared/drawing/scene';
import { type Bounds, measureBounds } from '../../shared/drawing/sinks/bounds';
import { hitTest } from '../../shared/drawing/sinks/hit-test';
import type { FeatureRef } from '../../shared/findings/finding';
import { isSameFeature } from '../state/view';
import { FURNITURE, getShownFeatures, uniteBounds } from './feature-index';
import { getBenchFeature, isShownBy } from './feature-match';

/** One thing of the Bench as a view shows it. */
interface Pickable {
  readonly feature: FeatureRef;
  readonly view: View;
  readonly reach: Bounds;
  /** mm² of the thing itself. */
  readonly area: number;
  /** Its lesser side, mm; 0 for what is drawn with lines alone. */
  readonly thickness: number;
}

const pickables = new WeakMap<View, readonly Pickable[]>();

/**
 * What is under a point, as a thing of the Bench; null over paper and furniture that stands for nothing. Of several the
 * smallest is meant: a tab is drawn under its part and a few px high, and still has to be taken hold of.
 *
 * @param tolerance how far beside a thing still counts, in the view's mm
 */
export function pick(view: View, scene: Scene, point: Point, tolerance: number): FeatureRef | null {
  let found: Pickable | null = null;
  for (const one of getPickables(view, scene)) {
    if (found !== null && one.area >= found.area) continue;
    // A pointer may miss what is thin; what is broad would only take the place of its neighbours.
    const beside = one.thickness < 2 * tolerance ? tolerance : 0;
    if (isNear(one.reach, point, beside) && hitTest(one.view, point, beside) !== null) found = one;
  }
  return found?.feature ?? null;
}

function getPickables(view: View, scene: Scene): readonly Pickable[] {
  const known = pickables.get(view);
  if (known !== undefined) return known;
  const gathered = new Map<string, { feature: FeatureRef; marks: Mark[] }>();
  for (const mark of view.marks) {
    const feature = mark.feature === null ? null : getBenchFeature(mark.feature, scene);
    if (feature === null) continue;
    const key = `${feature.kind}:${feature.id}`;
    const one = gathered.get(key) ?? { feature, marks: [] };
    one.marks.push(mark);
    gathered.set(key, one);
  }
  const made = [...gathered.values()].map(({ feature, marks }): Pickable => {
    const reach = measureBounds(marks);
    const own = getFeatureBounds(view, scene, feature) ?? reach;
    const width = own.right - own.left;
    const height = own.top - own.bottom;
    const isFilled = marks.some((mark) => mark.kind === 'path' && mark.fill !== 'none' && !FURNITURE.has(mark.layer));
    return {
      feature,
      view: { ...view, marks },
      reach,
      area: width * height,
      thickness: isFilled ? Math.min(width, height) : 0,
    };
  });
  pickables.set(view, made);
  return made;
}

function isNear(bounds: Bounds, { x, y }: Point, tolerance: number): boolean {
  return (
    x >= bounds.left - tolerance &&
    x <= bounds.right + tolerance &&
    y >= bounds.bottom - tolerance &&
    y <= bounds.top + tolerance
  );
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
