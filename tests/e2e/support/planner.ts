import { copyFileSync, existsSync, mkdirSync, mkdtempSync, rmSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { basename, join } from 'node:path';
import { test as base, expect, type Locator, type Page } from '@playwright/test';
import { type LocalHost, startLocalHost } from '../../../main/start/local-host';
import { ROOT } from '../../run/run-program';
import type { ViewName } from './views';

/** A planner of its own for each test: its own host, home folder and data folder. */
export interface Planner {
  readonly home: string;
  readonly dataFolder: string;
  /** Starts the host, with a plan or with none, and opens the page. A plan from elsewhere is first copied into the home folder. */
  open(plan?: string): Promise<Page>;
  /** Ends the host as a crash would, without a word to the page. */
  crash(): void;
  close(): Promise<void>;
}

interface Fixtures {
  planner: Planner;
  /** Console errors, page faults and requests to other hosts, as text; the test fails at its end when there are any. */
  faults: string[];
}

const HOST = join(ROOT, 'build/main/local.js');

export const test = base.extend<Fixtures>({
  // biome-ignore lint/correctness/noEmptyPattern: Playwright tells fixtures by the names in this pattern
  faults: async ({}, use) => {
    const faults: string[] = [];
    await use(faults);
    expect(faults).toEqual([]);
  },
  planner: async ({ page, faults }, use) => {
    const folder = mkdtempSync(join(tmpdir(), 'kerfgrip-e2e-'));
    const home = join(folder, 'home');
    const dataFolder = join(folder, 'data');
    mkdirSync(home);
    let host: LocalHost | null = null;
    page.on('pageerror', (error) => faults.push(error.message));
    page.on('request', (request) => {
      const { protocol, hostname } = new URL(request.url());
      const isOwn = hostname === '127.0.0.1' || protocol === 'blob:' || protocol === 'data:';
      if (!isOwn) faults.push(`Asked of another host: ${request.url()}`);
    });
    page.on('console', (message) => {
      // A page whose host was ended says on the console that it is gone.
      if (message.type() === 'error' && host !== null) faults.push(message.text());
    });
    const close = async (): Promise<void> => {
      const ending = host;
      host = null;
      await ending?.stop();
    };
    // Tests save over what they opened, which must not be the sample that comes with the program.
    const bringHome = (plan: string): string => {
      const path = join(home, basename(plan));
      if (!existsSync(path)) copyFileSync(plan, path);
      return path;
    };
    await use({
      home,
      dataFolder,
      async open(plan) {
        await close();
        const opened = plan === undefined ? [] : ['--plan', bringHome(plan)];
        const args = ['--data-dir', dataFolder, '--stay-open', ...opened];
        host = await startLocalHost(HOST, args, { ...process.env, HOME: home, USERPROFILE: home });
        await page.goto(host.address);
        // By a class of the page that can be worked with: under a question asked at once, nothing else has a role.
        await expect(page.locator('.strip-unit')).toBeVisible();
        return page;
      },
      crash() {
        host?.process.kill('SIGKILL');
        host = null;
      },
      close,
    });
    await close();
    rmSync(folder, { recursive: true, force: true });
  },
});

export { expect };

/** A sample plan that comes with the program. */
export function getSample(name: 'hoist-arms' | 'keeper-links'): string {
  return join(ROOT, 'assets/samples', `${name}.kgplan`);
}

/** The value of a decision figure in its stored unit (mm, N …); null where it shows a dash. */
export async function readFigure(page: Page, key: string): Promise<number | null> {
  const value = await page.locator(`[data-figure="${key}"]`).getAttribute('data-value');
  return value === null || value === '' ? null : Number(value);
}

/** Changes to one of the views in the top bar. */
export async function showView(page: Page, name: ViewName): Promise<void> {
  await page.getByRole('tab', { name, exact: true }).click();
  await expect(page.getByRole('tabpanel', { name, exact: true })).toBeVisible();
}

/** Types into a field as a person does and leaves it. */
export async function typeInto(page: Page, label: string | RegExp, text: string): Promise<void> {
  const field = page.getByLabel(label, { exact: true });
  await field.click();
  await field.fill(text);
  await field.press('Enter');
}

/** Opens every page in this theme, whatever the system has. */
export async function useTheme(page: Page, theme: 'light' | 'dark'): Promise<void> {
  await page.addInitScript((chosen) => localStorage.setItem('kerfgrip.view', JSON.stringify({ theme: chosen })), theme);
}

/** Chooses an entry of the main menu, by its label. */
export async function chooseInMenu(page: Page, ...labels: (string | RegExp)[]): Promise<void> {
  await page.getByRole('button', { name: 'Menu', exact: true }).click();
  for (const label of labels) {
    const isExact = typeof label === 'string';
    await page.getByRole('menuitem', { name: label, exact: isExact }).click();
  }
}

/** The messages that are shown just now. */
export function messages(page: Page): Locator {
  return page.getByRole('log', { name: 'Messages' }).locator('.notice');
}

/** The cards of the findings panel, of one severity. The Bench must be shown. */
export function findings(page: Page, severity: 'stop' | 'check' | 'note'): Locator {
  return page.getByRole('complementary', { name: 'Findings' }).locator(`.finding.is-${severity}`);
}

/** Opens a section of the setup panel. The Bench must be shown. */
export async function openSetup(
  page: Page,
  title: 'Bar' | 'Holding' | 'Cut-off' | 'Cuts' | 'Allowance',
): Promise<void> {
  const trigger = page
    .getByRole('complementary', { name: 'Setup' })
    .getByRole('heading')
    .getByRole('button', {
      name: new RegExp(`^${title}`),
    });
  if ((await trigger.getAttribute('aria-expanded')) !== 'true') await trigger.click();
}

/** Chooses from a list field. */
export async function chooseOption(page: Page, field: string, option: string | RegExp): Promise<void> {
  await page.getByRole('button', { name: new RegExp(`${field}$`) }).click();
  await page.getByRole('option', { name: option }).click();
}

/** Opens files through the planner's own dialog, folder by folder from the one that it shows. */
export async function openFromDialog(page: Page, ...names: string[]): Promise<void> {
  await chooseInMenu(page, 'Open…');
  const dialog = page.getByRole('dialog', { name: 'Open a plan' });
  for (const name of names) await dialog.getByRole('row', { name, exact: true }).dblclick();
  await expect(dialog).toHaveCount(0);
}

/** Saves what the save dialog asks for under this name. */
export async function saveInDialog(page: Page, name: string): Promise<void> {
  const dialog = page.getByRole('dialog', { name: /^Save/ });
  await dialog.getByRole('textbox', { name: 'File name' }).fill(name);
  await dialog.getByRole('button', { name: 'Save', exact: true }).click();
  await expect(dialog).toHaveCount(0);
}
