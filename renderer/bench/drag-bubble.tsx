import { echoBoth } from '../../shared/units/format';
import type { PaneName, Rect } from './panes';
import { useBench } from './use-bench';

const OFFSET_PX = 18;
/** As large as the style lets it be. */
const WIDTH_REM = 16;
const HEIGHT_REM = 4.25;

/** The number of what is in the hand, beside the pointer, and what it has come to rest on. */
export function DragBubble({ pane, rect }: { pane: PaneName; rect: Rect }) {
  const drag = useBench((state) => (state.drag?.pane === pane ? state.drag : null));
  const remPx = useBench((state) => state.remPx);
  if (drag === null) return null;
  const { mover, value, line, anchorLabel, pointer } = drag;
  const below = pointer.y + OFFSET_PX;
  const above = pointer.y - OFFSET_PX - HEIGHT_REM * remPx;
  const fitsBelow = below + HEIGHT_REM * remPx <= rect.height;
  const style = {
    top: fitsBelow ? below : Math.max(4, above),
    left: Math.max(4, Math.min(pointer.x + OFFSET_PX, rect.width - WIDTH_REM * remPx - 4)),
  };
  return (
    <div className="bench-bubble" style={style} role="status">
      <span className="bench-bubble-value">{echoBoth(value)}</span>
      <span className="bench-bubble-what">
        {mover.name}, {mover.measure}
      </span>
      {line !== null && (
        <span className="bench-bubble-snap">
          {anchorLabel} on {line.label}
        </span>
      )}
    </div>
  );
}
