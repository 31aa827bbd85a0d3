import type { Mark, View } from '../../shared/drawing/marks';
import { type Bounds, measureBounds } from '../../shared/drawing/sinks/bounds';
import type { FeatureRef } from '../../shared/findings/finding';

/** What a view shows of one feature. */
export interface ShownFeature {
  readonly feature: FeatureRef;
  /** Of the thing itself; null where only dimensions and notes speak of it. */
  readonly solid: Bounds | null;
  readonly all: Bounds;
}

/** Layers that speak of a thing and are not the thing. */
export const FURNITURE: ReadonlySet<Mark['layer']> = new Set<Mark['layer']>([
  'dimension',
  'note',
  'centre',
  'frame',
  'hidden',
  'finding',
  'guide',
]);

const known = new WeakMap<View, readonly ShownFeature[]>();

/** Every feature that a view shows, with its bounds; measured once for each view. */
export function getShownFeatures(view: View): readonly ShownFeature[] {
  const before = known.get(view);
  if (before !== undefined) return before;
  const shown = indexView(view);
  known.set(view, shown);
  return shown;
}

function indexView(view: View): ShownFeature[] {
  const found = new Map<string, ShownFeature>();
  for (const mark of view.marks) {
    const { feature } = mark;
    if (feature === null) continue;
    const key = `${feature.kind}:${feature.id}`;
    const bounds = measureBounds([mark]);
    const isSolid = mark.kind === 'path' && !FURNITURE.has(mark.layer);
    const before = found.get(key);
    found.set(key, {
      feature,
      all: before === undefined ? bounds : uniteBounds(before.all, bounds),
      solid: isSolid ? uniteBounds(before?.solid ?? bounds, bounds) : (before?.solid ?? null),
    });
  }
  return [...found.values()];
}

export function uniteBounds(a: Bounds, b: Bounds): Bounds {
  return {
    left: Math.min(a.left, b.left),
    right: Math.max(a.right, b.right),
    bottom: Math.min(a.bottom, b.bottom),
    top: Math.max(a.top, b.top),
  };
}
