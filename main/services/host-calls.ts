import { basename, dirname, resolve } from 'node:path';
import type { z } from 'zod';
import type { FolderListing, HostCalls, HostVerb, RecentFile, Reply, StartInfo } from '../../shared/contract/host';
import { hostRequestSchemas } from '../../shared/contract/host-schemas';
import { describeIssues } from '../../shared/model/describe-issue';
import { renderCutList } from './cut-list-csv';
import { ExpectedProblem, getFailure } from './expected-problem';
import { buildFileProblem, getShortName } from './file-problem';
import { DRIVES, listFolder } from './folder-listing';
import type { HostDialogs, SavedKind } from './host-dialogs';
import { getDay, HostSession } from './host-session';
import { createPathTokens, type PathTokens } from './path-tokens';
import { checkMayWrite, findSavePlace, type SavePlace } from './save-place';
import type { Services } from './services';
import { renderSheetFile, type SheetOrder } from './sheet-files';
import { writeFileSafely } from './write-file-safely';

/** Answers the page's calls. What comes in is unknown until its schema has read it; nothing is ever thrown out. */
export interface HostDoor {
  call(verb: string, request: unknown): Promise<Reply<unknown>>;
  /** The token by which the page may open a plan that the system asked for, as by a double click. */
  giveToken(path: string): string;
}

type Handlers = { [V in HostVerb]: (request: HostCalls[V]['request']) => Promise<HostCalls[V]['reply']> };

/**
 * @param services the disk side
 * @param dialogs what this host does in its own way
 * @param requestedPlan path of the plan to start with; a sample when none is named
 */
export function createHost(services: Services, dialogs: HostDialogs, requestedPlan?: string): HostDoor {
  const tokens = createPathTokens();
  const handlers = createHandlers(new HostSession(services, tokens, requestedPlan), services, dialogs, tokens);
  return {
    giveToken: (path) => tokens.give('file', resolve(path)),
    async call(verb, request) {
      try {
        if (!Object.hasOwn(handlers, verb))
          throw new ExpectedProblem('no-such-call', 'The page asked for something unknown.');
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

function createHandlers(session: HostSession, services: Services, dialogs: HostDialogs, tokens: PathTokens): Handlers {
  const { planFiles, shopLibrary, recovery, samples } = services;

  const listRecents = async (): Promise<RecentFile[]> =>
    (await services.recents.list()).map(({ path, openedAt }) => ({
      token: tokens.give('file', path),
      name: basename(path),
      folder: dirname(path),
      openedAt,
    }));

  const findPlace = (
    kind: SavedKind,
    request: { suggestedName: string; target: HostCalls['savePlanAs']['request']['target'] },
  ) => findSavePlace(tokens, dialogs, kind, request.suggestedName, request.target);

  const writeExport = async (place: SavePlace | null, build: () => Promise<Uint8Array | string>) => {
    if (place === null) return null;
    const name = basename(place.path);
    await checkMayWrite(place, name);
    const content = await build();
    try {
      await writeFileSafely(place.path, content);
    } catch (error) {
      throw buildFileProblem(error, `${getShortName(name)} was not written`, place.path);
    }
    session.lastFolder = dirname(place.path);
    return { name, folder: dirname(place.path) };
  };

  const renderSheet = async (order: Omit<SheetOrder, 'fileName'>): Promise<Uint8Array | string> =>
    (await renderSheetFile({ ...order, fileName: session.openName })).content;

  return {
    async start(): Promise<StartInfo> {
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
        recents: await listRecents(),
        unsaved: await recovery.listLeft(),
        today: getDay(services.now()),
        userName: services.userName,
        locale: services.locale,
      };
    },
    async openPlan({ token }) {
      const path = token === null ? await dialogs.askOpen() : tokens.take('file', token);
      if (path !== null) return session.openPath(path);
      if (dialogs.native) return null;
      throw new ExpectedProblem('no-dialog', 'Choose the plan to open.', 'token');
    },
    async browse({ folder }): Promise<FolderListing> {
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
    openSample: ({ sample }) => session.openSample(sample),
    async savePlan({ plan, file, overwriteChanged }) {
      const path = tokens.take('file', file.token);
      const stamp = await planFiles.save(path, plan, { stamp: file.stamp, overwrite: overwriteChanged });
      await session.moveTo(path);
      return session.buildHandle({ path, stamp, readOnly: false });
    },
    async savePlanAs(request) {
      const place = await findPlace('plan', request);
      if (place === null) return null;
      const stamp = await planFiles.save(place.path, request.plan, { stamp: null, overwrite: place.mayReplace });
      await session.moveTo(place.path);
      return session.buildHandle({ path: place.path, stamp, readOnly: false });
    },
    async saveShop({ shop }) {
      return { stamp: await shopLibrary.save(shop) };
    },
    async exportSheet(request) {
      const { plan, shop, format, paper, measuredSquare } = request;
      const place = await findPlace(format, request);
      return writeExport(place, () => renderSheet({ plan, shop, format, paper, measuredSquare }));
    },
    async renderSheet(request) {
      const order = { ...request, format: 'pdf', fileName: session.openName } as const;
      const { content, pages } = await renderSheetFile(order);
      return { pdfBase64: Buffer.from(content).toString('base64'), pages };
    },
    async exportCutList(request) {
      return writeExport(await findPlace('csv', request), async () => renderCutList(request.plan, request.shop));
    },
    async writeJournal({ plan, fileName }) {
      await recovery.write(plan, fileName);
      return {};
    },
    async discardJournal() {
      await recovery.discardOwn();
      return {};
    },
    async discardLeft({ ids }) {
      await recovery.discardLeft(ids);
      return {};
    },
    recents: listRecents,
    async setTitle({ title, unsaved }) {
      dialogs.setTitle(title, unsaved);
      return {};
    },
  };
}
