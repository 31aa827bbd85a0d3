/** Runs tasks of the same key one after the other and tasks of different keys side by side. */
export interface PathQueue {
  run<T>(key: string, task: () => Promise<T>): Promise<T>;
}

export function createPathQueue(): PathQueue {
  const lasts = new Map<string, Promise<unknown>>();
  return {
    run(key, task) {
      const before = lasts.get(key) ?? Promise.resolve();
      const result = before.then(task, task);
      const done = result.then(
        () => undefined,
        () => undefined,
      );
      lasts.set(key, done);
      void done.then(() => {
        if (lasts.get(key) === done) lasts.delete(key);
      });
      return result;
    },
  };
}
