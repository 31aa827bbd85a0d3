import { readFileSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import type { Session } from 'electron';
import { beforeEach, describe, expect, onTestFinished, test, vi } from 'vitest';
import { CHANNELS } from '../../../main/desktop/channels';
import { lockDownSession } from '../../../main/desktop/lock-down';
import { PAGE_ADDRESS } from '../../../main/desktop/page-address';
import { openPlannerWindow } from '../../../main/desktop/planner-window';
import { createServices } from '../../../main/services/services';
import type { OpenedPlan, Reply } from '../../../shared/contract/host';
import { serializePlan } from '../../../shared/model/serialize';
import { buildNamedPlan } from '../services/sample-plan';
import { makeTempFolder } from '../services/temp-folder';
import { electron, FakeContents, type FakeWindow } from './fake-electron';

vi.mock('electron', async () => (await import('./fake-electron')).fakeElectron);

beforeEach(() => {
  Object.assign(electron, {
    windows: [],
    menus: [],
    messages: [],
    pressed: 0,
    openPath: undefined,
    savePath: undefined,
  });
  electron.handlers.clear();
});

async function openWindow() {
  const folder = await makeTempFolder();
  const plan = join(folder, 'hoist.kgplan');
  writeFileSync(plan, serializePlan(buildNamedPlan('hoist')));
  const services = createServices({ dataFolder: join(folder, 'data'), samplesFolder: join(folder, 'samples') });
  onTestFinished(() => services.close());
  const parts = { services, dataFolder: join(folder, 'data'), preloadFile: '/preload.cjs', requestedPlan: plan };
  const planner = await openPlannerWindow(parts);
  const [window] = electron.windows as [FakeWindow];
  const ownFrame = { url: PAGE_ADDRESS, parent: null };
  const callFrom = (event: unknown, verb: unknown, request: unknown = {}) =>
    electron.handlers.get(CHANNELS.call)?.(event, verb, request) as Promise<Reply<unknown>>;
  const call = (verb: string, request: unknown = {}) =>
    callFrom({ sender: window.webContents, senderFrame: ownFrame }, verb, request);
  return { folder, plan, planner, window, ownFrame, call, callFrom, services };
}

const waitForSave = (window: FakeWindow) =>
  expect.poll(() => window.webContents.sent).toContainEqual({ channel: CHANNELS.action, value: 'file.save' });

function emitPreventable(target: { emit: (name: string, event: unknown) => unknown }, name: string, more: object = {}) {
  let isPrevented = false;
  const preventDefault = (): void => {
    isPrevented = true;
  };
  target.emit(name, { preventDefault, ...more });
  return isPrevented;
}

describe('the desktop window', () => {
  test('gives its page no Node, a world of its own and a sandbox, and fetches no dictionaries', async () => {
    const { window } = await openWindow();
    expect(window.options.webPreferences).toMatchObject({
      preload: '/preload.cjs',
      contextIsolation: true,
      sandbox: true,
      nodeIntegration: false,
      webSecurity: true,
      spellcheck: false,
    });
    expect(window.address).toBe(PAGE_ADDRESS);
  });

  test('answers its own page, and starts it with the plan that was asked for', async () => {
    const { call } = await openWindow();
    const reply = await call('start');
    expect(reply).toMatchObject({
      ok: true,
      value: { hostKind: 'electron', nativeDialogs: true, opened: { plan: { name: 'hoist' } } },
    });
  });

  test('answers no embedded page, no other address, no other window and no odd verb', async () => {
    const { callFrom, window, ownFrame } = await openWindow();
    const sender = window.webContents;
    const replies = await Promise.all([
      callFrom({ sender, senderFrame: { url: PAGE_ADDRESS, parent: ownFrame } }, 'start'),
      callFrom({ sender, senderFrame: { url: 'https://evil.example/', parent: null } }, 'start'),
      callFrom({ sender, senderFrame: null }, 'start'),
      callFrom({ sender: new FakeContents(), senderFrame: ownFrame }, 'start'),
      callFrom({ sender, senderFrame: ownFrame }, { toString: () => 'start' }),
    ]);
    for (const reply of replies) expect(reply).toMatchObject({ ok: false, problem: { code: 'not-allowed' } });
  });

  test('stays where it is: no navigation, no new window, no embedded page', async () => {
    const { window } = await openWindow();
    const contents = window.webContents;
    expect(emitPreventable(contents, 'will-navigate', { url: 'https://evil.example/' })).toBe(true);
    expect(emitPreventable(contents, 'will-navigate', { url: PAGE_ADDRESS })).toBe(false);
    expect(emitPreventable(contents, 'will-redirect')).toBe(true);
    expect(emitPreventable(contents, 'will-attach-webview')).toBe(true);
    expect(contents.windowOpenHandler?.()).toEqual({ action: 'deny' });
  });

  test('shows the plan’s name and whether it has changes', async () => {
    const { call, window, plan } = await openWindow();
    await call('setTitle', { title: 'Pawl arms', unsaved: true });
    expect(window.title).toBe('• Pawl arms — Kerfgrip');
    expect(window).toMatchObject({ isEdited: true, representedFile: '' });
    await call('start');
    await call('setTitle', { title: 'hoist.kgplan', unsaved: false });
    expect(window).toMatchObject({ title: 'hoist.kgplan — Kerfgrip', isEdited: false, representedFile: plan });
    await call('leavePlan');
    await call('setTitle', { title: '', unsaved: false });
    expect(window).toMatchObject({ title: 'Untitled — Kerfgrip', representedFile: '' });
  });

  test('hands the page a token for a plan that the system asks to open', async () => {
    const { planner, plan, window, call } = await openWindow();
    planner.open(plan);
    const sent = window.webContents.sent.find(({ channel }) => channel === CHANNELS.open);
    expect(sent?.value).not.toContain('hoist');
    expect(await call('openPlan', { token: sent?.value })).toMatchObject({
      ok: true,
      value: { plan: { name: 'hoist' } },
    });
  });

  test('lists plans in the menu once they were opened', async () => {
    const { call } = await openWindow();
    await call('start');
    await expect.poll(() => JSON.stringify(electron.menus.at(-1))).toContain('hoist.kgplan');
  });

  test('saves where its dialog says', async () => {
    const { call, folder } = await openWindow();
    electron.savePath = join(folder, 'links');
    const saved = await call('savePlanAs', { plan: buildNamedPlan('links'), suggestedName: 'x', target: null });
    expect(saved).toMatchObject({ ok: true, value: { name: 'links.kgplan' } });
    expect(JSON.parse(readFileSync(join(folder, 'links.kgplan'), 'utf8')).name).toBe('links');
  });

  test('offers to load a crashed page again', async () => {
    const { window } = await openWindow();
    window.webContents.emit('render-process-gone', {}, { reason: 'crashed' });
    await expect.poll(() => window.webContents.reloads).toBe(1);
    expect(electron.messages).toEqual(['The planner’s page has stopped.']);
  });
});

describe('closing the desktop window with unsaved work', () => {
  const SAVE = 0;
  const DISCARD = 1;
  const STAY = 2;

  test('without any it closes', async () => {
    const { window } = await openWindow();
    expect(emitPreventable(window, 'close')).toBe(false);
  });

  test('asks, and stays when told to', async () => {
    const { window, call } = await openWindow();
    electron.pressed = STAY;
    await call('setTitle', { title: 'x', unsaved: true });
    expect(emitPreventable(window, 'close')).toBe(true);
    await expect.poll(() => electron.messages).toHaveLength(1);
    expect(window.isGone).toBe(false);
  });

  test('saves through the page and closes once that is done', async () => {
    const { window, call } = await openWindow();
    const { value } = (await call('start')) as { value: { opened: OpenedPlan } };
    electron.pressed = SAVE;
    await call('setTitle', { title: 'x', unsaved: true });
    emitPreventable(window, 'close');
    await waitForSave(window);
    expect(window.isGone).toBe(false);
    await call('savePlan', { plan: buildNamedPlan('new'), file: value.opened.file, overwriteChanged: false });
    await call('setTitle', { title: 'x', unsaved: false });
    expect(window.isGone).toBe(true);
  });

  test('stays open when the save fails', async () => {
    const { window, call } = await openWindow();
    electron.pressed = SAVE;
    await call('setTitle', { title: 'x', unsaved: true });
    emitPreventable(window, 'close');
    await waitForSave(window);
    await call('savePlanAs', { plan: buildNamedPlan('new'), suggestedName: 'x', target: null });
    await call('setTitle', { title: 'x', unsaved: false });
    expect(window.isGone).toBe(false);
  });

  test('drops the journal of work that is given up', async () => {
    const { window, call, services } = await openWindow();
    await call('writeJournal', { plan: buildNamedPlan('given up'), file: null, shop: null });
    electron.pressed = DISCARD;
    await call('setTitle', { title: 'x', unsaved: true });
    emitPreventable(window, 'close');
    await expect.poll(() => window.isGone).toBe(true);
    await services.recovery.setAside();
    expect(await services.recovery.listLeft()).toEqual([]);
  });
});

describe('the desktop session', () => {
  test('refuses every permission, download and address that is not the planner’s', () => {
    const set = new Map<string, (...args: unknown[]) => unknown>();
    const keep = (name: string) => (handler: (...args: unknown[]) => unknown) => void set.set(name, handler);
    lockDownSession({
      setPermissionRequestHandler: keep('request'),
      setPermissionCheckHandler: keep('check'),
      setDevicePermissionHandler: keep('device'),
      webRequest: { onBeforeRequest: keep('load') },
      on: (name: string, handler: (...args: unknown[]) => unknown) => keep(name)(handler),
    } as unknown as Session);
    const answers: unknown[] = [];
    set.get('request')?.({}, 'geolocation', (granted: boolean) => answers.push(granted));
    const load = (url: string) => set.get('load')?.({ url }, ({ cancel }: { cancel: boolean }) => answers.push(cancel));
    load('https://evil.example/x');
    load('file:///etc/passwd');
    load(`${PAGE_ADDRESS}assets/index.js`);
    expect(answers).toEqual([false, true, true, false]);
    expect([set.get('check')?.(), set.get('device')?.()]).toEqual([false, false]);
    let isStopped = false;
    const preventDefault = (): void => {
      isStopped = true;
    };
    set.get('will-download')?.({ preventDefault });
    expect(isStopped).toBe(true);
  });
});
