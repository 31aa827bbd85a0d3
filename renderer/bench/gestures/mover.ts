import type { Scene } from '../../../shared/drawing/scene';
import type { FeatureRef } from '../../../shared/findings/finding';
import type { Plan } from '../../../shared/model/plan';

/** What a gesture is decided on: the plan and its evaluation as drawn, gathered for the blank in view. */
export interface Setting {
  readonly scene: Scene;
  readonly blankIndex: number;
  readonly sectionX: number;
}

/** A place where a moved thing comes to rest, on the axis it moves along. */
export interface SnapLine {
  /** mm on the drawing's axis. */
  readonly at: number;
  /** What is there: "work stop", "right jaw edge of vise 2". */
  readonly label: string;
  /** Only anchors that say the same come to rest here; most say nothing. */
  readonly meets?: 'body' | 'middle';
}

/** A point of the moved thing that may come to rest on a snap line. */
export interface Anchor {
  /** mm from the thing's place on the axis. */
  readonly offset: number;
  readonly label: string;
  readonly meets?: 'body' | 'middle';
}

/**
 * One number of the plan as something to take hold of: dragged, nudged, typed, pinned or left to auto. Dragging, keys
 * and the typed value all go through `apply`.
 */
export interface Mover {
  /** What is moved; the first is the one in the hand. */
  readonly features: readonly FeatureRef[];
  /** "vise 2", as in the name of the step. */
  readonly name: string;
  /** What the number is: "centre from the stop". */
  readonly measure: string;
  /** Axis of the plan's frame it moves along: X along the jaws, Z up. */
  readonly axis: 'X' | 'Z';
  /** Place on the axis = origin + sign × value. */
  readonly origin: number;
  readonly sign: 1 | -1;
  readonly value: number;
  /** Least value that makes sense as a length; a place may be any. */
  readonly least: number;
  readonly pinned: boolean;
  readonly anchors: readonly Anchor[];
  readonly snapLines: readonly SnapLine[];
  /** True for the marks that move with it as they are. */
  readonly isMoved: (feature: FeatureRef) => boolean;
  /** The plan with the value pinned; null for what is only looked at, such as the section line. */
  readonly apply: ((plan: Plan, value: number) => Plan) | null;
  /** What the moved things are called afterwards, where that depends on where they end up. */
  readonly getMoved?: (value: number) => readonly FeatureRef[];
  /** The plan with the decision left to auto. */
  readonly release: ((plan: Plan) => Plan) | null;
}

/** Where a value stands on the axis of the drawing. */
export function getPlace(mover: Mover, value: number): number {
  return mover.origin + mover.sign * value;
}

export function getValueAt(mover: Mover, place: number): number {
  return (place - mover.origin) * mover.sign;
}
