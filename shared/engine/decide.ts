import { type Choice, getPinned } from '../model/choice';
import type { Decided, Why, WhyInput } from './figure';
import { getInput } from './workings';

/**
 * A decision with what stands and what the engine would take.
 *
 * @param choice the plan's choice; a pinned number that is not finite counts as auto
 * @param auto what the engine would take
 * @param why the workings of the auto value
 */
export function getDecided<T>(choice: Choice<T>, auto: T, why: Why): Decided<T> {
  const pinned = getPinned(choice);
  const isUsable = pinned !== undefined && (typeof pinned !== 'number' || Number.isFinite(pinned));
  return isUsable ? { value: pinned, pinned: true, auto, why } : { value: auto, pinned: false, auto, why };
}

/** One length of a formula, mm. */
export function getLengthInput(name: string, value: number): WhyInput {
  return getInput(name, value, 'length');
}
