import { basename, dirname } from 'node:path';
import type { RecentFile } from '../../shared/contract/host';
import type { FirstFigures } from './first-figures';
import type { Handlers, HostParts } from './host-handlers';
import { getDay } from './host-session';

type SessionVerb =
  | 'start'
  | 'recents'
  | 'saveShop'
  | 'loadShop'
  | 'writeJournal'
  | 'discardJournal'
  | 'restoreLeft'
  | 'discardLeft'
  | 'setTitle';

/** Answers the calls on what a session begins with and what it keeps beside the plan's file. */
export function createSessionHandlers(parts: HostParts, getFirstFigures: FirstFigures): Pick<Handlers, SessionVerb> {
  const { services, dialogs, tokens, session } = parts;
  const { shopLibrary, recovery, samples } = services;

  const listRecents = async (): Promise<RecentFile[]> =>
    (await services.recents.list()).map(({ path, openedAt }) => ({
      token: tokens.give('file', path),
      name: basename(path),
      folder: dirname(path),
      openedAt,
    }));

  return {
    async start() {
      const { shop, remarks } = await shopLibrary.load();
      const opened = await session.openStart(shop);
      return {
        hostKind: dialogs.hostKind,
        nativeDialogs: dialogs.native,
        samples: await samples.list(),
        version: services.version,
        shop,
        shopRemarks: remarks,
        opened,
        evaluation: getFirstFigures(opened.plan, shop),
        recents: await listRecents(),
        unsaved: await recovery.listLeft(),
        today: getDay(services.now()),
        userName: services.userName,
        locale: services.locale,
      };
    },
    recents: listRecents,
    async saveShop({ shop }) {
      return { stamp: await shopLibrary.save(shop) };
    },
    loadShop: () => shopLibrary.load(),
    async writeJournal({ plan, file, shop }) {
      const place = file === null ? null : { path: tokens.take('file', file.token), stamp: file.stamp };
      await recovery.write({ plan, file: place, shop });
      return {};
    },
    async discardJournal() {
      await recovery.discardOwn();
      return {};
    },
    restoreLeft: ({ id }) => session.restoreLeft(id),
    async discardLeft({ ids }) {
      await recovery.discardLeft(ids);
      return {};
    },
    async setTitle({ title, unsaved }) {
      dialogs.setTitle(title, unsaved, session.currentPath);
      return {};
    },
  };
}
