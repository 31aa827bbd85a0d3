import type Konva from 'konva';
import { type KeyboardEvent, memo, type PointerEvent, useCallback, useMemo, useRef } from 'react';
import { Layer, Shape, Stage } from 'react-konva';
import type { Layer as MarkLayer, Point, View } from '../../shared/drawing/marks';
import { type Bounds, measureBounds } from '../../shared/drawing/sinks/bounds';
import { formatLength } from '../../shared/units/format';
import { usePlanFact } from '../state/hooks';
import { type Camera, getShown, toDrawing } from './camera';
import { computeMinimap, type MinimapLayout } from './compute-minimap';
import { drawPicture } from './draw/konva-sink';
import { buildPicture } from './draw/picture';
import type { PaneName, Rect } from './panes';
import type { Pens } from './pens';
import { useBenchSession } from './use-bench';

export interface MinimapProps {
  readonly pane: PaneName;
  /** Id of the element whose sight it moves. */
  readonly controls: string;
  readonly view: View;
  readonly rect: Rect;
  readonly camera: Camera;
  readonly pens: Pens;
}

/** What is left of a view on a strip a few px high. */
const LAYERS: ReadonlySet<MarkLayer> = new Set<MarkLayer>(['vise', 'bar', 'cleanup', 'part', 'jaw', 'stop']);
/** Lines are thinner than in the drawing, but never lost. */
const PEN_SHARE = 0.5;
const LEAST_PX_PER_PAPER_MM = 1;

/** Where in the whole bar one is, while not all of it is in sight; dragged or by its keys it moves the view. */
export const Minimap = memo(function Minimap(props: MinimapProps) {
  const { view, camera, rect } = props;
  const small = useMemo(() => {
    const marks = view.marks.filter((mark) => mark.kind === 'path' && LAYERS.has(mark.layer));
    return { ...view, marks, bounds: measureBounds(marks) };
  }, [view]);
  const map = computeMinimap(small.bounds, camera, rect);
  return map === null ? null : <Strip {...props} view={small} map={map} />;
});

function Strip({ pane, controls, view, rect, camera, pens, map }: MinimapProps & { map: MinimapLayout }) {
  const { controller } = useBenchSession();
  const units = usePlanFact((plan) => plan.units);
  const { sight, bounds, size } = map;
  const shown = getShown(camera, rect);
  const drag = useSightDrag(map, (at) => controller.lookAt(pane, toDrawing(map.camera, at), bounds));
  return (
    <div
      className="bench-minimap bench-live"
      role="scrollbar"
      tabIndex={0}
      aria-label="Part of the bar in view"
      aria-controls={controls}
      aria-orientation="horizontal"
      aria-valuemin={0}
      aria-valuemax={100}
      aria-valuenow={getPassed(shown, bounds)}
      aria-valuetext={`X ${formatLength(shown.left, units)} to ${formatLength(shown.right, units, { unit: true })}`}
      style={size}
      {...drag}
      onKeyDown={(event) => {
        const at = getNext(event, shown, bounds);
        if (at === null) return;
        event.preventDefault();
        event.stopPropagation();
        controller.lookAt(pane, at, bounds);
      }}
    >
      <StripDrawing view={view} map={map} pens={pens} />
      <span className="bench-sight" style={sight} />
    </div>
  );
}

function StripDrawing({ view, map, pens }: { view: View; map: MinimapLayout; pens: Pens }) {
  const picture = useMemo(() => buildPicture(view), [view]);
  const { width, height } = map.size;
  const { pxPerMm, left, top } = map.camera;
  const draw = useCallback(
    (context: Konva.Context) => {
      const pxPerPaperMm = Math.max(pens.pxPerPaperMm * PEN_SHARE, LEAST_PX_PER_PAPER_MM);
      const options = { camera: { pxPerMm, left, top }, pane: { width, height }, ...pens, pxPerPaperMm, shift: null };
      drawPicture(context._context, picture, options);
    },
    [picture, pens, pxPerMm, left, top, width, height],
  );
  return (
    <Stage width={width} height={height} listening={false} key={pens.dpr}>
      <Layer listening={false}>
        <Shape sceneFunc={draw} listening={false} perfectDrawEnabled={false} />
      </Layer>
    </Stage>
  );
}

/** What is in sight goes with the pointer; a press beside it brings it there first. */
function useSightDrag({ sight }: MinimapLayout, look: (at: Point) => void) {
  /** From the pointer to the middle of what is in sight, px of the strip. */
  const held = useRef<Point | null>(null);
  const letGo = (): void => {
    held.current = null;
  };
  return {
    onPointerDown(event: PointerEvent<HTMLElement>) {
      if (event.button !== 0) return;
      event.stopPropagation();
      event.currentTarget.setPointerCapture(event.pointerId);
      const at = getPoint(event);
      const off = { x: sight.left + sight.width / 2 - at.x, y: sight.top + sight.height / 2 - at.y };
      const isInSight = Math.abs(off.x) <= sight.width / 2 && Math.abs(off.y) <= sight.height / 2;
      held.current = isInSight ? off : { x: 0, y: 0 };
      if (!isInSight) look(at);
    },
    onPointerMove(event: PointerEvent<HTMLElement>) {
      event.stopPropagation();
      if (held.current === null) return;
      const at = getPoint(event);
      look({ x: at.x + held.current.x, y: at.y + held.current.y });
    },
    onPointerUp: letGo,
    onPointerCancel: letGo,
  };
}

function getPoint(event: PointerEvent<HTMLElement>): Point {
  const box = event.currentTarget.getBoundingClientRect();
  return { x: event.clientX - box.left, y: event.clientY - box.top };
}

const STEP = 0.15;
const PAGE = 0.9;

/** What a key brings into the middle, mm of the drawing; null for a key that moves nothing. */
function getNext({ key }: KeyboardEvent, shown: Bounds, whole: Bounds): Point | null {
  const x = (shown.left + shown.right) / 2;
  const y = (shown.bottom + shown.top) / 2;
  const width = shown.right - shown.left;
  const height = shown.top - shown.bottom;
  switch (key) {
    case 'ArrowLeft':
      return { x: x - width * STEP, y };
    case 'ArrowRight':
      return { x: x + width * STEP, y };
    case 'ArrowUp':
      return { x, y: y + height * STEP };
    case 'ArrowDown':
      return { x, y: y - height * STEP };
    case 'PageUp':
      return { x: x - width * PAGE, y };
    case 'PageDown':
      return { x: x + width * PAGE, y };
    case 'Home':
      return { x: whole.left, y };
    case 'End':
      return { x: whole.right, y };
    default:
      return null;
  }
}

/** How much of the way along the whole the sight has passed, 0 to 100. */
function getPassed(shown: Bounds, whole: Bounds): number {
  const free = whole.right - whole.left - (shown.right - shown.left);
  return free <= 0 ? 50 : Math.round(Math.min(100, Math.max(0, ((shown.left - whole.left) / free) * 100)));
}
