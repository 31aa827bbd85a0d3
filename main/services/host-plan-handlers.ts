import { ExpectedProblem } from './expected-problem';
import { DRIVES, listFolder } from './folder-listing';
import type { Handlers, HostParts } from './host-handlers';
import { findSavePlace } from './save-place';

type PlanVerb = 'openPlan' | 'openSample' | 'browse' | 'savePlan' | 'savePlanAs';

/** Answers the calls on plan files. */
export function createPlanHandlers({ services, dialogs, tokens, session }: HostParts): Pick<Handlers, PlanVerb> {
  const { planFiles } = services;
  return {
    openSample: ({ sample }) => session.openSample(sample),
    async openPlan({ token }) {
      const path = token === null ? await dialogs.askOpen() : tokens.take('file', token);
      if (path !== null) return session.openPath(path);
      if (dialogs.native) return null;
      throw new ExpectedProblem('no-dialog', 'Choose the plan to open.', 'token');
    },
    async browse({ folder }) {
      const asked = folder === null ? (session.lastFolder ?? services.home) : tokens.take('folder', folder);
      const { path, parent, entries } = await listFolder(asked);
      return {
        folder: tokens.give('folder', path),
        shown: path === DRIVES ? 'This computer' : path,
        parent: parent === null ? null : tokens.give('folder', parent),
        entries: entries.map((entry) => ({
          name: entry.name,
          kind: entry.kind,
          token: tokens.give(entry.kind === 'folder' ? 'folder' : 'file', entry.path),
        })),
      };
    },
    async savePlan({ plan, file, overwriteChanged }) {
      const path = tokens.take('file', file.token);
      const stamp = await planFiles.save(path, plan, { stamp: file.stamp, overwrite: overwriteChanged });
      await session.moveTo(path);
      return session.buildHandle({ path, stamp, readOnly: false });
    },
    async savePlanAs({ plan, suggestedName, target }) {
      const place = await findSavePlace(tokens, dialogs, 'plan', suggestedName, target);
      if (place === null) return null;
      const stamp = await planFiles.save(place.path, plan, { stamp: null, overwrite: place.mayReplace });
      await session.moveTo(place.path);
      return session.buildHandle({ path: place.path, stamp, readOnly: false });
    },
  };
}
