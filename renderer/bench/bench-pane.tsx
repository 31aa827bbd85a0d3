import { type PointerEvent, type ReactNode, type RefObject, useCallback, useEffect, useId, useRef } from 'react';
import type { Point, View } from '../../shared/drawing/marks';
import { useApp } from '../state/hooks';
import { isSameFeature } from '../state/view';
import { BenchCanvas } from './bench-canvas';
import type { PointerInput } from './bench-controller';
import { type Camera, getScaleText } from './camera';
import { DragBubble } from './drag-bubble';
import { FeatureButtons } from './feature-buttons';
import type { BenchFeature } from './features';
import type { FindingAnchor } from './finding-anchors';
import { FindingMarks } from './finding-marks';
import type { Setting } from './gestures/mover';
import { Minimap } from './minimap';
import { PANE_TITLES } from './pane-titles';
import { getHeadingHeight, PANE_AXES_CURSOR, type PaneName, type Rect } from './panes';
import type { Pens } from './pens';
import { TypedField } from './typed-field';
import { useBench, useBenchSession } from './use-bench';
import { useLongPress } from './use-long-press';

export interface BenchPaneProps {
  readonly pane: PaneName;
  readonly view: View;
  readonly setting: Setting;
  /** As they were before what is in the hand was moved. */
  readonly restedView: View;
  readonly restedSetting: Setting;
  readonly features: readonly BenchFeature[];
  readonly anchors: readonly FindingAnchor[];
  readonly rect: Rect;
  readonly camera: Camera;
  readonly pens: Pens;
  readonly remPx: number;
  readonly children?: ReactNode;
}

/** One view with its heading: the canvas, and over it what has the focus, the findings, and the value in the hand. */
export function BenchPane(props: BenchPaneProps) {
  const { pane, rect, camera, remPx, view, setting, features } = props;
  const heading = getHeadingHeight(remPx);
  const surface = useRef<HTMLDivElement>(null);
  const { controller } = useBenchSession();
  const cursor = useCursor(pane);
  const surfaceId = useId();
  useWheel(surface, pane);

  const read = (event: PointerEvent): PointerInput => ({
    pane,
    at: getPoint(event, surface.current),
    pointerId: event.pointerId,
    isTouch: event.pointerType === 'touch',
    button: event.button,
    shift: event.shiftKey,
    alt: event.altKey,
  });

  const openMenu = useMenu(pane);
  const longPress = useLongPress((at) => {
    controller.cancel();
    openMenu(at, controller.pick({ pane, at, isTouch: true }));
  });

  return (
    <section className={`bench-pane is-${pane}`} aria-label={PANE_TITLES[pane]}>
      <header
        className="bench-heading"
        style={{ left: rect.left, top: rect.top - heading, width: rect.width, height: heading }}
      >
        <h2>{PANE_TITLES[pane]}</h2>
        <span className="bench-scale" title="Scale on the screen, at 96 pixels to the inch">
          {getScaleText(camera.pxPerMm)}
        </span>
        {props.children}
      </header>
      {/* biome-ignore lint/a11y/noStaticElementInteractions: everything in it is reached by the buttons that lie over it. */}
      <div
        ref={surface}
        id={surfaceId}
        className="bench-surface"
        style={{ left: rect.left, top: rect.top, width: rect.width, height: rect.height, cursor }}
        onPointerDown={(event) => {
          if (event.target instanceof Element && event.target.closest('.bench-live') !== null) return;
          if (event.button === 2) return;
          event.currentTarget.setPointerCapture(event.pointerId);
          setKeyed(event.currentTarget, false);
          const input = read(event);
          if (input.isTouch && event.isPrimary) longPress.begin(input.at);
          else longPress.end();
          controller.press(input);
          focusSelected(surface.current);
          event.preventDefault();
        }}
        onPointerMove={(event) => {
          const input = read(event);
          longPress.move(input.at);
          controller.move(input);
        }}
        onPointerUp={(event) => {
          longPress.end();
          controller.lift(read(event));
        }}
        onPointerCancel={() => {
          longPress.end();
          controller.cancel();
        }}
        onPointerLeave={() => controller.leave()}
        onKeyDownCapture={(event) => {
          if (!MODIFIERS.has(event.key)) setKeyed(event.currentTarget, true);
        }}
        onKeyUpCapture={(event) => {
          if (event.key === 'Tab') setKeyed(event.currentTarget, true);
        }}
        onContextMenu={(event) => {
          event.preventDefault();
          // Some systems send one for a finger that rests, others none: that is the long press's own.
          if (isOfTouch(event.nativeEvent)) return;
          const at = getPoint(event, surface.current);
          openMenu(at, controller.pick({ pane, at, isTouch: false }));
        }}
      >
        <BenchCanvas pane={pane} view={view} setting={setting} rect={rect} camera={camera} pens={props.pens} />
        <FeatureButtons
          pane={pane}
          view={props.restedView}
          setting={props.restedSetting}
          features={features}
          rect={rect}
          camera={camera}
          onMenu={openMenu}
        />
        <FindingMarks pane={pane} view={props.restedView} anchors={props.anchors} rect={rect} camera={camera} />
        {pane === 'elevation' && (
          <Minimap
            pane={pane}
            controls={surfaceId}
            view={props.restedView}
            rect={rect}
            camera={camera}
            pens={props.pens}
          />
        )}
        <DragBubble pane={pane} rect={rect} />
        <TypedField pane={pane} rect={rect} />
      </div>
    </section>
  );
}

function isOfTouch(event: MouseEvent): boolean {
  return 'pointerType' in event && event.pointerType === 'touch';
}

const MODIFIERS = new Set(['Alt', 'Control', 'Meta', 'Shift', 'Escape']);

/** The ring of the focus is for those who work by keys; a pointer sees what it selected. */
function setKeyed(element: Element, isKeyed: boolean): void {
  element.closest('.bench')?.classList.toggle('is-keyed', isKeyed);
}

function getPoint(event: { clientX: number; clientY: number }, surface: HTMLElement | null): Point {
  const box = surface?.getBoundingClientRect();
  return { x: event.clientX - (box?.left ?? 0), y: event.clientY - (box?.top ?? 0) };
}

/** After a press the keys go on with what was pressed. */
function focusSelected(surface: HTMLElement | null): void {
  requestAnimationFrame(() => {
    const button =
      surface?.querySelector<HTMLElement>('.bench-feature.is-first') ??
      document.querySelector<HTMLElement>('.bench-feature.is-first');
    if (button !== null) button.focus({ preventScroll: true });
    else surface?.querySelector<HTMLElement>('.bench-feature')?.blur();
  });
}

function useMenu(pane: PaneName): (at: Point, feature: BenchFeature['feature'] | null) => void {
  const app = useApp();
  const { store } = useBenchSession();
  return useCallback(
    (at, feature) => {
      const { selection } = app.view.store.getState();
      const isSelected = feature !== null && selection.some((other) => isSameFeature(other, feature));
      if (feature !== null && !isSelected) app.view.select([feature]);
      store.setState({ menu: { pane, at, feature } });
    },
    [app, store, pane],
  );
}

function useCursor(pane: PaneName): string {
  return useBench((state) => {
    if (state.panning) return 'grabbing';
    if (state.drag !== null) return PANE_AXES_CURSOR[state.drag.mover.axis];
    if (state.hover?.pane !== pane) return 'default';
    return 'pointer';
  });
}

/** React listens to wheels passively, which could not keep the page from scrolling. */
function useWheel(surface: RefObject<HTMLDivElement | null>, pane: PaneName): void {
  const { controller } = useBenchSession();
  useEffect(() => {
    const element = surface.current;
    if (element === null) return;
    const turn = (event: WheelEvent): void => {
      event.preventDefault();
      const lines = event.deltaMode === 1 ? 18 : 1;
      controller.turnWheel({
        pane,
        at: getPoint(event, element),
        dx: (event.shiftKey ? event.deltaY : event.deltaX) * lines,
        dy: event.shiftKey ? 0 : event.deltaY * lines,
        isPinch: event.ctrlKey,
      });
    };
    element.addEventListener('wheel', turn, { passive: false });
    return () => element.removeEventListener('wheel', turn);
  }, [surface, controller, pane]);
}
