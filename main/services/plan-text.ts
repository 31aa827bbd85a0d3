import { parsePlanText } from '../../shared/model/parse-plan';
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
