import { createStore, type StoreApi } from 'zustand/vanilla';
import type { Point } from '../../shared/drawing/marks';
import type { FeatureRef } from '../../shared/findings/finding';
import type { Size } from './camera';
import type { Arrangement } from './compute-fit';
import type { Mover, SnapLine } from './gestures/mover';
import type { PaneName, Rect } from './panes';

/** A thing in the hand. */
export interface Drag {
  readonly pane: PaneName;
  readonly mover: Mover;
  readonly value: number;
  /** The value that the drawing on the screen was evaluated with. */
  readonly shownValue: number;
  readonly line: SnapLine | null;
  readonly anchorLabel: string;
  /** In the pane, px. */
  readonly pointer: Point;
}

/** A value that is being typed for a thing. */
export interface TypedValue {
  readonly pane: PaneName;
  readonly mover: Mover;
  readonly text: string;
  readonly refusal: string;
  readonly at: Point;
}

export interface OpenMenu {
  readonly pane: PaneName;
  readonly at: Point;
  readonly feature: FeatureRef | null;
}

/** What an arrangement of the views holds for. */
export interface ArrangedFor {
  readonly room: Size;
  readonly remPx: number;
  readonly fits: number;
  readonly templateId: string;
}

export interface Arranged extends ArrangedFor {
  readonly arrangement: Arrangement;
}

/** What the Bench is looked at with; none of it is in the plan. */
export interface BenchState {
  readonly room: Size | null;
  readonly remPx: number;
  readonly arrangement: Arrangement | null;
  readonly arrangedFor: ArrangedFor | null;
  /** Counts the times that everything was asked to be shown. */
  readonly fits: number;
  /** The views follow the plan until the user zooms or pans. */
  readonly follows: boolean;
  /** Template of the blank in view; null for the one that grips least. */
  readonly blankId: string | null;
  readonly hover: { readonly pane: PaneName; readonly feature: FeatureRef } | null;
  readonly drag: Drag | null;
  readonly typed: TypedValue | null;
  readonly menu: OpenMenu | null;
  readonly marquee: { readonly pane: PaneName; readonly rect: Rect } | null;
  readonly panning: boolean;
  /** What the space bar gathered. While it is what is selected, the focus goes on without letting go of it. */
  readonly gathered: readonly FeatureRef[];
  /** A note on what just happened, for screen readers. */
  readonly said: string;
}

export type BenchStore = StoreApi<BenchState>;

/** @param arranged how the views lie already; null when that is still to be worked out */
export function createBenchStore(arranged: Arranged | null = null): BenchStore {
  return createStore<BenchState>(() => ({
    room: arranged?.room ?? null,
    remPx: arranged?.remPx ?? 16,
    arrangement: arranged?.arrangement ?? null,
    arrangedFor: arranged,
    fits: 0,
    follows: true,
    blankId: null,
    hover: null,
    drag: null,
    typed: null,
    menu: null,
    marquee: null,
    panning: false,
    gathered: [],
    said: '',
  }));
}

/** Shows everything, and follows the plan from then on. */
export function showEverything(store: BenchStore): void {
  store.setState(({ fits }) => ({ follows: true, fits: fits + 1 }));
}
