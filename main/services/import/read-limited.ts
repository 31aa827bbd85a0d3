import { ExpectedProblem } from '../expected-problem';
import type { ImportAnswer, ImportJobs, ImportKind } from './import-job';
import { startImportWorker } from './start-import-worker';

/** How long a file may take from the call on, ms; but never less than the second figure once the thread is up. */
const TIME_LIMIT_MS = 1900;
const LEAST_TIME_MS = 700;

/** How long the thread itself may take to come up, ms. It has read nothing of the file by then. */
const START_LIMIT_MS = 15_000;

/** Memory of the thread, MB: with the program itself it stays well under 500. */
const MEMORY_LIMITS = { maxOldGenerationSizeMb: 256, maxYoungGenerationSizeMb: 32, stackSizeMb: 4 };

/**
 * Has a file from outside read in a thread of its own, which is ended when it takes too long or grows too large.
 *
 * @param kind what the file is
 * @param ask its bytes and how it is to be read
 * @throws ExpectedProblem with one sentence that names the file
 */
export async function readLimited<K extends ImportKind>(
  kind: K,
  ask: ImportJobs[K]['ask'],
): Promise<ImportJobs[K]['answer']> {
  // What libraries print of a damaged file is nobody's concern.
  const worker = startImportWorker({ resourceLimits: MEMORY_LIMITS, stdout: true, stderr: true });
  const startedAt = performance.now();
  let timer: NodeJS.Timeout | undefined;
  try {
    const answer = await new Promise<ImportAnswer>((resolve, reject) => {
      const giveUpAfter = (ms: number): void => {
        clearTimeout(timer);
        timer = setTimeout(() => reject(buildProblem('import-too-slow', ask.name, 'takes too long to read')), ms);
      };
      giveUpAfter(START_LIMIT_MS);
      worker.on('error', (error: NodeJS.ErrnoException) => {
        const isMemory = error.code === 'ERR_WORKER_OUT_OF_MEMORY';
        reject(isMemory ? buildProblem('import-too-large', ask.name, 'takes too much memory to read', error) : error);
      });
      worker.on('exit', () => reject(new Error('The reading thread ended without an answer.')));
      worker.on('message', (message: 'ready' | ImportAnswer) => {
        if (message !== 'ready') return resolve(message);
        giveUpAfter(Math.max(LEAST_TIME_MS, TIME_LIMIT_MS - (performance.now() - startedAt)));
        worker.postMessage({ kind, ask });
      });
    });
    if (answer.ok) return answer.value as ImportJobs[K]['answer'];
    const { code, sentence, where } = answer.problem;
    throw code === 'bug' ? new Error(sentence) : new ExpectedProblem(code, sentence, where);
  } finally {
    clearTimeout(timer);
    await worker.terminate();
  }
}

function buildProblem(code: string, name: string, what: string, cause?: unknown): ExpectedProblem {
  return new ExpectedProblem(code, `${name} ${what}, so it was left alone; it may be damaged.`, name, cause);
}
