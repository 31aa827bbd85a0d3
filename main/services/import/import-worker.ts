// A thread of its own for reading files from outside: it can be ended whatever they hold.
import { parentPort } from 'node:worker_threads';
import { getFailure } from '../expected-problem';
import type { ImportAnswer, ImportAsk } from './import-job';
import { parseDrawing } from './parse-drawing';
import { parseTable } from './parse-table';

parentPort?.once('message', (job: ImportAsk) => {
  parentPort?.postMessage(answer(job));
});
parentPort?.postMessage('ready');

function answer(job: ImportAsk): ImportAnswer {
  try {
    return { ok: true, value: read(job) };
  } catch (error) {
    return getFailure(error);
  }
}

function read(job: ImportAsk): unknown {
  switch (job.kind) {
    case 'drawing':
      return parseDrawing(job.ask.bytes, job.ask.name);
    case 'table':
      return parseTable(job.ask.bytes, job.ask.name, job.ask.delimiter);
    default:
      return job satisfies never;
  }
}
