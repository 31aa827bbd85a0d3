import { mkdtemp, rm } from 'node:fs/promises';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { onTestFinished } from 'vitest';

/** A new folder that is gone again after the test. */
export async function makeTempFolder(): Promise<string> {
  const folder = await mkdtemp(join(tmpdir(), 'kerfgrip-test-'));
  onTestFinished(() => rm(folder, { recursive: true, force: true, maxRetries: 5 }));
  return folder;
}

/** A clock that a test sets; each reading is a second later than the last. */
export function makeClock(start = '2026-03-01T08:00:00.000Z'): () => Date {
  let time = Date.parse(start);
  return () => {
    time += 1000;
    return new Date(time);
  };
}
