/** A decision of the plan: left to the engine (`'auto'`), or fixed by the user, who is then answered by findings. */
export type Choice<T> = 'auto' | { pinned: T };

/** True when the user has fixed the decision. */
export function isPinned<T>(choice: Choice<T>): choice is { pinned: T } {
  return choice !== 'auto';
}

/** The pinned value, or `undefined` when the decision is left to the engine. */
export function getPinned<T>(choice: Choice<T>): T | undefined {
  return choice === 'auto' ? undefined : choice.pinned;
}
