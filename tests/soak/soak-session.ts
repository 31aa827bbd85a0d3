// A long session in a real browser: 2,000 edits with undo and redo, the heap measured before and after; nothing may be
// asked of any other host than our own. Part of npm run test:soak.
import { copyFileSync, mkdtempSync, rmSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { type CDPSession, chromium, type Page } from '@playwright/test';
import { startLocalHost } from '../../main/start/local-host';
import { findTestBrowser } from '../run/find-test-browser';
import { getCommandPath, ROOT, runNode } from '../run/run-program';
import { getTestBrowserFlags } from '../run/test-browser-flags';

const EDITS = Number(process.argv[2] ?? 2000);
const MOST_GROWTH_MB = 20;
const UNDO_EVERY = 4;

async function measureHeapMb(session: CDPSession): Promise<number> {
  // Twice: what the first collection finalises, the second takes.
  await session.send('HeapProfiler.collectGarbage');
  await session.send('HeapProfiler.collectGarbage');
  const { usedSize } = await session.send('Runtime.getHeapUsage');
  return usedSize / 1e6;
}

/** Every second edit is typed, the others switch the units; every fourth is taken back and done again. */
async function work(page: Page, edits: number, from: number): Promise<void> {
  const field = page.getByLabel('Length of Pawl arm', { exact: true });
  for (let edit = from; edit < from + edits; edit += 1) {
    if (edit % 2 === 0) {
      await field.fill(`${180 + (edit % 97) / 10} mm`);
      await field.press('Enter');
    } else {
      await page.keyboard.press('Alt+u');
    }
    if (edit % UNDO_EVERY === 0) {
      await page.getByRole('heading', { level: 1 }).click();
      await page.keyboard.press('Control+z');
      await page.keyboard.press('Control+Shift+z');
    }
  }
}

async function runSession(browserPath: string): Promise<boolean> {
  const folder = mkdtempSync(join(tmpdir(), 'kerfgrip-soak-'));
  const plan = join(folder, 'hoist-arms.kgplan');
  copyFileSync(join(ROOT, 'assets/samples/hoist-arms.kgplan'), plan);
  const args = ['--data-dir', join(folder, 'data'), '--plan', plan];
  const host = await startLocalHost(join(ROOT, 'build/main/local.js'), args, { ...process.env, HOME: folder });
  const browser = await chromium.launch({ executablePath: browserPath, args: getTestBrowserFlags() });
  try {
    const page = await browser.newPage({ viewport: { width: 1440, height: 900 } });
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
    for (const name of ['Order', 'Sheet', 'Shop', 'Bench', 'Parts']) {
      await page.getByRole('tab', { name, exact: true }).click();
      await page.waitForTimeout(1000);
    }
    await work(page, 20, 0);
    await page.waitForTimeout(2000);
    const before = await measureHeapMb(session);
    await work(page, EDITS, 20);
    await page.waitForTimeout(2000);
    const after = await measureHeapMb(session);
    console.log(
      `Session: ${EDITS} edits, ${Math.floor(EDITS / UNDO_EVERY)} undone and redone; heap ${before.toFixed(1)} MB before, ${after.toFixed(1)} MB after (limit ${MOST_GROWTH_MB} MB more); ${faults.length} page faults; ${foreign.size} requests to other hosts.`,
    );
    for (const line of [...faults.slice(0, 5), ...[...foreign].slice(0, 5)]) console.log(line);
    return after - before < MOST_GROWTH_MB && faults.length === 0 && foreign.size === 0;
  } finally {
    await browser.close();
    await host.stop();
    rmSync(folder, { recursive: true, force: true });
  }
}

const found = findTestBrowser();
if ('problem' in found) {
  console.error(found.problem);
  process.exitCode = 1;
} else {
  const built = runNode([getCommandPath('vite', 'bin/vite.js'), 'build', '--app', '--logLevel', 'warn']);
  process.exitCode = built === 0 && (await runSession(found.browser)) ? 0 : 1;
}
