import { basename } from 'node:path';
import type { TableText } from '../../../shared/lists/table';
import type { OutlineDrawing } from '../../../shared/outline/outline-drawing';
import { readFileLimited } from '../read-file-limited';
import { readLimited } from './read-limited';

/** Largest drawing that is read, bytes. An outline takes a few thousand. */
const LARGEST_DRAWING_BYTES = 10_000_000;

/** Largest list that is read, bytes. */
const LARGEST_TABLE_BYTES = 5_000_000;

/** @throws ExpectedProblem with one sentence that names the file */
export async function readDrawingFile(path: string): Promise<OutlineDrawing> {
  const bytes = await readFileLimited(path, LARGEST_DRAWING_BYTES);
  return readLimited('drawing', { bytes, name: basename(path) });
}

/**
 * @param delimiter what stands between cells, or null to find out
 * @throws ExpectedProblem with one sentence that names the file
 */
export async function readTableFile(path: string, delimiter: string | null): Promise<TableText> {
  const bytes = await readFileLimited(path, LARGEST_TABLE_BYTES);
  return readLimited('table', { bytes, name: basename(path), delimiter });
}
