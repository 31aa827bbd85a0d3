import { readFileSync } from 'node:fs';
import { fileURLToPath } from 'node:url';
import { Worker, type WorkerOptions } from 'node:worker_threads';

/**
 * Starts the reading thread's program: the bundle beside this one when built, else its source. The bundle is read here,
 * since not every Electron lets a thread read the packaged program's archive by itself (electron/electron issue 22446).
 */
export function startImportWorker(options: WorkerOptions): Worker {
  if (import.meta.url.endsWith('.ts'))
    return new Worker(new URL('./import-worker-source.mjs', import.meta.url), options);
  const bundle = readFileSync(fileURLToPath(new URL('./import-worker.cjs', import.meta.url)), 'utf8');
  return new Worker(bundle, { ...options, eval: true });
}
