import type { StoreApi } from 'zustand/vanilla';

/** A store that can be watched but only changed by what made it. */
export type ReadStore<T> = Pick<StoreApi<T>, 'getState' | 'getInitialState' | 'subscribe'>;
