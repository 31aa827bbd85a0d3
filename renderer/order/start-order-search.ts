import type { App } from '../state/app';
import type { SearchReply, SearchWorker } from '../state/order-search';

/** Has the order of every plan that comes to rest looked into. */
export function startOrderSearch(app: App): void {
  const consider = (): void => {
    const { plan, shop } = app.documents.store.getState();
    app.orderSearch.consider(plan, shop);
  };
  app.documents.store.subscribe(consider);
  consider();
}

export function createSearchWorker(): SearchWorker | null {
  try {
    const worker = new Worker(new URL('./search-worker.ts', import.meta.url), { type: 'module' });
    return {
      postMessage: (request) => worker.postMessage(request),
      onReply: (handle) => {
        worker.onmessage = (event: MessageEvent<SearchReply>) => handle(event.data);
        worker.onerror = () => handle({ kind: 'done', evaluation: null });
      },
      terminate: () => worker.terminate(),
    };
  } catch {
    return null;
  }
}
