import { ExpectedProblem } from './expected-problem';
import { listFolder } from './folder-listing';
import { giveListing } from './give-listing';
import type { Handlers, HostParts } from './host-handlers';
import { findSavePlace } from './save-place';

type PlanVerb = 'openPlan' | 'openSample' | 'browse' | 'leavePlan' | 'savePlan' | 'savePlanAs';

/** Answers the calls on plan files. */
export function createPlanHandlers({ services, dialogs, tokens, session }: HostParts): Pick<Handlers, PlanVerb> {
  const { planFiles } = services;
  return {
    openSample: ({ sample }) => session.openSample(sample),
    async openPlan({ token }) {
      const path = token === null ? await dialogs.askOpen('plan') : tokens.take('file', token);
      if (path !== null) return session.openPath(path);
      if (dialogs.native) return null;
      throw new ExpectedProblem('no-dialog', 'Choose the plan to open.', 'token');
    },
    async browse({ folder }) {
      const asked = folder === null ? (session.lastFolder ?? services.home) : tokens.take('folder', folder);
      return giveListing(tokens, await listFolder(asked));
    },
    async leavePlan() {
      await session.moveToNone();
      return {};
    },
    async savePlan({ plan, file, overwriteChanged }) {
      const path = tokens.take('file', file.token);
      const stamp = await planFiles.save(path, plan, { stamp: file.stamp, overwrite: overwriteChanged });
      await session.moveTo(path);
      return session.buildSavedHandle(path, stamp);
    },
    async savePlanAs({ plan, suggestedName, target }) {
      const place = await findSavePlace(tokens, dialogs, 'plan', suggestedName, target);
      if (place === null) return null;
      const stamp = await planFiles.save(place.path, plan, { stamp: null, overwrite: place.mayReplace });
      await session.moveTo(place.path);
      return session.buildSavedHandle(place.path, stamp);
    },
  };
}
