import { describe, expect, test } from 'vitest';
import { createDialogs, type Dialogs, type OpenQuestion, type QuestionKind } from '../../../renderer/state/dialogs';
import { createDocuments, type Documents } from '../../../renderer/state/documents';
import { createFiles, type Files, getBaseName } from '../../../renderer/state/files';
import { buildJournalEntry, createMemoryHost, getHandle, type MemoryHost } from '../../../renderer/state/memory-host';
import { createView, type View } from '../../../renderer/state/view';
import type { FileHandle, JournalEntry } from '../../../shared/contract/host';
import type { Plan } from '../../../shared/model/plan';
import { buildSmallPlan, shop } from './small-plan';

interface Desk {
  host: MemoryHost;
  documents: Documents;
  dialogs: Dialogs;
  view: View;
  files: Files;
  /** Runs whatever waits for a pause. */
  pause: () => Promise<void>;
  countWaiting: () => number;
  asked: QuestionKind[];
}

type Answers = Partial<Record<QuestionKind, unknown>>;

/** @param answers what the user answers, by question; a question without an answer fails the test */
function makeDesk(
  start: { host?: MemoryHost; file?: FileHandle | null; native?: boolean; answers?: Answers } = {},
): Desk {
  const host = start.host ?? createMemoryHost();
  const plan = buildSmallPlan();
  const documents = createDocuments(plan, shop, () => 0);
  const dialogs = createDialogs();
  const view = createView();
  const waiting = new Set<() => void>();
  const asked: QuestionKind[] = [];
  dialogs.store.subscribe(({ open }) => {
    if (open !== null) answerQuestion(open, asked, start.answers ?? {});
  });
  const files = createFiles({
    host,
    nativeDialogs: start.native ?? false,
    documents,
    view,
    dialogs,
    recents: [],
    opened: { plan, file: start.file ?? null, remarks: [] },
    buildNewPlan: () => ({ ...buildSmallPlan(), name: 'New plan', parts: [] }),
    withLibrary: (given) => ({ ...given, notes: 'with its library' }),
    later: (run) => {
      waiting.add(run);
      return () => waiting.delete(run);
    },
  });
  const pause = async (): Promise<void> => {
    for (const run of [...waiting]) {
      waiting.delete(run);
      run();
    }
    await new Promise((resolve) => setImmediate(resolve));
  };
  return { host, documents, dialogs, view, files, pause, countWaiting: () => waiting.size, asked };
}

function answerQuestion(question: OpenQuestion, asked: QuestionKind[], answers: Answers): void {
  asked.push(question.kind);
  if (!(question.kind in answers)) throw new Error(`unexpected question: ${question.kind}`);
  const given = answers[question.kind];
  const answer = typeof given === 'function' ? (given as () => unknown)() : given;
  queueMicrotask(() => (question.answer as (answer: unknown) => void)(answer));
}

const rename =
  (name: string) =>
  (plan: Plan): Plan => ({ ...plan, name });
const getProblems = (view: View): string[] =>
  view.store
    .getState()
    .notices.filter(({ tone }) => tone === 'problem')
    .map(({ sentence }) => sentence);

describe('saving', () => {
  test('writes the plan with its library and counts as saved', async () => {
    const { host, documents, files } = makeDesk({ file: getHandle('hoist.kgplan') });
    documents.edit('rename', rename('A'));
    expect(files.isUnsaved()).toBe(true);
    expect(await files.save()).toBe(true);
    expect(files.isUnsaved()).toBe(false);
    expect(host.files.get('hoist.kgplan')).toMatchObject({ name: 'A', notes: 'with its library' });
  });

  test('counts as unsaved again after an undo, and as saved after the redo', async () => {
    const { documents, files } = makeDesk({ file: getHandle('a.kgplan') });
    documents.edit('rename', rename('A'));
    await files.save();
    documents.undo();
    expect(files.isUnsaved()).toBe(true);
    documents.redo();
    expect(files.isUnsaved()).toBe(false);
  });

  test('what was typed while the file was written stays unsaved', async () => {
    const { documents, files } = makeDesk({ file: getHandle('a.kgplan') });
    documents.edit('rename', rename('A'));
    const saving = files.save();
    documents.edit('rename', rename('B'));
    await saving;
    expect(files.isUnsaved()).toBe(true);
  });

  test('a plan without a file asks where, and never over a file that is to stay', async () => {
    const host = createMemoryHost();
    host.files.set('taken.kgplan', buildSmallPlan());
    const names = ['taken.kgplan', 'free.kgplan'];
    const desk = makeDesk({
      host,
      answers: { saveFile: () => ({ folder: 'f', name: names.shift() }), fileExists: 'cancel' },
    });
    const taken = host.files.get('taken.kgplan');
    expect(await desk.files.save()).toBe(true);
    expect(desk.asked).toEqual(['saveFile', 'fileExists', 'saveFile']);
    expect(host.files.get('taken.kgplan')).toBe(taken);
    expect(desk.files.store.getState().file?.name).toBe('free.kgplan');
  });

  test('a file that someone else has changed is only overwritten when the user says so', async () => {
    const changed = { ok: false, problem: { code: 'file-changed', sentence: 'It changed.', where: '' } } as const;
    const host = createMemoryHost({ savePlan: () => changed });
    const desk = makeDesk({ host, file: getHandle('a.kgplan'), answers: { fileChanged: 'cancel' } });
    desk.documents.edit('rename', rename('A'));
    expect(await desk.files.save()).toBe(false);
    expect(desk.files.isUnsaved()).toBe(true);
    expect(host.calls.filter(({ verb }) => verb === 'savePlan')).toHaveLength(1);
  });

  test('a file that someone else has open is told with who and since when before anything is written', async () => {
    const sentence = 'keeper has this plan open on bench-2 since 2026-03-01 08:00 UTC.';
    const host = createMemoryHost({
      savePlan: () => ({ ok: false, problem: { code: 'file-in-use', sentence, where: '' } }),
    });
    const desk = makeDesk({ host, file: getHandle('a.kgplan'), answers: { fileChanged: 'cancel' } });
    const told: unknown[] = [];
    desk.dialogs.store.subscribe(({ open }) => open?.kind === 'fileChanged' && told.push(open.ask));
    desk.documents.edit('rename', rename('A'));
    expect(await desk.files.save()).toBe(false);
    expect(told).toEqual([{ fileName: 'a.kgplan', reason: 'inUse', sentence }]);
  });

  test('a plan of a newer program is saved under another name only, and only after a warning', async () => {
    const file = { ...getHandle('a.kgplan'), readOnly: true, fromNewer: true };
    const warned = makeDesk({ file, native: true, answers: { newerPlan: 'cancel' } });
    expect(await warned.files.save()).toBe(false);
    expect(warned.host.calls).toEqual([]);
    const saved = makeDesk({ file, native: true, answers: { newerPlan: 'saveAs' } });
    expect(await saved.files.save()).toBe(true);
    expect(saved.host.calls.map(({ verb }) => verb)).not.toContain('savePlan');
    expect(saved.files.store.getState().file?.fromNewer).toBe(false);
  });

  test('a failure is told in the host’s sentence and loses nothing', async () => {
    const host = createMemoryHost({
      savePlan: () => ({ ok: false, problem: { code: 'disk', sentence: 'The disk is full.', where: '' } }),
    });
    const desk = makeDesk({ host, file: getHandle('a.kgplan') });
    desk.documents.edit('rename', rename('A'));
    expect(await desk.files.save()).toBe(false);
    expect(getProblems(desk.view)).toEqual(['The disk is full.']);
    expect(desk.documents.store.getState().plan.name).toBe('A');
  });

  test('a read-only file is saved under another name', async () => {
    const file = { ...getHandle('a.kgplan'), readOnly: true };
    const desk = makeDesk({ file, native: true });
    expect(await desk.files.save()).toBe(true);
    expect(desk.host.calls.map(({ verb }) => verb)).not.toContain('savePlan');
  });
});

describe('leaving a plan with changes', () => {
  test('asks, and stays when the user cancels', async () => {
    const desk = makeDesk({ answers: { unsaved: 'cancel' } });
    desk.documents.edit('rename', rename('A'));
    await desk.files.newPlan();
    expect(desk.documents.store.getState().plan.name).toBe('A');
  });

  test('saves first when asked to, and stays when that fails', async () => {
    const desk = makeDesk({ answers: { unsaved: 'save', saveFile: null } });
    desk.documents.edit('rename', rename('A'));
    await desk.files.newPlan();
    expect(desk.documents.store.getState().plan.name).toBe('A');
  });

  test('gives the changes up only on that word', async () => {
    const desk = makeDesk({ answers: { unsaved: 'discard' } });
    desk.documents.edit('rename', rename('A'));
    await desk.files.newPlan();
    expect(desk.documents.store.getState().plan.name).toBe('New plan');
    expect(desk.files.isUnsaved()).toBe(false);
  });

  test('tells the host that no file is worked on any more', async () => {
    const desk = makeDesk({ file: getHandle('a.kgplan') });
    await desk.files.newPlan();
    expect(desk.host.calls.map(({ verb }) => verb)).toContain('leavePlan');
    expect(desk.files.store.getState().file).toBeNull();
  });

  test('does not ask where nothing was changed', async () => {
    const desk = makeDesk();
    await desk.files.newPlan();
    expect(desk.asked).toEqual([]);
  });
});

test('a file that cannot be read leaves the open plan alone', async () => {
  const desk = makeDesk({ answers: { openFile: 'junk.kgplan' } });
  await desk.files.open();
  expect(getProblems(desk.view)).toEqual(['junk.kgplan is not a plan.']);
  expect(desk.documents.store.getState().plan.name).toBe('Hoist');
});

describe('the journal', () => {
  test('keeps work from the first edit, also of a plan that was never saved', async () => {
    const desk = makeDesk();
    desk.files.watch();
    desk.documents.edit('rename', rename('A'));
    await desk.pause();
    expect(desk.host.journal?.name).toBe('A');
  });

  test('is let go when the plan is saved, and when the change is undone', async () => {
    const desk = makeDesk({ file: getHandle('a.kgplan') });
    desk.files.watch();
    desk.documents.edit('rename', rename('A'));
    await desk.pause();
    desk.documents.undo();
    await desk.pause();
    expect(desk.host.journal).toBeNull();
    desk.documents.redo();
    await desk.pause();
    expect(desk.host.journal?.name).toBe('A');
    await desk.files.save();
    expect(desk.host.journal).toBeNull();
  });

  test('waits for the end of a drag', async () => {
    const desk = makeDesk();
    desk.files.watch();
    desk.documents.beginGesture('drag');
    desk.documents.updateGesture(rename('half'));
    await desk.pause();
    expect(desk.host.journal).toBeNull();
    desk.documents.endGesture();
    await desk.pause();
    expect(desk.host.journal?.name).toBe('half');
  });

  test('gives work back as unsaved and drops it only once it is kept anew', async () => {
    const desk = makeDesk({ answers: { restore: { restore: 0 } } });
    await desk.files.offerRestore([leave(desk.host, null)]);
    expect(desk.documents.store.getState().plan.name).toBe('lost');
    expect(desk.files.isUnsaved()).toBe(true);
    const verbs = desk.host.calls.map(({ verb }) => verb);
    expect(verbs.indexOf('writeJournal')).toBeLessThan(verbs.indexOf('discardLeft'));
    expect(verbs).toContain('discardLeft');
  });

  test('gives work back with its file, and saving goes there with the stamp it had when the work began', async () => {
    const desk = makeDesk({ answers: { restore: { restore: 0 } } });
    await desk.files.offerRestore([leave(desk.host, getHandle('hoist.kgplan'))]);
    expect(desk.files.store.getState().file?.name).toBe('hoist.kgplan');
    expect(desk.files.isUnsaved()).toBe(true);
    expect(await desk.files.save()).toBe(true);
    expect(desk.host.calls.find(({ verb }) => verb === 'savePlan')?.request).toMatchObject({
      plan: { name: 'lost' },
      file: { name: 'hoist.kgplan', stamp: '1' },
      overwriteChanged: false,
    });
    expect(desk.files.isUnsaved()).toBe(false);
  });

  test('gives the shop back that was not on file, as a step that can be undone', async () => {
    const desk = makeDesk({ answers: { restore: { restore: 0 } } });
    const entry = leave(desk.host, null);
    const left = desk.host.left.get(entry.id) ?? expect.fail('nothing left');
    desk.host.left.set(entry.id, { ...left, shop: { ...shop, name: 'Mill' } });
    await desk.files.offerRestore([entry]);
    expect(desk.documents.store.getState().shop.name).toBe('Mill');
    expect(desk.documents.history.getState().undo).toEqual(['take up the shop that was not saved']);
  });

  test('keeps the shop too while it is not on file', async () => {
    const disk = await fillDisk();
    const { desk, host } = disk;
    expect(host.calls.findLast(({ verb }) => verb === 'writeJournal')?.request).toMatchObject({
      shop: { name: 'Mill' },
    });
    disk.isFull = false;
    await desk.pause();
    await desk.pause();
    expect(host.calls.at(-1)?.verb).toBe('discardJournal');
    expect(host.journal).toBeNull();
  });

  test('that cannot be had any more leaves the open plan alone and says so', async () => {
    const desk = makeDesk({ answers: { restore: { restore: 0 } } });
    await desk.files.offerRestore([buildJournalEntry(buildSmallPlan())]);
    expect(getProblems(desk.view)).toEqual(['It is gone.']);
    expect(desk.documents.store.getState().plan.name).toBe('Hoist');
  });

  test('is written soon after the first change, however fast others follow', async () => {
    const desk = makeDesk();
    desk.files.watch();
    desk.documents.edit('rename', rename('A'));
    const waiting = desk.countWaiting();
    desk.documents.edit('rename', rename('B'));
    expect(desk.countWaiting()).toBe(waiting);
    await desk.pause();
    expect(desk.host.journal?.name).toBe('B');
  });

  test('that could not be written says so once, is tried again, and says when work is kept again', async () => {
    let isFull = true;
    const problem = { code: 'file-enospc', sentence: 'The disk is full.', where: '' };
    const host = createMemoryHost({ writeJournal: () => (isFull ? { ok: false, problem } : { ok: true, value: {} }) });
    const desk = makeDesk({ host });
    desk.files.watch();
    desk.documents.edit('rename', rename('A'));
    await desk.pause();
    await desk.pause();
    expect(getProblems(desk.view)).toEqual(['Unsaved work is not being kept: The disk is full.']);
    expect(host.calls.filter(({ verb }) => verb === 'writeJournal').length).toBeGreaterThan(1);
    isFull = false;
    await desk.pause();
    expect(desk.view.store.getState().notices.at(-1)?.sentence).toBe('Unsaved work is being kept again.');
  });

  test('is let go when the plan was saved while it was being written', async () => {
    const gates: (() => void)[] = [];
    const host = createMemoryHost();
    const { call } = host;
    host.call = async (verb, request) => {
      if (verb === 'writeJournal') await new Promise<void>((open) => gates.push(open));
      return call(verb, request);
    };
    const desk = makeDesk({ host, file: getHandle('a.kgplan') });
    desk.files.watch();
    desk.documents.edit('rename', rename('A'));
    await desk.pause();
    await desk.files.save();
    for (const open of gates) open();
    await desk.pause();
    expect(host.journal).toBeNull();
  });

  test('put off is offered again next time', async () => {
    const desk = makeDesk({ answers: { restore: 'later' } });
    await desk.files.offerRestore([buildJournalEntry(buildSmallPlan())]);
    expect(desk.host.calls).toEqual([]);
  });
});

/** A changed shop that cannot be saved while the disk is full. */
async function fillDisk(): Promise<{ desk: Desk; host: MemoryHost; isFull: boolean }> {
  const problem = { code: 'file-enospc', sentence: 'The disk is full.', where: '' };
  const host = createMemoryHost({
    saveShop: () => (disk.isFull ? { ok: false, problem } : { ok: true, value: { stamp: '2' } }),
  });
  const desk = makeDesk({ host });
  const disk = { desk, host, isFull: true };
  desk.files.watch();
  desk.documents.editShop('shop: rename', (before) => ({ ...before, name: 'Mill' }));
  await desk.pause();
  await desk.pause();
  return disk;
}

/** Work that an earlier session left with the host. */
function leave(host: MemoryHost, file: FileHandle | null): JournalEntry {
  const plan = rename('lost')(buildSmallPlan());
  const entry = buildJournalEntry(plan);
  host.left.set(entry.id, { plan, file, remarks: [], shop: null });
  return entry;
}

test('the shop that could not be saved is tried again, and says so once', async () => {
  const disk = await fillDisk();
  const { desk } = disk;
  expect(getProblems(desk.view)).toEqual(['The shop library is not saved: The disk is full.']);
  disk.isFull = false;
  await desk.pause();
  expect(desk.view.store.getState().notices.at(-1)?.sentence).toBe('The shop library is saved again.');
  expect(desk.files.store.getState().savedShop.name).toBe('Mill');
});

test('the shop is saved by itself once it has changed, and not before', async () => {
  const desk = makeDesk();
  desk.files.watch();
  await desk.pause();
  expect(desk.host.calls.map(({ verb }) => verb)).not.toContain('saveShop');
  desk.documents.editShop('shop: rename', (before) => ({ ...before, name: 'Mill' }));
  await desk.pause();
  expect(desk.host.calls.filter(({ verb }) => verb === 'saveShop')).toHaveLength(1);
});

describe('a shop that another window has changed', () => {
  const theirs = { ...shop, name: 'Theirs' };
  const makeShopDesk = (answer: string) => {
    const host = createMemoryHost({
      saveShop: () => ({ ok: false, problem: { code: 'file-changed', sentence: 'It changed.', where: '' } }),
      loadShop: () => ({ ok: true, value: { shop: theirs, remarks: [] } }),
      exportShop: () => ({ ok: true, value: { name: 'my shop.kgshop', folder: '/plans' } }),
    });
    return makeDesk({ host, native: true, answers: { shopChanged: answer } });
  };
  const changeMine = async (desk: Desk): Promise<void> => {
    desk.files.watch();
    desk.documents.editShop('shop: rename', (before) => ({ ...before, name: 'Mine' }));
    await desk.pause();
    await new Promise((resolve) => setImmediate(resolve));
  };
  const getVerbs = (desk: Desk) => desk.host.calls.map(({ verb }) => verb);

  test('is taken up when the user says so, and undo brings the own one back', async () => {
    const desk = makeShopDesk('take');
    await changeMine(desk);
    expect(desk.documents.store.getState().shop.name).toBe('Theirs');
    expect(getVerbs(desk)).not.toContain('exportShop');
    desk.documents.undo();
    expect(desk.documents.store.getState().shop.name).toBe('Mine');
  });

  test('can be kept beside the own one, which is written to a file first', async () => {
    const desk = makeShopDesk('keepBoth');
    await changeMine(desk);
    const verbs = getVerbs(desk);
    expect(verbs.indexOf('exportShop')).toBeLessThan(verbs.indexOf('loadShop'));
    expect(desk.host.calls.find(({ verb }) => verb === 'exportShop')?.request).toMatchObject({
      shop: { name: 'Mine' },
    });
    expect(desk.documents.store.getState().shop.name).toBe('Theirs');
  });

  test('put off leaves the own one in the window and says that it is not on file', async () => {
    const desk = makeShopDesk('later');
    await changeMine(desk);
    expect(desk.documents.store.getState().shop.name).toBe('Mine');
    expect(getProblems(desk.view).join()).toContain('not on file');
  });
});

test.each([
  ['Hoist: arms / levers', 'B', 'Hoist arms levers rev B'],
  ['', '', 'plan'],
  ['..\u0000<bad>', '', 'bad'],
])('a plan named %j is filed as %j', (name, revision, expected) => {
  expect(getBaseName({ ...buildSmallPlan(), name, revision })).toBe(expected);
});
