import { Worker, type WorkerOptions } from 'node:worker_threads';

/** Starts the reading thread's program: beside the bundle when built, from its source where the program runs as written. */
export function startImportWorker(options: WorkerOptions): Worker {
  const isSource = import.meta.url.endsWith('.ts');
  return new Worker(new URL(isSource ? './import-worker-source.mjs' : './import-worker.js', import.meta.url), options);
}
