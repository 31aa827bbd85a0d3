import { ExpectedProblem } from '../../../main/services/expected-problem';
import { parseDrawing } from '../../../main/services/import/parse-drawing';
import { parseTable } from '../../../main/services/import/parse-table';
import { detectDecimal } from '../../../shared/lists/detect-decimal';
import { detectColumns } from '../../../shared/lists/list-columns';
import { applyPartList, buildPartRows, PART_COLUMNS } from '../../../shared/lists/part-list';
import { readList } from '../../../shared/lists/read-list';
import { computePartFromOutline } from '../../../shared/outline/apply-outline';
import { computeOutline } from '../../../shared/outline/compute-outline';
import { OUTLINE_DEFAULTS } from '../../../shared/outline/outline';
import { createChance, mutate } from './mutate';

export interface FuzzOutcome {
  read: number;
  refused: number;
  /** Seeds whose file threw anything but a refusal, with what was thrown. */
  crashed: string[];
  /** Longest that one file took, ms. */
  slowestMs: number;
  slowest: string;
}

type Reader = (bytes: Uint8Array, name: string) => void;

/** Reads a drawing and all that comes after it. */
export function readDrawingWhole(bytes: Uint8Array, name: string): void {
  const drawing = parseDrawing(bytes, name);
  const outline = computeOutline(drawing, { ...OUTLINE_DEFAULTS, unit: drawing.declaredUnit ?? 'mm', units: 'mm' });
  const part = computePartFromOutline(outline, 'top', 'mm');
  const figures = [outline.width, outline.height, outline.areaMm2, part?.length ?? 0, part?.thickness ?? 0];
  if (!figures.every(Number.isFinite)) throw new Error(`a figure is no number: ${figures.join()}`);
}

/** Reads a list and all that comes after it. */
export function readTableWhole(bytes: Uint8Array, name: string): void {
  const table = parseTable(bytes, name, null);
  const { columns, hasHead, units } = detectColumns(table, PART_COLUMNS);
  const { decimal } = detectDecimal(table);
  const list = readList(table, PART_COLUMNS, { columns, hasHead, decimal, units: units ?? 'mm' });
  const change = applyPartList([], list, table);
  const rows = buildPartRows(change.parts, { delimiter: ';', decimal, units: 'mm' });
  if (rows.length !== change.parts.length + 1) throw new Error('a part has no row');
}

/**
 * Reads changed copies of files.
 *
 * @param files name and content of the files that are changed
 * @param count how many to read
 * @param seed of the changes; the same gives the same files
 */
export function fuzzReader(
  files: readonly (readonly [string, Uint8Array])[],
  read: Reader,
  count: number,
  seed: number,
): FuzzOutcome {
  const outcome: FuzzOutcome = { read: 0, refused: 0, crashed: [], slowestMs: 0, slowest: '' };
  for (let index = 0; index < count; index += 1) {
    const [name, content] = files[index % files.length] ?? ['', new Uint8Array()];
    const changed = mutate(content, createChance(seed + index));
    const label = `${name} with seed ${seed + index}`;
    const startedAt = performance.now();
    try {
      read(changed, name);
      outcome.read += 1;
    } catch (error) {
      if (error instanceof ExpectedProblem) outcome.refused += 1;
      else outcome.crashed.push(`${label}: ${error instanceof Error ? error.stack : String(error)}`);
    }
    const tookMs = performance.now() - startedAt;
    if (tookMs > outcome.slowestMs) Object.assign(outcome, { slowestMs: tookMs, slowest: label });
  }
  return outcome;
}
