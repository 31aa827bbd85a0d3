import type { QuantityKind } from '../units/quantity';
import type { Figure, Why, WhyInput } from './figure';

/** Largest factor shown; stands for "as good as unlimited" where no load acts. */
export const LARGEST_FACTOR = 1000;

/** Source text of a formula that is plain geometry. */
export const GEOMETRY = 'geometry';

/** Source text of a rule the shop may change. */
export const COMMON_PRACTICE = 'common practice, no source';

/**
 * A number with its workings.
 *
 * @param kind what the number measures; its stored unit follows from it
 * @param value the number; one that is not finite is replaced by 0, so that no result carries NaN or infinity
 * @param why rule, formula, inputs and source
 */
export function getFigure(kind: QuantityKind, value: number, why: Why): Figure {
  return { value: getFinite(value), kind, why };
}

/** One input of a formula: its name there, its value in the stored unit of `kind`. */
export function getInput(name: string, value: number, kind: QuantityKind): WhyInput {
  return { name, value: getFinite(value), kind };
}

/** An input that is a word or a name. */
export function getTextInput(name: string, value: string): WhyInput {
  return { name, value, kind: 'text' };
}

/** The number, or `otherwise` when it is not finite. */
export function getFinite(value: number, otherwise = 0): number {
  return Number.isFinite(value) ? value : otherwise;
}

/** The number when it is finite and not negative, else 0. */
export function getNonNegative(value: number): number {
  return Number.isFinite(value) && value > 0 ? value : 0;
}

/**
 * A resistance over the load it resists.
 *
 * @returns 0 to {@link LARGEST_FACTOR}; the largest when no load acts
 */
export function getFactor(resistance: number, load: number): number {
  const held = getNonNegative(resistance);
  if (!Number.isFinite(load)) return 0;
  if (load <= 0) return LARGEST_FACTOR;
  return Math.min(LARGEST_FACTOR, held / load);
}
