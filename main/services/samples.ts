import { readdir } from 'node:fs/promises';
import { join } from 'node:path';
import type { SampleInfo } from '../../shared/contract/host';
import { ExpectedProblem } from './expected-problem';
import { PLAN_ENDING } from './folder-listing';
import { parsePlanContent, type ReadPlan } from './plan-text';
import { readFileLimited } from './read-file-limited';

/** The plans that come with the program. */
export interface Samples {
  list(): Promise<SampleInfo[]>;
  /** @throws ExpectedProblem when there is no sample of that id */
  open(id: string): Promise<ReadPlan>;
}

/** @param folder folder of the sample plans; the file name without its ending is the id */
export function createSamples(folder: string): Samples {
  const listIds = async (): Promise<string[]> => {
    const names = await readdir(folder).catch(() => []);
    return names
      .filter((name) => name.endsWith(PLAN_ENDING))
      .map((name) => name.slice(0, -PLAN_ENDING.length))
      .sort();
  };
  const open = async (id: string): Promise<ReadPlan> => {
    if (!(await listIds()).includes(id)) {
      throw new ExpectedProblem('no-sample', 'There is no sample plan of that name.', 'sample');
    }
    const content = await readFileLimited(join(folder, `${id}${PLAN_ENDING}`));
    return parsePlanContent(content.toString('utf8'), 'The sample plan');
  };
  return {
    open,
    async list() {
      const ids = await listIds();
      return Promise.all(
        ids.map(async (id) => {
          const { plan } = await open(id);
          return { id, title: plan.name, about: getFirstSentence(plan.notes) };
        }),
      );
    },
  };
}

function getFirstSentence(text: string): string {
  return /^.*?[.!?](?=\s|$)/s.exec(text.trim())?.[0] ?? text.trim();
}
