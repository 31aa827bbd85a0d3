import type { FileHandle, Host, HostCalls, HostVerb, JournalEntry, Reply } from '../../shared/contract/host';
import type { Plan } from '../../shared/model/plan';

type Answers = { [V in HostVerb]?: (request: HostCalls[V]['request']) => Reply<HostCalls[V]['reply']> };

/** A host that keeps everything in memory and writes down what it was asked; for tests of the state only. */
export interface MemoryHost extends Host {
  readonly calls: { readonly verb: HostVerb; readonly request: unknown }[];
  /** Files by name. */
  readonly files: Map<string, Plan>;
  journal: Plan | null;
  /** What earlier sessions left, by its id. */
  readonly left: Map<string, HostCalls['restoreLeft']['reply']>;
}

/** @param answers what to answer instead of the usual, by verb */
export function createMemoryHost(answers: Answers = {}): MemoryHost {
  const files = new Map<string, Plan>();
  const calls: { verb: HostVerb; request: unknown }[] = [];
  const host: MemoryHost = {
    calls,
    files,
    journal: null,
    left: new Map(),
    async call(verb, request) {
      calls.push({ verb, request });
      const answer = answers[verb] ?? usual[verb];
      return (answer as (request: unknown) => Reply<never>)(request);
    },
  };
  const usual: Answers = {
    openPlan: ({ token }) => getOpened(files, token),
    savePlan: ({ plan, file }) => {
      files.set(file.name, plan);
      return ok({ ...file, stamp: `${file.stamp}+` });
    },
    savePlanAs: ({ plan, suggestedName, target }) => {
      const name = target?.name ?? suggestedName;
      if (target !== null && files.has(name) && !target.replace) {
        return { ok: false, problem: { code: 'file-exists', sentence: `${name} is there.`, where: name } };
      }
      files.set(name, plan);
      return ok(getHandle(name));
    },
    leavePlan: () => ok({}),
    saveShop: () => ok({ stamp: '1' }),
    writeJournal: ({ plan }) => {
      host.journal = plan;
      return ok({});
    },
    discardJournal: () => {
      host.journal = null;
      return ok({});
    },
    restoreLeft: ({ id }) => {
      const left = host.left.get(id);
      return left === undefined
        ? { ok: false, problem: { code: 'no-such-work', sentence: 'It is gone.', where: 'id' } }
        : ok(left);
    },
    discardLeft: ({ ids }) => {
      for (const id of ids) host.left.delete(id);
      return ok({});
    },
    recents: () => ok([]),
    setTitle: () => ok({}),
    exportCutList: () => ok({ name: 'cuts.csv', folder: '/plans' }),
    exportView: ({ suggestedName }) => ok({ name: suggestedName, folder: '/plans' }),
    exportPicture: ({ suggestedName }) => ok({ name: suggestedName, folder: '/plans' }),
    exportSheet: () => ok({ name: 'sheet.pdf', folder: '/plans' }),
  };
  return host;
}

export function getHandle(name: string): FileHandle {
  return { token: name, name, folder: '/plans', stamp: '1', readOnly: false, fromNewer: false };
}

export function buildJournalEntry(plan: Plan): JournalEntry {
  return { id: 'left-1', plan, fileName: '', savedAt: '2025-06-30T10:00:00Z', differs: [] };
}

function getOpened(files: ReadonlyMap<string, Plan>, token: string | null): Reply<HostCalls['openPlan']['reply']> {
  if (token === null) return ok(null);
  const plan = files.get(token);
  if (plan !== undefined) return ok({ plan, file: getHandle(token), remarks: [] });
  return { ok: false, problem: { code: 'not-a-plan', sentence: `${token} is not a plan.`, where: token } };
}

function ok<T>(value: T): Reply<T> {
  return { ok: true, value };
}
