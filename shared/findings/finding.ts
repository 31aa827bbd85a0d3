import type { WhyInput } from '../engine/figure';

export type Severity = 'stop' | 'check' | 'note';

/** What a finding points at on the Bench. */
export interface FeatureRef {
  kind:
    | 'bar'
    | 'blank'
    | 'part'
    | 'vise'
    | 'jaw'
    | 'seat'
    | 'stack'
    | 'cutter'
    | 'rib'
    | 'tab'
    | 'cut'
    | 'order'
    | 'table'
    | 'field';
  /** Id of the thing, or for `field` the path of the field in the plan, such as `parts.0.length`. */
  id: string;
}

/** A change to the plan that settles a finding, as plain data so that it can be previewed and undone. */
export interface Fix {
  label: string;
  /** Replacement values by path in the plan, applied in order. */
  edits: { path: (string | number)[]; value: unknown }[];
}

export interface Finding {
  /** Stable, such as `grip-too-thin`. */
  code: string;
  /** The code and what it is about; unique in one evaluation, and what an accepted finding is kept under. */
  key: string;
  severity: Severity;
  /** What a machinist reads: one sentence, lengths in the plan's units. */
  sentence: string;
  /** A second line with the numbers, or ''. */
  detail: string;
  numbers: WhyInput[];
  features: FeatureRef[];
  fixes: Fix[];
  /** True when the user accepted it and its numbers are still what they were then. A stop is never accepted away. */
  accepted: boolean;
}
