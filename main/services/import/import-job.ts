import type { Problem } from '../../../shared/contract/host';
import type { TableText } from '../../../shared/lists/table';
import type { OutlineDrawing } from '../../../shared/outline/outline-drawing';

/** What is asked of the reading thread, and what it answers. */
export interface ImportJobs {
  drawing: { ask: { bytes: Uint8Array; name: string }; answer: OutlineDrawing };
  table: { ask: { bytes: Uint8Array; name: string; delimiter: string | null }; answer: TableText };
}

export type ImportKind = keyof ImportJobs;

export type ImportAsk = { [K in ImportKind]: { kind: K; ask: ImportJobs[K]['ask'] } }[ImportKind];

export type ImportAnswer = { ok: true; value: unknown } | { ok: false; problem: Problem };
