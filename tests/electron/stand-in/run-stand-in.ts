// Starts the program as users get it, the very files that are packed, in plain Node with a stand-in for Electron, and
// uses it through its preload script as its page would.
//
//   node --import tsx tests/electron/stand-in/run-stand-in.ts FOLDER
//
// FOLDER holds build/main/desktop.cjs, build/renderer and assets: the project's own, or an unpacked archive. One line
// for each test goes out; the exit code is the number of tests that failed.
import { strict as assert } from 'node:assert';
import { existsSync, mkdirSync, mkdtempSync, readdirSync, readFileSync, rmSync, writeFileSync } from 'node:fs';
import Module, { createRequire } from 'node:module';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { pathToFileURL } from 'node:url';
import type { MenuItemConstructorOptions } from 'electron';
import type { DesktopBridge } from '../../../shared/contract/desktop';
import type { HostCalls, HostVerb, StartInfo } from '../../../shared/contract/host';
import { SAMPLES } from '../../../shared/model/catalogue/samples';
import { serializePlan } from '../../../shared/model/serialize';
import { ROOT } from '../../run/run-program';
import { waitUntil } from '../wait-until';
import * as electron from './electron';
import { app, type BrowserWindow, load, standIn } from './electron';

const [program = ''] = process.argv.slice(2);
const PAGE = 'kerfgrip://planner/';
const nodeRequire = createRequire(import.meta.url);
const folder = mkdtempSync(join(tmpdir(), 'kerfgrip-stand-in-'));
const plans = join(folder, 'plans');
const firstPlan = join(plans, 'first & only.kgplan');
const asked: { actions: string[]; opens: string[] } = { actions: [], opens: [] };

interface StandInTest {
  title: string;
  run: () => Promise<void>;
}

const tests: StandInTest[] = [];
const add = (title: string, run: StandInTest['run']): void => {
  tests.push({ title, run });
};

const getWindow = (): BrowserWindow => {
  const [window] = standIn.windows;
  assert.ok(window !== undefined, 'there is no window');
  return window;
};

const getBridge = (): DesktopBridge => getWindow().bridge as unknown as DesktopBridge;

/** What a call of the page is answered with. @throws Error with the problem's sentence */
async function call<V extends HostVerb>(verb: V, request: HostCalls[V]['request']): Promise<HostCalls[V]['reply']> {
  const reply = await getBridge().call(verb, request);
  if (!reply.ok) throw new Error(`${verb}: ${reply.problem.sentence}`);
  return reply.value;
}

const listItems = (): MenuItemConstructorOptions[] =>
  standIn.menu.flatMap(({ submenu }) => (Array.isArray(submenu) ? submenu : []));

/** Chooses an item of the menu. What it does makes no use of what Electron would tell it. */
function choose(item: MenuItemConstructorOptions | undefined): void {
  assert.ok(item?.click !== undefined);
  (item.click as () => void)();
}

let start: StartInfo;

/** Runs the main process's program from its beginning. */
function runMain(): void {
  const file = join(program, 'build/main/desktop.cjs');
  delete nodeRequire.cache[file];
  nodeRequire(file);
}

add('its main process starts, in the order that Electron asks for', async () => {
  runMain();
  assert.equal(
    standIn.isReady,
    false,
    'the program waited for something before it had asked to be told when it is ready',
  );
  // While the window is being opened the system asks for another plan.
  await new Promise((resolve) => setImmediate(resolve));
  assert.deepEqual([standIn.isReady, standIn.windows.length], [true, 0]);
  app.emit('open-file', { preventDefault: () => undefined }, join(plans, 'second.kgplan'));
  await waitUntil('the window is shown', () => standIn.windows[0]?.isShown === true);
  assert.equal(standIn.isSandboxed, true);
  assert.deepEqual(standIn.schemes, ['kerfgrip']);
  assert.equal(standIn.windows.length, 1);
  assert.equal(standIn.paths.get('userData'), join(folder, 'data', 'window'));
  const { sandbox, contextIsolation, nodeIntegration } = getWindow().options.webPreferences ?? {};
  assert.deepEqual(
    { sandbox, contextIsolation, nodeIntegration },
    { sandbox: true, contextIsolation: true, nodeIntegration: false },
  );
  assert.ok(existsSync(String(getWindow().options.icon)));
  assert.match(String(standIn.aboutPanel.credits), /estimate[\s\S]*Licences of all that comes with it: .*licences/i);
});

add('its preload script runs without Node and gives the page three functions', async () => {
  assert.deepEqual(Object.keys(getBridge()).sort(), ['call', 'onAction', 'onOpen']);
  getBridge().onAction((id) => asked.actions.push(id));
  getBridge().onOpen((token) => asked.opens.push(token));
});

add('every file of the page is served, with the content policy, and nothing else is', async () => {
  const index = (await (await load(PAGE))?.text()) ?? '';
  const assets = readdirSync(join(program, 'build/renderer/assets')).filter((name) => !name.endsWith('.map'));
  for (const [, file = ''] of index.matchAll(/(?:src|href)="\.\/assets\/([^"]+)"/g))
    assert.ok(assets.includes(file), file);
  // Files name each other without their folder: chunks, workers, fonts.
  const texts = assets
    .filter((name) => /\.(js|css)$/.test(name))
    .map((name) => readFileSync(join(program, 'build/renderer/assets', name), 'utf8'));
  const named = new Set(texts.flatMap((text) => text.match(/[\w-]+-[\w-]{8}\.(?:js|css|ttf)\b/g) ?? []));
  assert.ok(named.size > 3);
  for (const file of [...named, ...assets]) {
    const answer = await load(`${PAGE}assets/${file}`);
    assert.equal(answer?.status, 200, file);
    assert.match(answer.headers.get('content-security-policy') ?? '', /^default-src 'none'/);
    assert.match(answer.headers.get('content-type') ?? '', /javascript|css|font/, file);
  }
  assert.equal((await load(`${PAGE}../main/desktop.cjs`))?.status, 404);
  assert.equal(await load('https://example.com/'), null);
  assert.equal(await load('file:///etc/passwd'), null);
});

add('the page starts with the plan that the command line names as an address', async () => {
  start = await call('start', {});
  assert.equal(start.hostKind, 'electron');
  assert.equal(start.opened.file?.name, 'first & only.kgplan');
  assert.equal(start.opened.plan.name, SAMPLES['hoist-arms']().name);
  assert.equal(start.samples.length, Object.keys(SAMPLES).length);
});

add('a sheet is written as PDF with its fonts, from within the bundle', async () => {
  const { plan } = start.opened;
  const path = join(folder, 'sheet.pdf');
  standIn.answers.push(path);
  const order = { shop: start.shop, measuredSquare: null, workings: true, fileName: '', suggestedName: 'sheet.pdf' };
  const written = await call('exportSheet', { ...order, plan: { ...plan, name: '試験' }, format: 'pdf', target: null });
  assert.equal(written?.name, 'sheet.pdf');
  const pdf = readFileSync(path, 'latin1');
  assert.match(pdf, /^%PDF-1\.7/);
  assert.match(pdf, /\/FontName \/[A-Z]{6}\+IBMPlexSans/);
  assert.match(pdf, /\/FontName \/[A-Z]{6}\+DroidSansFallback/);
});

add('drawings and lists are read in the thread beside the bundle', async () => {
  const file = join(folder, 'outline.svg');
  writeFileSync(
    file,
    '<svg xmlns="http://www.w3.org/2000/svg" width="20mm" height="10mm" viewBox="0 0 20 10"><path d="M0 0H20V10H0Z"/></svg>',
  );
  standIn.answers.push(file);
  const outline = await call('readOutline', { token: null });
  assert.equal(outline?.name, 'outline.svg');
  const drawing = join(
    ROOT,
    'tests/data/outlines/files',
    readdirSync(join(ROOT, 'tests/data/outlines/files')).find((name) => name.endsWith('.dxf')) ?? '',
  );
  standIn.answers.push(drawing);
  assert.ok((await call('readOutline', { token: null })) !== null);
  writeFileSync(join(folder, 'list.csv'), 'length;count\n10,5;3\n');
  standIn.answers.push(join(folder, 'list.csv'));
  const list = await call('readTable', { token: null, delimiter: null });
  assert.equal(list?.table.delimiter, ';');
});

add('what is not in the contract is refused', async () => {
  const reply = await getBridge().call('readAnyFile' as HostVerb, {} as never);
  assert.equal(reply.ok, false);
});

add('each item of the menu is a role, a list or an action that the page is asked for', async () => {
  const items = listItems();
  assert.ok(items.length > 20);
  asked.actions.length = 0;
  const expected = items.flatMap(({ id }) => id ?? []);
  for (const item of items.filter(({ id }) => id !== undefined)) choose(item);
  assert.deepEqual(asked.actions, expected);
  const recent = items.find(({ label }) => label === 'Open &recent')?.submenu;
  assert.ok(Array.isArray(recent) && recent[0]?.label === `first && only.kgplan (${plans})`);
  choose(recent[0]);
  const opened = await call('openPlan', { token: asked.opens.at(-1) ?? null });
  assert.equal(opened?.file?.name, 'first & only.kgplan');
  assert.deepEqual(standIn.recentDocuments.at(-1), firstPlan);
});

add('a plan that was asked for before the page listens waits for it', async () => {
  const opened = await call('openPlan', { token: asked.opens[0] ?? null });
  assert.equal(opened?.file?.name, 'second.kgplan');
});

add('a second start hands over its plan, and so does the event of macOS', async () => {
  const window = getWindow();
  for (const [name, args] of [
    ['second-instance', [{}, ['/opt/Kerfgrip/kerfgrip', '--no-sandbox', 'second.kgplan'], plans]],
    ['open-file', [{ preventDefault: () => undefined }, join(plans, 'second.kgplan')]],
  ] as const) {
    app.emit(name, ...args);
    const opened = await call('openPlan', { token: asked.opens.at(-1) ?? null });
    assert.equal(opened?.plan.name, SAMPLES['keeper-links']().name, name);
  }
  assert.equal(window.focused, 1);
});

add('a plan is saved where the dialog says, and its name is the title', async () => {
  const path = join(plans, 'saved.kgplan');
  standIn.answers.push(path);
  const { plan } = start.opened;
  const file = await call('savePlanAs', { plan, suggestedName: 'x', target: null });
  assert.equal(file?.name, 'saved.kgplan');
  assert.equal(JSON.parse(readFileSync(path, 'utf8')).name, plan.name);
  await call('setTitle', { title: 'saved.kgplan', unsaved: false });
  assert.equal(getWindow().title, 'saved.kgplan — Kerfgrip');
});

add('the about box tells the cautions', async () => {
  standIn.answers.push(0);
  choose(listItems().find(({ label }) => label === 'About &Kerfgrip'));
  assert.equal(standIn.dialogs.at(-1), 'Kerfgrip');
});

add('quitting with unsaved work asks, and stays when told to', async () => {
  await call('setTitle', { title: 'saved.kgplan', unsaved: true });
  standIn.answers.push(2);
  app.quit();
  await waitUntil('it has asked', () => standIn.dialogs.at(-1) === 'Save the changes to this plan?');
  assert.deepEqual([getWindow().isGone, standIn.hasEnded], [false, false]);
});

add('saving on the way out ends the program once the plan is on file, with its notes taken away', async () => {
  standIn.answers.push(0);
  const before = asked.actions.length;
  app.quit();
  await waitUntil(
    'the page is asked to save',
    () => asked.actions.length > before && asked.actions.at(-1) === 'file.save',
  );
  const opened = await call('openPlan', { token: (await call('recents', {}))[0]?.token ?? null });
  assert.ok(opened?.file != null);
  const changed = { ...opened.plan, notes: 'changed' };
  await call('savePlan', { plan: changed, file: opened.file, overwriteChanged: false });
  await call('setTitle', { title: 'saved.kgplan', unsaved: false });
  await waitUntil('the program has ended', () => standIn.hasEnded);
  assert.deepEqual([getWindow().isGone, standIn.exitCode], [true, undefined]);
  assert.equal(standIn.handlers.size, 0);
  assert.deepEqual(
    readdirSync(plans).filter((name) => !/^[^.].*\.kgplan$/.test(name)),
    [],
  );
});

/** Starts the program once more, as while another one runs. */
async function startRefused(): Promise<void> {
  standIn.hasLock = false;
  standIn.hasEnded = false;
  standIn.isReady = false;
  const before = standIn.windows.length;
  runMain();
  assert.equal(standIn.hasEnded, true);
  assert.equal(standIn.windows.length, before);
}
add('a second start while the first runs ends at once, without a window', startRefused);

/** Leads whoever asks for `electron` to what stands in for it. */
function takeStandIn(): void {
  const loader = Module as unknown as { _load: (name: string, ...rest: unknown[]) => unknown };
  const loadModule = loader._load;
  loader._load = (name, ...rest) => (name === 'electron' ? electron : loadModule(name, ...rest));
}

async function runAll(): Promise<number> {
  mkdirSync(plans);
  writeFileSync(firstPlan, serializePlan(SAMPLES['hoist-arms']()));
  writeFileSync(join(plans, 'second.kgplan'), serializePlan(SAMPLES['keeper-links']()));
  process.env.KERFGRIP_DATA = join(folder, 'data');
  process.argv = ['/opt/Kerfgrip/kerfgrip', '--no-zygote', pathToFileURL(firstPlan).href];
  Object.assign(process, { resourcesPath: '/opt/Kerfgrip/resources' });
  takeStandIn();
  let failed = 0;
  for (const { title, run } of tests) {
    try {
      await run();
      console.log(`ok    ${title}`);
    } catch (error) {
      failed += 1;
      console.log(`FAIL  ${title}\n      ${error instanceof Error ? (error.stack ?? error.message) : String(error)}`);
    }
  }
  return failed;
}

try {
  process.exitCode = await runAll();
} finally {
  rmSync(folder, { recursive: true, force: true });
}
