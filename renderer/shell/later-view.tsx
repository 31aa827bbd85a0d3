import { type ComponentType, useEffect, useState } from 'react';

/** A view whose code is fetched when it is first looked at, or before that by `fetch`. */
export interface Later {
  /** Null while it is not there. */
  get(): ComponentType | null;
  fetch(): Promise<void>;
}

export function createLater(load: () => Promise<ComponentType>): Later {
  let loaded: ComponentType | null = null;
  return {
    get: () => loaded,
    async fetch() {
      loaded ??= await load();
    },
  };
}

/** Stands at once where the code is there already; React's own lazy loading shows an empty page for 300 ms each first time. */
export function LaterView({ later }: { later: Later }) {
  const [, setLoaded] = useState(false);
  const [fault, setFault] = useState<unknown>(null);
  useEffect(() => {
    let isGone = false;
    later.fetch().then(
      () => isGone || setLoaded(true),
      (reason: unknown) => isGone || setFault(reason),
    );
    return () => {
      isGone = true;
    };
  }, [later]);
  // Thrown while drawing, so that the guard round the view tells of it.
  if (fault !== null) throw fault;
  const View = later.get();
  return View === null ? null : <View />;
}
