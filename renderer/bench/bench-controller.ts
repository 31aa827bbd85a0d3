import type { View as DrawnView, Point } from '../../shared/drawing/marks';
import type { Bounds } from '../../shared/drawing/sinks/bounds';
import type { FeatureRef } from '../../shared/findings/finding';
import { isSameFeature } from '../state/view';
import type { BenchState } from './bench-store';
import { type Camera, pan, toDrawing, zoomAt } from './camera';
import { setCamera } from './cameras';
import { lookAt } from './compute-minimap';
import { getMover } from './gestures/get-mover';
import type { Mover, Setting } from './gestures/mover';
import { getCoordinate } from './pane-axes';
import type { PaneName } from './panes';
import { pick, pickInside } from './pick';
import { createPlanDrag, type DragParts } from './plan-drag';

/** What is drawn at present; set each time it is drawn anew. */
export interface Drawn {
  readonly setting: Setting | null;
  readonly views: Readonly<Record<PaneName, DrawnView>>;
}

export interface PointerInput {
  readonly pane: PaneName;
  /** In the pane, px. */
  readonly at: Point;
  readonly pointerId: number;
  readonly isTouch: boolean;
  readonly button: number;
  /** Adds to the selection, or draws a rectangle around what to select. */
  readonly shift: boolean;
  /** No snapping. */
  readonly alt: boolean;
}

export interface WheelInput {
  readonly pane: PaneName;
  readonly at: Point;
  readonly dx: number;
  readonly dy: number;
  /** A pinch on a trackpad, which browsers send as a wheel with Ctrl. */
  readonly isPinch: boolean;
}

export interface BenchController {
  setDrawn(drawn: Drawn): void;
  getDrawn(): Drawn | null;
  press(input: PointerInput): void;
  move(input: PointerInput): void;
  lift(input: PointerInput): void;
  /** Puts everything back as it was when the gesture began; false when there was none. */
  cancel(): boolean;
  /** Ends at once what was let go and still waits for its figures. */
  settle(): void;
  leave(): void;
  turnWheel(input: WheelInput): void;
  zoom(pane: PaneName, factor: number): void;
  /** Moves the drawing by px of the screen. */
  pan(pane: PaneName, dx: number, dy: number): void;
  /** Puts a point of the drawing into the middle of its pane, as far as there is something of `content` to see there. */
  lookAt(pane: PaneName, at: Point, content: Bounds): void;
  holdSpace(held: boolean): void;
  /** True when the paper was moved while the space bar was held last. */
  hasSpaceMoved(): boolean;
  /** What taking hold of a feature would move, as drawn now. */
  getMover(feature: FeatureRef): Mover | null;
  pick(input: Pick<PointerInput, 'pane' | 'at' | 'isTouch'>): FeatureRef | null;
}

type Hand =
  | { readonly kind: 'idle' }
  | { readonly kind: 'pressed'; readonly input: PointerInput; readonly feature: FeatureRef | null }
  | { readonly kind: 'panning'; readonly last: PointerInput }
  | { readonly kind: 'marquee'; readonly from: PointerInput }
  | { readonly kind: 'dragging'; readonly mover: Mover }
  | { readonly kind: 'pinching' };

const IDLE: Hand = { kind: 'idle' };
/** A press becomes a drag after so many px. */
const SLOP_PX = 3;
const SLOP_TOUCH_PX = 8;
const PICK_PX = 4;
const PICK_TOUCH_PX = 12;
const ZOOM_PER_WHEEL_PX = 0.0018;
const ZOOM_PER_PINCH_PX = 0.01;
const MIDDLE_BUTTON = 1;

/** Pointer in, selection, cameras and edits of the plan out. Knows neither React nor Konva. */
export function createBenchController(parts: DragParts): BenchController {
  const { view, store } = parts;
  const planDrag = createPlanDrag(parts);
  let drawn: Drawn | null = null;
  let hand: Hand = IDLE;
  let spaceHeld = false;
  let spaceMoved = false;
  const touches = new Map<number, PointerInput>();

  const getCamera = (pane: PaneName): Camera | null => store.getState().arrangement?.cameras[pane] ?? null;

  const toPoint = ({ pane, at }: Pick<PointerInput, 'pane' | 'at'>): Point | null => {
    const camera = getCamera(pane);
    return camera === null ? null : toDrawing(camera, at);
  };

  const pickAt: BenchController['pick'] = (input) => {
    const point = toPoint(input);
    const camera = getCamera(input.pane);
    if (drawn?.setting == null || point === null || camera === null) return null;
    const tolerance = (input.isTouch ? PICK_TOUCH_PX : PICK_PX) / camera.pxPerMm;
    return pick(drawn.views[input.pane], drawn.setting.scene, point, tolerance);
  };

  const findMover = (feature: FeatureRef): Mover | null =>
    drawn?.setting == null ? null : getMover(drawn.setting, feature, view.store.getState().selection);

  const changeCamera = (pane: PaneName, change: (camera: Camera) => Camera): void => {
    const { arrangement } = store.getState();
    if (arrangement === null) return;
    const next = setCamera(arrangement, pane, change(arrangement.cameras[pane]));
    store.setState({ arrangement: next, follows: false });
  };

  const select = (feature: FeatureRef, adds: boolean): void => {
    const { selection } = view.store.getState();
    const isSelected = selection.some((other) => isSameFeature(other, feature));
    if (!adds) {
      if (!isSelected) view.select([feature]);
    } else if (isSelected) {
      view.select(selection.filter((other) => !isSameFeature(other, feature)));
    } else {
      view.select([feature, ...selection]);
    }
  };

  const setHand = (next: Hand, state: Partial<BenchState> = {}): void => {
    hand = next;
    store.setState({ panning: next.kind === 'panning', ...state });
  };

  /** Takes hold of what was pressed; what cannot be moved in this view moves the paper instead. */
  const take = (input: PointerInput, pressed: Hand & { kind: 'pressed' }): void => {
    const { feature } = pressed;
    if (feature === null && pressed.input.shift) {
      setHand({ kind: 'marquee', from: pressed.input });
      return;
    }
    const mover = feature === null ? null : findMover(feature);
    const point = toPoint(pressed.input);
    const from = mover === null || point === null ? null : getCoordinate(input.pane, mover.axis, point);
    if (mover === null || from === null) {
      setHand({ kind: 'panning', last: pressed.input });
      return;
    }
    setHand({ kind: 'dragging', mover });
    planDrag.begin({ pane: input.pane, mover, from, pointer: input.at });
  };

  const drag = (input: PointerInput, mover: Mover): void => {
    const pane = store.getState().drag?.pane;
    const camera = pane === undefined ? null : getCamera(pane);
    if (pane === undefined || camera === null) return;
    const to = getCoordinate(pane, mover.axis, toDrawing(camera, input.at));
    if (to === null) return;
    planDrag.update({ to, pointer: input.at, pxPerMm: camera.pxPerMm, suspended: input.alt });
  };

  const drawMarquee = (from: PointerInput, to: PointerInput): void => {
    const rect = {
      left: Math.min(from.at.x, to.at.x),
      top: Math.min(from.at.y, to.at.y),
      width: Math.abs(to.at.x - from.at.x),
      height: Math.abs(to.at.y - from.at.y),
    };
    store.setState({ marquee: { pane: from.pane, rect } });
  };

  const endMarquee = (): void => {
    const { marquee } = store.getState();
    const camera = marquee === null ? null : getCamera(marquee.pane);
    if (marquee !== null && camera !== null && drawn?.setting != null) {
      const { left, top, width, height } = marquee.rect;
      const upper = toDrawing(camera, { x: left, y: top });
      const lower = toDrawing(camera, { x: left + width, y: top + height });
      const area = { left: upper.x, right: lower.x, bottom: lower.y, top: upper.y };
      view.select(pickInside(drawn.views[marquee.pane], drawn.setting.scene, area));
    }
    setHand(IDLE, { marquee: null });
  };

  const pinch = (input: PointerInput): void => {
    const other = [...touches.values()].find((touch) => touch.pointerId !== input.pointerId);
    const before = touches.get(input.pointerId);
    touches.set(input.pointerId, input);
    if (other === undefined || before === undefined) return;
    const wasApart = Math.hypot(before.at.x - other.at.x, before.at.y - other.at.y);
    const apart = Math.hypot(input.at.x - other.at.x, input.at.y - other.at.y);
    const was = { x: (before.at.x + other.at.x) / 2, y: (before.at.y + other.at.y) / 2 };
    const middle = { x: (input.at.x + other.at.x) / 2, y: (input.at.y + other.at.y) / 2 };
    const factor = wasApart > 0 ? apart / wasApart : 1;
    changeCamera(input.pane, (camera) => zoomAt(pan(camera, middle.x - was.x, middle.y - was.y), factor, middle));
  };

  const cancel = (): boolean => {
    const was = hand.kind;
    planDrag.cancel();
    touches.clear();
    setHand(IDLE, { marquee: null });
    return was !== 'idle';
  };

  const hover = (input: PointerInput): void => {
    const feature = pickAt(input);
    const { hover: before } = store.getState();
    const isSame =
      before === null || feature === null
        ? before === feature
        : before.pane === input.pane && isSameFeature(before.feature, feature);
    if (!isSame) store.setState({ hover: feature === null ? null : { pane: input.pane, feature } });
  };

  const move = (input: PointerInput): void => {
    switch (hand.kind) {
      case 'idle':
        hover(input);
        break;
      case 'pressed': {
        const { at } = hand.input;
        const slop = input.isTouch ? SLOP_TOUCH_PX : SLOP_PX;
        if (Math.hypot(input.at.x - at.x, input.at.y - at.y) < slop) return;
        take(input, hand);
        move(input);
        break;
      }
      case 'panning': {
        const { last } = hand;
        hand = { kind: 'panning', last: input };
        changeCamera(input.pane, (camera) => pan(camera, input.at.x - last.at.x, input.at.y - last.at.y));
        break;
      }
      case 'marquee':
        drawMarquee(hand.from, input);
        break;
      case 'dragging':
        drag(input, hand.mover);
        break;
      case 'pinching':
        pinch(input);
        break;
      default:
        hand satisfies never;
    }
  };

  return {
    setDrawn: (next) => {
      drawn = next;
    },
    getDrawn: () => drawn,
    getMover: findMover,
    pick: pickAt,
    press(input) {
      planDrag.settle();
      if (input.isTouch) touches.set(input.pointerId, input);
      if (touches.size === 2) {
        planDrag.cancel();
        setHand({ kind: 'pinching' });
        return;
      }
      if (input.button === MIDDLE_BUTTON || spaceHeld) {
        spaceMoved = spaceHeld;
        setHand({ kind: 'panning', last: input });
        return;
      }
      const feature = pickAt(input);
      if (feature !== null) select(feature, input.shift);
      setHand({ kind: 'pressed', input, feature });
    },
    move,
    lift(input) {
      touches.delete(input.pointerId);
      const was = hand;
      if (was.kind === 'marquee') {
        endMarquee();
        return;
      }
      setHand(IDLE);
      if (was.kind === 'dragging') planDrag.end();
      // A click on the paper lets go of what was selected.
      if (was.kind === 'pressed' && was.feature === null && !input.shift) view.select([]);
    },
    cancel,
    settle: planDrag.settle,
    leave() {
      if (store.getState().hover !== null) store.setState({ hover: null });
    },
    turnWheel({ pane, at, dx, dy, isPinch }) {
      if (!isPinch && dx !== 0) {
        changeCamera(pane, (camera) => pan(camera, -dx, -dy));
        return;
      }
      const rate = isPinch ? ZOOM_PER_PINCH_PX : ZOOM_PER_WHEEL_PX;
      changeCamera(pane, (camera) => zoomAt(camera, Math.exp(-dy * rate), at));
    },
    zoom(pane, factor) {
      const size = store.getState().arrangement?.panes[pane];
      if (size === undefined) return;
      changeCamera(pane, (camera) => zoomAt(camera, factor, { x: size.width / 2, y: size.height / 2 }));
    },
    pan(pane, dx, dy) {
      changeCamera(pane, (camera) => pan(camera, dx, dy));
    },
    lookAt(pane, at, content) {
      const size = store.getState().arrangement?.panes[pane];
      if (size !== undefined) changeCamera(pane, (camera) => lookAt(camera, size, at, content));
    },
    holdSpace(held) {
      if (held && !spaceHeld) spaceMoved = false;
      spaceHeld = held;
    },
    hasSpaceMoved: () => spaceMoved,
  };
}
