import { readFileSync } from 'node:fs';
import { fileURLToPath } from 'node:url';
import { parseDrawing } from '../../../main/services/import/parse-drawing';
import { computeOutline } from '../../../shared/outline/compute-outline';
import { OUTLINE_DEFAULTS, type Outline, type OutlineOptions } from '../../../shared/outline/outline';
import type { OutlineDrawing } from '../../../shared/outline/outline-drawing';

const FOLDER = fileURLToPath(new URL('../../data/outlines/files/', import.meta.url));

export function readSample(name: string): OutlineDrawing {
  return parseDrawing(readFileSync(`${FOLDER}${name}`), name);
}

/** The outline of a sample, in the unit that it says, else mm. */
export function getOutline(name: string, options: Partial<OutlineOptions> = {}): Outline {
  const drawing = readSample(name);
  const unit = drawing.declaredUnit ?? 'mm';
  return computeOutline(drawing, { ...OUTLINE_DEFAULTS, unit, units: 'mm', ...options });
}

/** Codes of the remarks with their counts. */
export function getRemarks({ remarks }: Outline): Record<string, number> {
  return Object.fromEntries(remarks.map(({ code, count }) => [code, count]));
}

/** Kinds that were skipped, with their counts. */
export function getSkipped({ counts }: OutlineDrawing): Record<string, number> {
  return Object.fromEntries(counts.filter(({ skipped }) => skipped > 0).map(({ type, skipped }) => [type, skipped]));
}
