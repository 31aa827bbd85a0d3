import { echoBoth } from '../../shared/units/format';
import type { PaneName, Rect } from './panes';
import { useBench } from './use-bench';

const OFFSET_PX = 16;
/** As wide as the style lets it be. */
const ROOM_REM = 16;

/** The number of what is in the hand, beside the pointer, and what it has come to rest on. */
export function DragBubble({ pane, rect }: { pane: PaneName; rect: Rect }) {
  const drag = useBench((state) => (state.drag?.pane === pane ? state.drag : null));
  const remPx = useBench((state) => state.remPx);
  if (drag === null) return null;
  const { mover, value, line, anchorLabel, pointer } = drag;
  const isLeft = pointer.x + OFFSET_PX + ROOM_REM * remPx > rect.width;
  const style = {
    top: Math.max(4, Math.min(pointer.y + OFFSET_PX, rect.height - 4 * remPx)),
    ...(isLeft
      ? { right: Math.max(4, rect.width - pointer.x + OFFSET_PX) }
      : { left: Math.max(4, pointer.x + OFFSET_PX) }),
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
