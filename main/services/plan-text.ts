import { parseNewerPlanText, parsePlanText } from '../../shared/model/parse-plan';
import type { Plan } from '../../shared/model/plan';
import { serializePlan, UnwritableError } from '../../shared/model/serialize';
import { nameTheFile } from './file-problem';

export interface ReadPlan {
  plan: Plan;
  /** Sentences to show once. */
  remarks: string[];
}

/**
 * Reads the text of a plan file.
 *
 * @param name how the sentence calls the file
 * @throws ExpectedProblem with one sentence that names the file and the field
 */
export function parsePlanContent(text: string, name: string): ReadPlan {
  const read = parsePlanText(text);
  if (read.ok) return { plan: read.plan, remarks: read.remarks };
  throw nameTheFile(read.problem, `${name} could not be opened`);
}

export interface OpenedPlanContent extends ReadPlan {
  /** A newer program wrote it: what this one does not know of it is missing. */
  fromNewer: boolean;
}

/**
 * Reads the text of a plan file to be worked on; one that a newer program wrote, as far as this one knows it.
 *
 * @throws ExpectedProblem as {@link parsePlanContent}
 */
export function openPlanContent(text: string, name: string): OpenedPlanContent {
  const newer = parseNewerPlanText(text);
  if (newer === undefined) return { ...parsePlanContent(text, name), fromNewer: false };
  const sentence = `${name} was written by a newer Kerfgrip (file version ${newer.version}), so it is open to look at only: what this version does not know of it is missing here.`;
  return { plan: newer.plan, remarks: [sentence, ...newer.remarks], fromNewer: true };
}

/** True when the content is a plan that a newer program wrote. */
export function getIsFromNewer(content: Uint8Array): boolean {
  const read = parsePlanText(Buffer.from(content).toString('utf8'));
  return !read.ok && read.problem.code === 'newer-version';
}

/**
 * A plan as the content of its file.
 *
 * @throws ExpectedProblem when the plan could not be read back
 */
export function buildPlanContent(plan: Plan): Buffer {
  try {
    return Buffer.from(serializePlan(plan));
  } catch (error) {
    if (error instanceof UnwritableError) throw nameTheFile(error.problem, 'The plan cannot be saved as it is');
    throw error;
  }
}
