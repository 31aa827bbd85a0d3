import { createStore, type StoreApi } from 'zustand/vanilla';
import type {
  FileHandle,
  Host,
  HostCalls,
  HostVerb,
  JournalEntry,
  OpenedPlan,
  Problem,
  ReadKind,
  RecentFile,
  SaveTarget,
  ViewChoice,
} from '../../shared/contract/host';
import type { ListStyle } from '../../shared/lists/list-style';
import type { Plan } from '../../shared/model/plan';
import type { Shop } from '../../shared/model/shop';
import type { Dialogs } from './dialogs';
import type { Documents } from './documents';
import { createJournal, type Journal } from './journal';
import type { ReadStore } from './read-store';
import { createShopSaving, type ShopSaving } from './shop-saving';
import type { View } from './view';

export interface FilesState {
  /** Null for a plan that was never saved. */
  readonly file: FileHandle | null;
  /** The plan as it is on file, by identity; null when nothing of it is on file. */
  readonly savedPlan: Plan | null;
  readonly savedShop: Shop;
  readonly recents: readonly RecentFile[];
  readonly busy: boolean;
}

/** Opening, saving and keeping. Every verb tells the user of problems itself and leaves the plan as it was when it fails. */
export interface Files {
  readonly store: ReadStore<FilesState>;
  isUnsaved(): boolean;
  newPlan(): Promise<void>;
  open(): Promise<void>;
  openRecent(token: string): Promise<void>;
  openSample(id: string): Promise<void>;
  save(): Promise<boolean>;
  saveAs(): Promise<boolean>;
  exportSheet(format: 'pdf' | 'svg' | 'dxf'): Promise<void>;
  /** Writes one view by itself. */
  exportView(choice: ViewChoice, title: string, format: 'svg' | 'dxf'): Promise<void>;
  /** Writes a picture of a view that the page has drawn. */
  exportPicture(pngBase64: string, title: string): Promise<void>;
  exportCutList(): Promise<void>;
  /** Has a file of a kind chosen by the page's own dialog. Null where the host asks itself, undefined when the user thought better of it. */
  chooseFile(show: 'plan' | ReadKind): Promise<string | null | undefined>;
  /** Writes rows as a CSV list where the user says. */
  exportTable(what: string, rows: string[][], style: ListStyle): Promise<void>;
  exportShop(): Promise<void>;
  offerRestore(entries: readonly JournalEntry[]): Promise<void>;
  /** Watches the documents for the journal, the shop file and the window's title; returns how to stop. */
  watch(): () => void;
}

export interface FilesParts {
  readonly host: Host;
  readonly nativeDialogs: boolean;
  readonly documents: Documents;
  readonly view: View;
  readonly dialogs: Dialogs;
  readonly recents: readonly RecentFile[];
  readonly opened: OpenedPlan;
  readonly buildNewPlan: (shop: Shop, units: Plan['units']) => Plan;
  /** The plan with its own copies of the shop entries it uses. */
  readonly withLibrary: (plan: Plan, shop: Shop) => Plan;
  /** Runs after a pause, and gives back how to call it off. */
  readonly later: (run: () => void, delayMs: number) => () => void;
}

export function createFiles(parts: FilesParts): Files {
  const { host, documents, view, dialogs } = parts;
  const store = createStore<FilesState>(() => ({
    file: parts.opened.file,
    savedPlan: documents.store.getState().plan,
    savedShop: documents.store.getState().shop,
    recents: parts.recents,
    busy: false,
  }));
  const getPlan = (): Plan => documents.store.getState().plan;
  const getShop = (): Shop => documents.store.getState().shop;
  const isUnsaved = (): boolean => getPlan() !== store.getState().savedPlan;
  const tell = (problem: Problem): void => view.notify('problem', problem.sentence);
  const journal = createJournal({
    host,
    getPlan,
    getFile: () => store.getState().file,
    withLibrary: (plan) => parts.withLibrary(plan, getShop()),
    getUnsavedShop: () => (getShop() === store.getState().savedShop ? null : getShop()),
    isPlanUnsaved: isUnsaved,
    isGesturing: documents.isGesturing,
    later: parts.later,
    tellFault(sentence) {
      if (sentence === '') view.notify('done', 'Unsaved work is being kept again.');
      else view.notify('problem', `Unsaved work is not being kept: ${sentence}`);
    },
  });

  /** The reply's value, or undefined after the user was told why not. */
  const call = async <V extends HostVerb>(
    verb: V,
    request: HostCalls[V]['request'],
  ): Promise<HostCalls[V]['reply'] | undefined> => {
    store.setState({ busy: true });
    const reply = await host.call(verb, request);
    store.setState({ busy: false });
    if (reply.ok) return reply.value;
    tell(reply.problem);
    return undefined;
  };

  const shopSaving = createShopSaving({
    host,
    getShop,
    getSaved: () => store.getState().savedShop,
    setSaved: (savedShop) => store.setState({ savedShop }),
    askAboutOther: askAboutShop,
    later: parts.later,
    tellFault(sentence) {
      if (sentence === '') view.notify('done', 'The shop library is saved again.');
      else view.notify('problem', `The shop library is not saved: ${sentence}`);
    },
  });

  const refreshRecents = async (): Promise<void> => {
    const reply = await host.call('recents', {});
    if (reply.ok) store.setState({ recents: reply.value });
  };

  const takeOpened = (opened: OpenedPlan): void => {
    documents.openPlan(opened.plan);
    store.setState({ file: opened.file, savedPlan: opened.plan });
    view.select([]);
    view.setSectionX(null);
    for (const remark of opened.remarks) view.notify('done', remark);
    void refreshRecents();
  };

  /** True when the open plan may be left: saved, or given up by the user. */
  const mayLeave = async (about: string): Promise<boolean> => {
    if (!isUnsaved()) return true;
    const answer = await dialogs.ask('unsaved', { planName: getPlan().name, about });
    if (answer === 'save') return save();
    if (answer === 'discard') await journal.discard();
    return answer === 'discard';
  };

  const keepSaved = (plan: Plan, file: FileHandle): true => {
    store.setState({ file, savedPlan: plan });
    void refreshRecents();
    return true;
  };

  async function save(): Promise<boolean> {
    const { file } = store.getState();
    if (file === null || file.readOnly) return saveAs();
    return saveOver(file, false);
  }

  async function saveOver(file: FileHandle, overwriteChanged: boolean): Promise<boolean> {
    const plan = getPlan();
    store.setState({ busy: true });
    const reply = await host.call('savePlan', { plan: parts.withLibrary(plan, getShop()), file, overwriteChanged });
    store.setState({ busy: false });
    if (reply.ok) return keepSaved(plan, reply.value);
    const { code, sentence } = reply.problem;
    if (code !== 'file-changed' && code !== 'file-in-use') {
      tell(reply.problem);
      return false;
    }
    const reason = code === 'file-changed' ? 'changed' : 'inUse';
    const answer = await dialogs.ask('fileChanged', { fileName: file.name, reason, sentence });
    if (answer === 'overwrite') return saveOver(file, true);
    return answer === 'saveAs' ? saveAs() : false;
  }

  async function saveAs(): Promise<boolean> {
    const { file } = store.getState();
    if (file?.fromNewer === true && (await dialogs.ask('newerPlan', { fileName: file.name })) === 'cancel')
      return false;
    const plan = getPlan();
    const suggestedName = getFileName(plan);
    const handle = await writeTo('the plan', suggestedName, (target) =>
      host.call('savePlanAs', { plan: parts.withLibrary(plan, getShop()), suggestedName, target }),
    );
    return handle === null ? false : keepSaved(plan, handle);
  }

  /** Asks where to write when the host cannot, and again when a file of that name is there and is to stay. */
  async function writeTo<T>(
    what: string,
    suggestedName: string,
    write: (target: SaveTarget | null) => Promise<{ ok: true; value: T | null } | { ok: false; problem: Problem }>,
  ): Promise<T | null> {
    let name = suggestedName;
    for (;;) {
      const place = parts.nativeDialogs ? null : await dialogs.ask('saveFile', { suggestedName: name, what });
      if (!parts.nativeDialogs && place === null) return null;
      const first = await write(place === null ? null : { ...place, replace: false });
      if (first.ok) return first.value;
      if (first.problem.code !== 'file-exists' || place === null) {
        tell(first.problem);
        return null;
      }
      const answer = await dialogs.ask('fileExists', { fileName: place.name });
      if (answer === 'replace') {
        const second = await write({ ...place, replace: true });
        if (second.ok) return second.value;
        tell(second.problem);
        return null;
      }
      name = place.name;
    }
  }

  const chooseFile = async (show: 'plan' | ReadKind): Promise<string | null | undefined> =>
    parts.nativeDialogs ? null : ((await dialogs.ask('openFile', { show })) ?? undefined);

  const tellWritten = (written: { name: string; folder: string } | null): void => {
    if (written !== null) view.notify('done', `Wrote ${written.name} in ${written.folder}.`);
  };

  /** Another window has saved its shop over the one this page read: nothing is written until the user has chosen. */
  async function askAboutShop(): Promise<void> {
    const own = getShop();
    const answer = await dialogs.ask('shopChanged', {});
    if (answer === 'later') {
      view.notify('problem', 'The changes to the shop library are not on file: another window has changed it as well.');
      return;
    }
    if (answer === 'keepBoth') {
      const suggestedName = 'my shop.kgshop';
      const written = await writeTo('this window’s shop', suggestedName, (target) =>
        host.call('exportShop', { shop: own, suggestedName, target }),
      );
      if (written === null) return;
      view.notify('done', `Wrote ${written.name} in ${written.folder}; the shop view can take entries over from it.`);
    }
    const loaded = await call('loadShop', {});
    if (loaded === undefined) return;
    store.setState({ savedShop: loaded.shop });
    documents.editShop('take the other window’s shop', () => loaded.shop);
    for (const remark of loaded.remarks) view.notify('done', remark);
  }

  const open = async (token: string | null): Promise<void> => {
    const opened = await call('openPlan', { token });
    if (opened !== undefined && opened !== null) takeOpened(opened);
  };

  return {
    store,
    isUnsaved,
    async newPlan() {
      if (!(await mayLeave('before a new plan is started'))) return;
      const plan = parts.buildNewPlan(getShop(), getPlan().units);
      await host.call('leavePlan', {});
      takeOpened({ plan, file: null, remarks: [] });
      view.show('parts');
    },
    async open() {
      if (!(await mayLeave('before another plan is opened'))) return;
      const token = await chooseFile('plan');
      if (token !== undefined) await open(token);
    },
    async openRecent(token) {
      if (await mayLeave('before another plan is opened')) await open(token);
    },
    async openSample(id) {
      if (!(await mayLeave('before the sample is opened'))) return;
      const opened = await call('openSample', { sample: id });
      if (opened !== undefined) takeOpened(opened);
    },
    save,
    saveAs,
    async exportSheet(format) {
      const suggestedName = `${getBaseName(getPlan())}.${format}`;
      const { measuredSquare, workingsPrinted: workings } = view.store.getState();
      const fileName = store.getState().file?.name ?? '';
      const plan = parts.withLibrary(getPlan(), getShop());
      const written = await writeTo('the fixture sheet', suggestedName, (target) =>
        host.call('exportSheet', {
          plan,
          shop: getShop(),
          format,
          measuredSquare,
          workings,
          fileName,
          suggestedName,
          target,
        }),
      );
      tellWritten(written);
    },
    async exportView(choice, title, format) {
      const plan = parts.withLibrary(getPlan(), getShop());
      const suggestedName = getViewFileName(plan, title, format);
      const written = await writeTo('the drawing', suggestedName, (target) =>
        host.call('exportView', { plan, shop: getShop(), choice, format, suggestedName, target }),
      );
      tellWritten(written);
    },
    async exportPicture(pngBase64, title) {
      const suggestedName = getViewFileName(getPlan(), title, 'png');
      const write = (target: SaveTarget | null) => host.call('exportPicture', { pngBase64, suggestedName, target });
      tellWritten(await writeTo('the picture', suggestedName, write));
    },
    async exportCutList() {
      const plan = parts.withLibrary(getPlan(), getShop());
      const suggestedName = `${getBaseName(getPlan())} cut list.csv`;
      const written = await writeTo('the cut list', suggestedName, (target) =>
        host.call('exportCutList', { plan, shop: getShop(), suggestedName, target }),
      );
      tellWritten(written);
    },
    chooseFile,
    async exportTable(what, rows, { delimiter }) {
      const suggestedName = `${getBaseName(getPlan())} ${what}.csv`;
      const write = (target: SaveTarget | null) => host.call('exportTable', { rows, delimiter, suggestedName, target });
      tellWritten(await writeTo(`the ${what}`, suggestedName, write));
    },
    async exportShop() {
      const shop = getShop();
      const suggestedName = `${getFileBase(shop.name, 'shop')}.kgshop`;
      const write = (target: SaveTarget | null) => host.call('exportShop', { shop, suggestedName, target });
      tellWritten(await writeTo('the shop library', suggestedName, write));
    },
    async offerRestore(entries) {
      if (entries.length === 0) return;
      const answer = await dialogs.ask('restore', { entries });
      if (answer === 'discard') await host.call('discardLeft', { ids: entries.map(({ id }) => id) });
      if (typeof answer !== 'object') return;
      const entry = entries[answer.restore];
      if (entry === undefined) return;
      const restored = await call('restoreLeft', { id: entry.id });
      if (restored === undefined) return;
      takeOpened(restored);
      const { shop } = restored;
      if (shop !== null) documents.editShop('take up the shop that was not saved', () => shop);
      // What is on file is older, so it counts as unsaved until the user saves it.
      store.setState({ savedPlan: null });
      if (await journal.write()) await host.call('discardLeft', { ids: [entry.id] });
    },
    watch: () => watchDocuments(parts, store, isUnsaved, [journal, shopSaving]),
  };
}

function watchDocuments(
  { host, documents }: FilesParts,
  store: StoreApi<FilesState>,
  isUnsaved: () => boolean,
  keepers: readonly (Journal | ShopSaving)[],
): () => void {
  let title = '';
  const update = (): void => {
    for (const keeper of keepers) keeper.handleChange();
    const shown = store.getState().file?.name ?? documents.store.getState().plan.name;
    const unsaved = isUnsaved();
    const next = `${shown}\u0000${unsaved}`;
    if (next === title) return;
    title = next;
    void host.call('setTitle', { title: shown, unsaved });
  };
  update();
  const stops = [documents.store.subscribe(update), store.subscribe(update)];
  return () => {
    for (const stop of stops) stop();
    for (const keeper of keepers) keeper.stop();
  };
}

/** The plan's name as a file name: what no file system takes is left out. */
export function getBaseName(plan: Plan): string {
  const revision = plan.revision.trim() === '' ? '' : ` rev ${plan.revision.trim()}`;
  return getFileBase(`${plan.name}${revision}`, 'plan');
}

function getFileBase(text: string, otherwise: string): string {
  // biome-ignore lint/suspicious/noControlCharactersInRegex: file names cannot hold them.
  const name = text.replace(/[\u0000-\u001f<>:"/\\|?*\s]+/gu, ' ').replace(/^[. ]+|[. ]+$/gu, '');
  return name === '' ? otherwise : name.slice(0, 120);
}

function getViewFileName(plan: Plan, title: string, ending: string): string {
  return `${getBaseName(plan)} ${getFileBase(title, 'view')}.${ending}`;
}

function getFileName(plan: Plan): string {
  return `${getBaseName(plan)}.kgplan`;
}
