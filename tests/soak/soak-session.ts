// A long session in a real browser: 2,000 edits in every view with undo and redo, the heap measured before and after;
// nothing may be asked of any other host than our own. Part of npm run test:soak.
import { copyFileSync, mkdtempSync, rmSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { type CDPSession, chromium, type Page } from '@playwright/test';
import { startLocalHost } from '../../main/start/local-host';
import { findTestBrowser } from '../run/find-test-browser';
import { getCommandPath, ROOT, runNode } from '../run/run-program';
import { getTestBrowserFlags } from '../run/test-browser-flags';
import { getSamplePath } from '../unit/support/sample-plans';
import { report } from './report';
import { type Edit, VIEWS_OF_A_ROUND } from './session/edits';

const EDITS = Number(process.argv[2] ?? 2000);
const MOST_GROWTH_MB = 20;
const UNDO_EVERY = 4;

/** What is still in use once it holds still: work that the page does by the way ends first. */
async function measureHeapMb(session: CDPSession): Promise<number> {
  let before = Number.POSITIVE_INFINITY;
  for (let tries = 0; tries < 20; tries += 1) {
    // Twice: what the first collection finalises, the second takes.
    await session.send('HeapProfiler.collectGarbage');
    await session.send('HeapProfiler.collectGarbage');
    const { usedSize } = await session.send('Runtime.getHeapUsage');
    if (Math.abs(before - usedSize) < 50_000) return usedSize / 1e6;
    before = usedSize;
  }
  return before / 1e6;
}

/** Works through the views, so many edits in each; every fourth is taken back and done again. */
async function work(page: Page, edits: number): Promise<{ made: number; undone: number }> {
  const done = { made: 0, undone: 0 };
  for (let round = 0; done.made < edits; round += 1) {
    const { view, edits: ownEdits } = VIEWS_OF_A_ROUND[round % VIEWS_OF_A_ROUND.length] as (typeof VIEWS_OF_A_ROUND)[0];
    await page.getByRole('tab', { name: view, exact: true }).click();
    for (const edit of ownEdits) {
      if (done.made === edits) break;
      await makeEdit(page, edit, done.made);
      done.made += 1;
      if (done.made % UNDO_EVERY !== 0) continue;
      await undoAndRedo(page);
      done.undone += 1;
    }
  }
  return done;
}

/** The name of the button that takes the last step back, or does it again. */
async function readStep(page: Page, what: 'Undo' | 'Redo'): Promise<string> {
  return (await page.locator(`button[aria-label^="${what}"]`).getAttribute('aria-label')) ?? '';
}

/** Waits until the button names another step than it did. */
async function waitForStep(page: Page, what: 'Undo' | 'Redo', before: string): Promise<string> {
  await page.locator(`button[aria-label^="${what}"]:not([aria-label=${JSON.stringify(before)}])`).waitFor();
  return readStep(page, what);
}

/** Makes one edit and sees to it that it was one, by the step that undo then names. */
async function makeEdit(page: Page, edit: Edit, count: number): Promise<void> {
  const before = await readStep(page, 'Undo');
  await edit.make(page, count);
  const step = await waitForStep(page, 'Undo', before);
  if (!edit.step.test(step)) throw new Error(`Another step was made: ${step}`);
}

async function undoAndRedo(page: Page): Promise<void> {
  const [made, redo] = [await readStep(page, 'Undo'), await readStep(page, 'Redo')];
  // In a field the keys would take back the typing.
  await page.evaluate(() => (document.activeElement as HTMLElement | null)?.blur());
  await page.keyboard.press('Control+z');
  const undone = await waitForStep(page, 'Redo', redo);
  if (undone.replace('Redo', 'Undo') !== made) throw new Error(`Another step was undone: ${undone}`);
  await page.keyboard.press('Control+Shift+z');
  await waitForStep(page, 'Redo', undone);
  const redone = await readStep(page, 'Undo');
  if (redone !== made) throw new Error(`Another step was done again: ${redone}`);
}

async function runSession(browserPath: string): Promise<boolean> {
  const folder = mkdtempSync(join(tmpdir(), 'kerfgrip-soak-'));
  const plan = join(folder, 'hoist-arms.kgplan');
  copyFileSync(getSamplePath('hoist-arms'), plan);
  const args = ['--data-dir', join(folder, 'data'), '--plan', plan];
  const host = await startLocalHost(join(ROOT, 'build/main/local.js'), args, { ...process.env, HOME: folder });
  const browser = await chromium.launch({ executablePath: browserPath, args: getTestBrowserFlags() });
  try {
    const page = await browser.newPage({ viewport: { width: 1280, height: 800 }, locale: 'en-US' });
    const faults: string[] = [];
    const foreign = new Set<string>();
    const { origin } = new URL(host.address);
    page.on('pageerror', (error) => faults.push(error.message));
    page.on('request', (request) => {
      if (!/^(blob|data):/.test(request.url()) && new URL(request.url()).origin !== origin) foreign.add(request.url());
    });
    await page.goto(host.address);
    const session = await page.context().newCDPSession(page);
    // Every view once, so that what is loaded when first looked at counts before and after.
    await work(page, VIEWS_OF_A_ROUND.flatMap(({ edits }) => edits).length);
    const before = await measureHeapMb(session);
    const { made, undone } = await work(page, EDITS);
    const after = await measureHeapMb(session);
    const growth = after - before;
    report({
      check: 'Session in the browser',
      counts: {
        edits: made,
        'undone and redone': undone,
        'page faults': faults.length,
        'requests to other hosts': foreign.size,
      },
      most: { 'MB of heap before': round(before), after: round(after), [`more, of ${MOST_GROWTH_MB}`]: round(growth) },
    });
    for (const line of [...faults.slice(0, 5), ...[...foreign].slice(0, 5)]) console.log(line);
    return made === EDITS && growth < MOST_GROWTH_MB && faults.length === 0 && foreign.size === 0;
  } finally {
    await browser.close();
    await host.stop();
    rmSync(folder, { recursive: true, force: true });
  }
}

const round = (value: number): number => Math.round(value * 10) / 10;

const found = findTestBrowser();
if ('problem' in found) {
  console.error(found.problem);
  process.exitCode = 1;
} else {
  const built = runNode([getCommandPath('vite', 'bin/vite.js'), 'build', '--app', '--logLevel', 'warn']);
  process.exitCode = built === 0 && (await runSession(found.browser)) ? 0 : 1;
}
