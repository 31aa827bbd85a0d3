import type { Reply, StartInfo } from '../../shared/contract/host';
import type { Evaluation } from '../../shared/evaluate';
import type { EvaluateWorker } from './live-evaluator';

/**
 * The figures of the plan that a session begins with, worked out beside the page while its code is still being fetched.
 *
 * @param worker evaluates once and is then ended; null where there is none
 * @returns null when they could not be had; the page then works them out itself
 */
export async function computeFirstFigures(
  asked: Promise<Reply<StartInfo>>,
  worker: EvaluateWorker | null,
): Promise<Evaluation | null> {
  if (worker === null) return null;
  // Waited for from the start: a worker that cannot be loaded says so once, and maybe before the host has answered.
  const answer = new Promise<Evaluation | null>((resolve) => {
    worker.onReply((reply) => resolve('evaluation' in reply ? reply.evaluation : null));
    worker.onBroken(() => resolve(null));
  });
  const start = await asked;
  if (start.ok) worker.postMessage({ plan: start.value.opened.plan, shop: start.value.shop });
  const figures = start.ok ? await answer : null;
  worker.terminate();
  return figures;
}
