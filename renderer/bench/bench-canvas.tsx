import type Konva from 'konva';
import { useCallback, useEffect, useLayoutEffect, useMemo, useRef } from 'react';
import { Layer, Shape, Stage } from 'react-konva';
import type { View } from '../../shared/drawing/marks';
import { useApp } from '../state/hooks';
import type { Drag } from './bench-store';
import type { Camera } from './camera';
import { drawPicture, type Shift } from './draw/konva-sink';
import { drawOverlay } from './draw/overlay';
import { buildPicture } from './draw/picture';
import { computeShift } from './gestures/drag';
import type { Setting } from './gestures/mover';
import { getPaneShift } from './pane-axes';
import type { PaneName, Rect } from './panes';
import type { Pens } from './pens';
import { useBenchSession } from './use-bench';

export interface BenchCanvasProps {
  readonly pane: PaneName;
  readonly view: View;
  readonly setting: Setting;
  readonly rect: Rect;
  readonly camera: Camera;
  readonly pens: Pens;
}

/**
 * One view on two Konva layers: the drawing, and over it what is selected or in the hand. React lays them out; while a
 * thing is dragged only Konva draws.
 */
export function BenchCanvas({ pane, view, setting, rect, camera, pens }: BenchCanvasProps) {
  const app = useApp();
  const { store } = useBenchSession();
  const drawing = useRef<Konva.Layer>(null);
  const overlay = useRef<Konva.Layer>(null);
  const stands = useRef(false);
  const picture = useMemo(() => buildPicture(view), [view]);

  const drawScene = useCallback(
    (context: Konva.Context) => {
      if (!stands.current) return;
      const shift = getShift(pane, store.getState().drag);
      drawPicture(context._context, picture, { camera, pane: rect, ...pens, shift });
    },
    [pane, picture, camera, rect, pens, store],
  );

  const drawOver = useCallback(
    (context: Konva.Context) => {
      const { hover, drag, marquee } = store.getState();
      const { selection, pointedAt } = app.view.store.getState();
      const shift = getShift(pane, drag);
      drawOverlay(context._context, {
        pane,
        camera,
        size: rect,
        scene: setting.scene,
        sectionX: setting.sectionX,
        picture,
        ink: pens.ink,
        hover: hover?.feature ?? null,
        selection,
        pointedAt,
        drag,
        shift: { x: shift?.dx ?? 0, y: shift?.dy ?? 0 },
        marquee: marquee?.pane === pane ? marquee.rect : null,
      });
    },
    [pane, picture, camera, rect, pens, setting, store, app],
  );

  // Konva draws a layer as soon as it is put on its stage, and once more on the frame that shows it: that one is enough.
  useLayoutEffect(() => {
    stands.current = true;
    drawing.current?.batchDraw();
  }, []);

  useEffect(() => {
    let lastDrag: Drag | null = null;
    return store.subscribe((state) => {
      overlay.current?.batchDraw();
      if (isMovedHere(pane, state.drag) || isMovedHere(pane, lastDrag)) drawing.current?.batchDraw();
      lastDrag = state.drag;
    });
  }, [store, pane]);

  useEffect(
    () =>
      app.view.store.subscribe((state, before) => {
        if (state.selection !== before.selection || state.pointedAt !== before.pointedAt) overlay.current?.batchDraw();
      }),
    [app],
  );

  return (
    <Stage width={rect.width} height={rect.height} listening={false} key={pens.dpr}>
      <Layer ref={drawing} listening={false}>
        <Shape sceneFunc={drawScene} listening={false} perfectDrawEnabled={false} />
      </Layer>
      <Layer ref={overlay} listening={false}>
        <Shape sceneFunc={drawOver} listening={false} perfectDrawEnabled={false} />
      </Layer>
    </Stage>
  );
}

/** What is in the hand, where it stands off from the figures on the screen. */
function getShift(pane: PaneName, drag: Drag | null): Shift | null {
  if (drag === null || drag.value === drag.shownValue) return null;
  const { x, y } = getPaneShift(pane, drag.mover.axis, computeShift(drag.mover, drag.shownValue, drag.value));
  return x === 0 && y === 0 ? null : { isMoved: drag.mover.isMoved, dx: x, dy: y };
}

function isMovedHere(pane: PaneName, drag: Drag | null): boolean {
  if (drag === null) return false;
  const { x, y } = getPaneShift(pane, drag.mover.axis, 1);
  return x !== 0 || y !== 0;
}
