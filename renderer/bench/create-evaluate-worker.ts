import type { EvaluateReply, EvaluateWorker } from './live-evaluator';

/** @returns null where the page can have no worker */
export function createEvaluateWorker(): EvaluateWorker | null {
  try {
    const worker = new Worker(new URL('./evaluate-worker.ts', import.meta.url), { type: 'module' });
    return {
      postMessage: (request) => worker.postMessage(request),
      onReply: (handle) => {
        worker.onmessage = (event: MessageEvent<EvaluateReply>) => handle(event.data);
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
