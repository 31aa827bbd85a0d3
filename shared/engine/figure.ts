import type { QuantityKind } from '../units/quantity';

/** Where a number comes from: the rule in words, the formula, the inputs that went in, and the source. */
export interface Why {
  rule: string;
  /** Formula in plain text with the names used in `inputs`, such as `g = H - (cleanup + h + k + c)`. */
  formula: string;
  inputs: WhyInput[];
  /** Standard, handbook or paper; or "common practice, no source"; or "geometry". */
  source: string;
}

export interface WhyInput {
  name: string;
  value: number | string;
  kind: QuantityKind | 'text';
}

/** A number of the evaluation with its workings. */
export interface Figure {
  value: number;
  kind: QuantityKind;
  why: Why;
}

/** A decision that can be left to the engine: what stands, whether the user pinned it, and what the engine would take. */
export interface Decided<T> {
  value: T;
  pinned: boolean;
  auto: T;
  why: Why;
}

/** A size with its limits; `source` says whether it is nominal, by class, or measured. */
export interface Limits {
  nominal: number;
  least: number;
  most: number;
}
