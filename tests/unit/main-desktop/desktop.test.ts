import { mkdirSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import type { MenuItemConstructorOptions } from 'electron';
import { describe, expect, test } from 'vitest';
import { getAboutText } from '../../../main/desktop/about-text';
import { type CloseAnswer, createCloseGuard } from '../../../main/desktop/close-guard';
import { buildMenuTemplate } from '../../../main/desktop/menu-template';
import { answerPageRequest, getIsOwnAddress, getMayLoad, PAGE_ADDRESS } from '../../../main/desktop/page-address';
import { findPlanArgument } from '../../../main/desktop/plan-argument';
import { readWindowPlace, writeWindowPlace } from '../../../main/desktop/window-place';
import { APP_ACTIONS } from '../../../renderer/state/app-actions';
import { CAUTIONS } from '../../../shared/findings/cautions';
import { makeTempFolder } from '../services/temp-folder';

function getItems(template: readonly MenuItemConstructorOptions[]): MenuItemConstructorOptions[] {
  return template.flatMap((item) => [item, ...(Array.isArray(item.submenu) ? getItems(item.submenu) : [])]);
}

describe('the menu', () => {
  const build = (platform: NodeJS.Platform, ran: string[] = []) =>
    getItems(
      buildMenuTemplate({
        platform,
        isPackaged: true,
        recents: [{ name: 'a & b.kgplan', folder: '/plans', path: '/plans/a & b.kgplan' }],
        run: (id) => ran.push(id),
        openRecent: (path) => ran.push(path),
        showAbout: () => ran.push('about'),
      }),
    );

  test('offers actions that the page knows, with the shortcuts that the page has for them', () => {
    const items = build('linux').filter(({ id }) => id !== undefined);
    expect(items.length).toBeGreaterThan(12);
    for (const { id, accelerator } of items) {
      const action = APP_ACTIONS.find((candidate) => candidate.id === id);
      expect(action, id).toBeDefined();
      const shortcuts = action?.shortcuts?.map((keys) => keys.replace('Mod', 'CmdOrCtrl')) ?? [undefined];
      expect(shortcuts, id).toContain(accelerator);
    }
  });

  test('has an about box, which tells the cautions and the versions', () => {
    const ran: string[] = [];
    const about = build('linux', ran).find(({ label }) => label === 'About &Kerfgrip');
    (about?.click as (() => void) | undefined)?.();
    expect(ran).toEqual(['about']);
    const text = getAboutText('1.2.3', { electron: '45.0.0', chrome: '160.0.0.0', node: '24.1.0' }, '/opt/licences');
    expect(text).toContain('Version 1.2.3. Electron 45.0.0, Chromium 160.0.0.0, Node.js 24.1.0.');
    for (const caution of CAUTIONS) expect(text).toContain(caution);
    expect(text).toContain('/opt/licences');
  });

  test('has no two items on one key', () => {
    const keys = build('linux').flatMap(({ accelerator }) => accelerator ?? []);
    expect(new Set(keys).size).toBe(keys.length);
  });

  test('runs the action that is chosen, and opens a recent plan by its path', () => {
    const ran: string[] = [];
    const items = build('linux', ran);
    const click = (item: MenuItemConstructorOptions | undefined): void => (item?.click as (() => void) | undefined)?.();
    click(items.find(({ id }) => id === 'file.save'));
    const recent = items.find(({ label }) => label?.includes('/plans'));
    expect(recent?.label).toBe('a && b.kgplan (/plans)');
    click(recent);
    expect(ran).toEqual(['file.save', '/plans/a & b.kgplan']);
  });

  test('has the platform’s own roles, and no tools for developers in a packaged program', () => {
    const roles = (platform: NodeJS.Platform) => build(platform).flatMap(({ role }) => role ?? []);
    expect(roles('darwin')).toContain('appMenu');
    expect(roles('linux')).toContain('quit');
    expect(roles('win32')).not.toContain('toggleDevTools');
  });
});

describe('the page’s address', () => {
  test.each([
    [PAGE_ADDRESS, true],
    [`${PAGE_ADDRESS}index.html`, true],
    [`${PAGE_ADDRESS}#order`, true],
    ['kerfgrip://planner.evil.example/', false],
    ['kerfgrip://other/', false],
    ['https://evil.example/', false],
    ['file:///etc/passwd', false],
    ['', false],
  ])('%s is our page: %s', (address, own) => {
    expect(getIsOwnAddress(address)).toBe(own);
  });

  test('nothing is loaded but its own files and what it makes itself', () => {
    const loaded = [`${PAGE_ADDRESS}assets/index.js`, 'blob:kerfgrip://planner/1', 'data:image/png;base64,'].map(
      getMayLoad,
    );
    const refused = ['https://evil.example/', 'file:///etc/passwd', 'ws://evil.example', 'kerfgrip://other/x.js'].map(
      getMayLoad,
    );
    expect([...loaded, ...refused]).toEqual([true, true, true, false, false, false, false]);
  });

  test('gives the page’s files with its content policy, and nothing beside them', async () => {
    const folder = await makeTempFolder();
    mkdirSync(join(folder, 'page'));
    writeFileSync(join(folder, 'page', 'index.html'), 'planner');
    writeFileSync(join(folder, 'secret.js'), 'secret');
    const ask = (address: string) => answerPageRequest(join(folder, 'page'), address);
    const page = await ask(PAGE_ADDRESS);
    expect(await page.text()).toBe('planner');
    expect(page.headers.get('content-security-policy')).toMatch(/^default-src 'none'/);
    expect(page.headers.get('content-type')).toBe('text/html; charset=utf-8');
    for (const path of ['../secret.js', '%2e%2e/secret.js', '..%2fsecret.js', 'gone.js']) {
      expect((await ask(`${PAGE_ADDRESS}${path}`)).status, path).toBe(404);
    }
    expect((await ask('kerfgrip://other/index.html')).status).toBe(404);
  });
});

describe('the plan on the command line', () => {
  test.each<[string, string[], string | undefined]>([
    ['packaged', ['/opt/kerfgrip', '/plans/hoist.kgplan'], '/plans/hoist.kgplan'],
    ['relative', ['/opt/kerfgrip', 'hoist.kgplan'], '/here/hoist.kgplan'],
    [
      'with switches of the system',
      ['/opt/kerfgrip', '--no-sandbox', '/app', '/plans/a b.kgplan', '--flag'],
      '/plans/a b.kgplan',
    ],
    ['as an address', ['/opt/kerfgrip', 'file:///plans/hoist%20%26%20arms.kgplan'], '/plans/hoist & arms.kgplan'],
    ['as an address of another machine', ['/opt/kerfgrip', 'file://elsewhere/hoist.kgplan'], undefined],
    ['not packaged, none', ['/electron', '/app'], undefined],
    ['none', ['/opt/kerfgrip'], undefined],
  ])('%s', (_, argv, expected) => {
    expect(findPlanArgument(argv, '/here', '/app')).toBe(expected);
  });
});

describe('the window’s place', () => {
  const display = { x: 0, y: 0, width: 1920, height: 1080 };
  const place = { bounds: { x: 100, y: 50, width: 1200, height: 800 }, isMaximized: true };

  test('is kept and found again', async () => {
    const file = join(await makeTempFolder(), 'data', 'window.json');
    await writeWindowPlace(file, place);
    expect(await readWindowPlace(file, [display])).toEqual(place);
  });

  test.each<[string, unknown]>([
    ['off every display', { ...place, bounds: { ...place.bounds, x: 3000 } }],
    ['with its title above the display', { ...place, bounds: { ...place.bounds, y: -200 } }],
    ['too small to use', { ...place, bounds: { ...place.bounds, width: 10 } }],
    ['not numbers', { ...place, bounds: { ...place.bounds, width: '1e9' } }],
    ['junk', 'junk'],
  ])('is forgotten when it is %s', async (_, content) => {
    const file = join(await makeTempFolder(), 'window.json');
    writeFileSync(file, JSON.stringify(content));
    expect(await readWindowPlace(file, [display])).toBeNull();
  });
});

describe('closing with work that is not on file', () => {
  const makeGuard = (answer: CloseAnswer) => {
    const log: string[] = [];
    const guard = createCloseGuard({
      ask: async () => {
        log.push('ask');
        return answer;
      },
      save: () => log.push('save'),
      discard: async () => void log.push('discard'),
      close: () => log.push('close'),
    });
    return { guard, log };
  };
  const settle = () => new Promise((resolve) => setTimeout(resolve, 0));

  test('closes at once when there is none', () => {
    const { guard, log } = makeGuard('stay');
    guard.setUnsaved(true);
    guard.setUnsaved(false);
    expect(guard.handleClose()).toBe(true);
    expect(log).toEqual([]);
  });

  test('asks once however often the window is closed, and stays when told to', async () => {
    const { guard, log } = makeGuard('stay');
    guard.setUnsaved(true);
    expect([guard.handleClose(), guard.handleClose()]).toEqual([false, false]);
    await settle();
    expect(log).toEqual(['ask']);
  });

  test('saves and closes only once the work is on file', async () => {
    const { guard, log } = makeGuard('save');
    guard.setUnsaved(true);
    guard.handleClose();
    await settle();
    expect(log).toEqual(['ask', 'save']);
    guard.setUnsaved(false);
    expect(log).toEqual(['ask', 'save', 'close']);
  });

  test('stays open when the save came to nothing, also after a later save', async () => {
    const { guard, log } = makeGuard('save');
    guard.setUnsaved(true);
    guard.handleClose();
    await settle();
    guard.handleSaveFailed();
    guard.setUnsaved(false);
    expect(log).toEqual(['ask', 'save']);
  });

  test('drops the journal of work that is given up, then closes', async () => {
    const { guard, log } = makeGuard('discard');
    guard.setUnsaved(true);
    guard.handleClose();
    await settle();
    expect(log).toEqual(['ask', 'discard', 'close']);
  });
});
