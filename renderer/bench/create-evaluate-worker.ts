import type { Evaluation } from '../../shared/evaluate';
import type { EvaluateMessage } from './evaluate-worker';
import { applyPatch } from './evaluation-patch';
import type { EvaluateReply, EvaluateWorker } from './live-evaluator';

/** @returns null where the page can have no worker */
export function createEvaluateWorker(): EvaluateWorker | null {
  try {
    const worker = new Worker(new URL('./evaluate-worker.ts', import.meta.url), { type: 'module' });
    let last: Evaluation | null = null;
    const read = (message: EvaluateMessage): EvaluateReply => {
      if ('fault' in message) return message;
      last = applyPatch(last, message.patch) as Evaluation;
      return { evaluation: last };
    };
    return {
      postMessage: (request) => worker.postMessage(request),
      onReply: (handle) => {
        worker.onmessage = (event: MessageEvent<EvaluateMessage>) => handle(read(event.data));
      },
      onBroken: (handle) => {
        worker.onerror = handle;
        worker.onmessageerror = handle;
      },
      terminate: () => worker.terminate(),
    };
  } catch {
    return null;
  }
}
