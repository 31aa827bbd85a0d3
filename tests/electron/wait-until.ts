/** Longest wait for something that should happen, ms: far more than a slow machine takes. */
const WAIT_MS = 120_000;
const STEP_MS = 100;

/**
 * Waits until a question is answered with something other than `undefined`, `false` or an error.
 *
 * @param what what is waited for, as a clause for the failure's sentence
 * @throws Error with that sentence when it does not come
 */
export async function waitUntil<T>(what: string, ask: () => T | Promise<T>): Promise<Exclude<T, undefined | false>> {
  const end = Date.now() + WAIT_MS;
  let last: unknown;
  while (Date.now() < end) {
    try {
      last = await ask();
      if (last !== undefined && last !== false) return last as Exclude<T, undefined | false>;
    } catch (error) {
      last = error;
    }
    await new Promise((resolve) => setTimeout(resolve, STEP_MS));
  }
  throw new Error(`Waited in vain until ${what}; last seen: ${String(last)}`);
}
