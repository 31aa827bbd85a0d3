import { memo } from 'react';
import type { Point, View } from '../../shared/drawing/marks';
import type { App } from '../state/app';
import { useApp, useView } from '../state/hooks';
import { isSameFeature } from '../state/view';
import { handleBenchKey } from './bench-keys';
import type { BenchSession } from './bench-session';
import type { Camera } from './camera';
import { toScreen } from './camera';
import type { BenchFeature } from './features';
import type { Setting } from './gestures/mover';
import type { PaneName, Rect } from './panes';
import { getFeatureBounds } from './pick';
import { useBenchSession } from './use-bench';

export interface FeatureButtonsProps {
  readonly pane: PaneName;
  readonly view: View;
  readonly setting: Setting;
  readonly features: readonly BenchFeature[];
  readonly rect: Rect;
  readonly camera: Camera;
  readonly onMenu: (at: Point, feature: BenchFeature['feature']) => void;
}

const LISTS: Readonly<Partial<Record<PaneName, string>>> = {
  elevation: 'Layout along the bar',
  section: 'Layout in height',
};

/** Least size of a focus ring, px: a thin thing still has to be seen to have the focus. */
const LEAST_PX = 14;

/**
 * The layout as a list: each thing on the canvas is a button that lies over it, unseen until it has the focus. Tab comes
 * to each, a screen reader reads its name and number, and the keys move it.
 */
export const FeatureButtons = memo(function FeatureButtons(props: FeatureButtonsProps) {
  const { pane, features } = props;
  const own = features.filter((feature) => feature.pane === pane);
  if (own.length === 0) return null;
  return (
    <ul className="bench-features" aria-label={LISTS[pane] ?? 'Layout'}>
      {own.map((feature) => (
        <FeatureButton key={`${feature.feature.kind}:${feature.feature.id}`} {...props} one={feature} />
      ))}
    </ul>
  );
});

function FeatureButton({
  one,
  pane,
  view,
  setting,
  camera,
  rect,
  onMenu,
}: FeatureButtonsProps & { one: BenchFeature }) {
  const app = useApp();
  const session = useBenchSession();
  const { feature } = one;
  const isSelected = useView((state) => state.selection.some((other) => isSameFeature(other, feature)));
  const isFirst = useView((state) => state.selection[0] !== undefined && isSameFeature(state.selection[0], feature));
  const place = getPlaceOnScreen(view, setting, feature, camera, rect);
  return (
    <li>
      <button
        type="button"
        className={`bench-feature${isFirst ? ' is-first' : ''}`}
        data-feature={`${feature.kind}:${feature.id}`}
        aria-pressed={isSelected}
        aria-keyshortcuts="ArrowLeft ArrowRight ArrowUp ArrowDown Space Delete A P Enter"
        aria-label={one.says === '' ? one.name : `${one.name}, ${one.says}`}
        style={place}
        onFocus={() => {
          const { selection } = app.view.store.getState();
          if (selection === session.store.getState().gathered) return;
          if (!selection.some((other) => isSameFeature(other, feature))) app.view.select([feature]);
        }}
        onKeyUp={(event) => {
          if (event.key === ' ' && !session.controller.hasSpaceMoved()) gather(app, session, feature);
        }}
        onKeyDown={(event) => {
          if (event.key === 'ContextMenu' || (event.shiftKey && event.key === 'F10')) {
            event.preventDefault();
            onMenu({ x: place.left + place.width / 2, y: place.top + place.height / 2 }, feature);
            return;
          }
          if (event.key === 'Escape' && !session.controller.cancel()) app.view.select([]);
          if (handleBenchKey(app, session, { feature, pane }, event.nativeEvent)) {
            event.preventDefault();
            event.stopPropagation();
          }
        }}
      />
    </li>
  );
}

/** The space bar gathers things one by one, as a click with Shift does. */
function gather(app: App, session: BenchSession, feature: BenchFeature['feature']): void {
  const { selection } = app.view.store.getState();
  const { store } = session;
  const others = selection.filter((other) => !isSameFeature(other, feature));
  const isTakenOut = selection === store.getState().gathered && others.length < selection.length;
  const gathered = isTakenOut ? others : [feature, ...others];
  store.setState({ gathered, said: `${gathered.length} selected` });
  app.view.select(gathered);
}

function getPlaceOnScreen(
  view: View,
  setting: Setting,
  feature: BenchFeature['feature'],
  camera: Camera,
  rect: Rect,
): { left: number; top: number; width: number; height: number } {
  const bounds = getFeatureBounds(view, setting.scene, feature) ?? { left: 0, right: 0, bottom: 0, top: 0 };
  const upper = toScreen(camera, { x: bounds.left, y: bounds.top });
  const lower = toScreen(camera, { x: bounds.right, y: bounds.bottom });
  const across = widen(upper.x, lower.x, rect.width);
  const down = widen(upper.y, lower.y, rect.height);
  return { left: across.from, width: across.size, top: down.from, height: down.size };
}

/** A stretch of the screen about the same middle, no thinner than can be seen and kept inside the pane. */
function widen(from: number, to: number, room: number): { from: number; size: number } {
  const middle = (from + to) / 2;
  const half = Math.max(LEAST_PX, to - from) / 2;
  const start = Math.min(Math.max(2, middle - half), room - LEAST_PX);
  return { from: start, size: Math.max(LEAST_PX, Math.min(middle + half, room - 2) - start) };
}
