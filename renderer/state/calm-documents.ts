import { createStore } from 'zustand/vanilla';
import type { DocumentState, Documents } from './documents';

/** While something is dragged, what lags sees it so often: a look at the side is enough there. */
const EVERY_MS = 350;

/**
 * The same documents for views beside the canvas: their store follows at once when nothing is dragged, and a few times a
 * second while something is, so that the frames belong to the drag.
 */
export function createCalmDocuments(
  documents: Documents,
  later: (run: () => void, delayMs: number) => () => void,
): Documents {
  const store = createStore<DocumentState>(() => documents.store.getState());
  let isWaiting = false;
  const follow = (): void => {
    isWaiting = false;
    store.setState(documents.store.getState(), true);
  };
  documents.store.subscribe(() => {
    if (!documents.isGesturing()) follow();
    else if (!isWaiting) {
      isWaiting = true;
      later(follow, EVERY_MS);
    }
  });
  return { ...documents, store };
}
