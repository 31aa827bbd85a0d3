import type { OutlineReply, OutlineWorker } from '../state/outline-work';

export function createOutlineWorker(): OutlineWorker {
  const worker = new Worker(new URL('./outline-worker.ts', import.meta.url), { type: 'module' });
  return {
    postMessage: (ask) => worker.postMessage(ask),
    onReply: (handle) => {
      worker.onmessage = (event: MessageEvent<OutlineReply>) => handle(event.data);
      worker.onerror = () => handle({ kind: 'failed' });
    },
    terminate: () => worker.terminate(),
  };
}
