import { readFileSync } from 'node:fs';
import { join } from 'node:path';
import { SAMPLES, type SampleName } from '../../../shared/model/catalogue/samples';
import { parsePlanText } from '../../../shared/model/parse-plan';
import type { Plan } from '../../../shared/model/plan';
import { ROOT } from '../../run/run-program';

export const SAMPLE_NAMES = Object.keys(SAMPLES) as SampleName[];

export function getSamplePath(name: SampleName): string {
  return join(ROOT, 'assets/samples', `${name}.kgplan`);
}

export function readSampleText(name: SampleName): string {
  return readFileSync(getSamplePath(name), 'utf8');
}

/** A sample that comes with the program, as it opens; another object each time. */
export function readSamplePlan(name: SampleName): Plan {
  const read = parsePlanText(readSampleText(name));
  if (!read.ok) throw new Error(read.problem.sentence);
  return read.plan;
}
