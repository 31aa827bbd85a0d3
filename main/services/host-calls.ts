import { resolve } from 'node:path';
import type { z } from 'zod';
import type { HostCalls, HostVerb, Reply } from '../../shared/contract/host';
import { hostRequestSchemas } from '../../shared/contract/host-schemas';
import { defaultShop } from '../../shared/model/catalogue/default-shop';
import { describeIssues } from '../../shared/model/describe-issue';
import { ExpectedProblem, getFailure } from './expected-problem';
import { createFirstFigures } from './first-figures';
import type { HostDialogs } from './host-dialogs';
import { createExportHandlers } from './host-export-handlers';
import type { Handlers, HostParts } from './host-handlers';
import { createImportHandlers } from './host-import-handlers';
import { createPlanHandlers } from './host-plan-handlers';
import { HostSession } from './host-session';
import { createSessionHandlers } from './host-session-handlers';
import { createPathTokens } from './path-tokens';
import type { Services } from './services';

/** Answers the page's calls. What comes in is unknown until its schema has read it; nothing is ever thrown out. */
export interface HostDoor {
  call(verb: string, request: unknown): Promise<Reply<unknown>>;
  /** The token by which the page may open a plan that the system asked for, as by a double click. */
  giveToken(path: string): string;
  /** Works out beforehand what the first page will ask for, while its window is being opened; never fails. */
  prepare(): Promise<void>;
}

/**
 * @param services the disk side
 * @param dialogs what this host does in its own way
 * @param requestedPlan path of the plan to start with; a sample when none is named
 */
export function createHost(services: Services, dialogs: HostDialogs, requestedPlan?: string): HostDoor {
  const tokens = createPathTokens();
  const session = new HostSession(services, tokens, requestedPlan);
  const parts: HostParts = { services, dialogs, tokens, session };
  const getFirstFigures = createFirstFigures();
  const handlers: Handlers = {
    ...createSessionHandlers(parts, getFirstFigures),
    ...createPlanHandlers(parts),
    ...createExportHandlers(parts),
    ...createImportHandlers(parts),
  };
  return {
    giveToken: (path) => tokens.give('file', resolve(path)),
    async prepare() {
      const [plan, shop] = await Promise.all([session.peekStart(), services.shopLibrary.peek()]);
      if (plan !== null) getFirstFigures(plan, shop ?? defaultShop);
    },
    async call(verb, request) {
      try {
        if (!Object.hasOwn(handlers, verb)) {
          throw new ExpectedProblem('no-such-call', 'The page asked for something unknown.');
        }
        return { ok: true, value: await callHandler(handlers, verb as HostVerb, request) };
      } catch (error) {
        return getFailure(error);
      }
    },
  };
}

function callHandler<V extends HostVerb>(
  handlers: Handlers,
  verb: V,
  request: unknown,
): Promise<HostCalls[V]['reply']> {
  const read = hostRequestSchemas[verb].safeParse(request);
  if (!read.success) throw describeBadRequest(read.error.issues, request);
  return handlers[verb](read.data as HostCalls[V]['request']);
}

/** A field inside the plan or shop is told as it reads in its file. */
function describeBadRequest(issues: readonly z.core.$ZodIssue[], request: unknown): ExpectedProblem {
  const root = (['plan', 'shop'] as const).find((key) => issues[0]?.path[0] === key);
  const inRoot = root === undefined ? issues : issues.filter(({ path }) => path[0] === root);
  const told = root === undefined ? inRoot : inRoot.map((issue) => ({ ...issue, path: issue.path.slice(1) }));
  const value = root === undefined ? request : (request as Record<typeof root, unknown>)[root];
  const { sentence, where } = describeIssues(told, value);
  return new ExpectedProblem('bad-request', sentence, where);
}
