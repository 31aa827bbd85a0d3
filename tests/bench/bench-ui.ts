// Frames while things are dragged on the Bench, and the time to its first drawn canvas, in a real browser. Each figure
// stands beside a baseline of the same run: a bare Konva page that moves as many shapes, and a blank React page.
import { mkdirSync, mkdtempSync, rmSync, writeFileSync } from 'node:fs';
import { availableParallelism, loadavg, tmpdir } from 'node:os';
import { join } from 'node:path';
import { type Browser, chromium, type Page } from '@playwright/test';
import react from '@vitejs/plugin-react';
import { build } from 'vite';
import { createHost } from '../../main/services/host-calls';
import { NO_DIALOGS } from '../../main/services/host-dialogs';
import { createServices } from '../../main/services/services';
import { type LocalHost, startLocalHost } from '../../main/start/local-host';
import { buildBenchView, getSetting } from '../../renderer/bench/bench-model';
import { PANES } from '../../renderer/bench/panes';
import { getSectionX } from '../../shared/drawing/views/end-section';
import { evaluate } from '../../shared/evaluate';
import type { Plan } from '../../shared/model/plan';
import type { Shop } from '../../shared/model/shop';
import { findTestBrowser } from '../run/find-test-browser';
import { getCommandPath, ROOT, runNode } from '../run/run-program';
import { getTestBrowserFlags } from '../run/test-browser-flags';
import { buildBenchPlan } from './evaluate-plan';
import { DRAGS, measureBenchDrag, REACH } from './ui/drags';
import { buildLargePlan } from './ui/large-plan';
import { FIRST_DRAWN, getMedian, getShare, measureDrag } from './ui/measures';
import { type PageServer, servePage } from './ui/page-server';
import type { Frames } from './ui/trace';

const SIZE = { width: 1440, height: 900 };
const DRAG_MS = 3000;
const STARTS = 7;

interface Case {
  readonly name: string;
  readonly plan: Plan;
  readonly shop: Shop;
}

const CASES: readonly Case[] = [
  { name: '40 parts, 6 vises, 60 bars on offer', ...buildBenchPlan() },
  {
    name: '200 parts on 60 blanks, 12 vises',
    ...buildLargePlan({ pieces: 200, kinds: 200, blanks: 60, vises: 12 }),
  },
  {
    name: '1,000 pieces of 200 parts on 300 blanks, 12 vises',
    ...buildLargePlan({ pieces: 1000, kinds: 200, blanks: 300, vises: 12 }),
  },
];

/** Marks that the Bench draws of a plan in its four views. */
function countMarks({ plan, shop }: Case): number {
  const evaluation = evaluate(plan, shop);
  const blankIndex = evaluation.governingBlank;
  const subject = { plan, shop, evaluation, blankIndex, sectionX: getSectionX(plan, evaluation, shop, blankIndex) };
  if (getSetting(subject) === null) throw new Error('the plan has nothing to draw');
  const look = { base: 'bed', planDimensions: false } as const;
  return PANES.reduce((sum, pane) => sum + buildBenchView(pane, subject, look, 1.5).marks.length, 0);
}

async function buildPage(name: string): Promise<string> {
  const outDir = join(ROOT, 'build/bench', name);
  await build({
    configFile: false,
    root: join(ROOT, 'tests/bench/pages', name),
    base: './',
    publicDir: false,
    logLevel: 'warn',
    plugins: [react()],
    build: { outDir, emptyOutDir: true, target: 'es2023' },
  });
  return outDir;
}

const PLANNER = join(ROOT, 'build/renderer');

/** The planner with a large plan, its shop on file as a user would have it. */
async function serveCase(folder: string, { name, plan, shop }: Case): Promise<PageServer> {
  const own = join(folder, name);
  mkdirSync(own);
  const path = join(own, 'bench.kgplan');
  writeFileSync(path, JSON.stringify(plan));
  const services = createServices({ dataFolder: join(own, 'data') });
  const host = createHost(services, NO_DIALOGS, path);
  await host.call('start', {});
  const saved = await host.call('saveShop', { shop });
  if (!saved.ok) throw new Error(saved.problem.sentence);
  return servePage(PLANNER, (verb, request) => host.call(verb, request));
}

const LOCAL_HOST = join(ROOT, 'build/main/local.js');

/** The planner as it starts for the first time, with a sample: its own host in a process of its own. */
function startSample(folder: string): Promise<LocalHost> {
  return startLocalHost(LOCAL_HOST, ['--data-dir', mkdtempSync(join(folder, 'fresh-')), '--stay-open']);
}

async function openPage(browser: Browser, address: string): Promise<Page> {
  const context = await browser.newContext({ viewport: SIZE, bypassCSP: true });
  const page = await context.newPage();
  page.on('pageerror', (error) => console.error(error.message));
  await page.addInitScript(FIRST_DRAWN);
  await page.goto(address);
  await page.waitForFunction('window.firstDrawnMs !== undefined');
  return page;
}

interface Start {
  /** From the call that starts the browser until something is drawn. */
  readonly fromWindow: number;
  /** From the page's own start. */
  readonly fromPage: number;
  /** From the call that starts the browser until what is drawn can be worked with. */
  readonly live: number;
}

/** One start from nothing: a new browser, a new window, no cache. */
async function measureStart(launch: () => Promise<Browser>, address: string): Promise<Start> {
  const from = Date.now();
  const browser = await launch();
  const page = await openPage(browser, address);
  await page.waitForFunction('window.liveMs !== undefined');
  const { drawn, live, origin } = (await page.evaluate(
    '({ drawn: window.firstDrawnMs, live: window.liveMs, origin: performance.timeOrigin })',
  )) as { drawn: number; live: number; origin: number };
  await browser.close();
  return { fromWindow: origin + drawn - from, fromPage: drawn, live: origin + live - from };
}

async function measureStarts(launch: () => Promise<Browser>, blank: string, folder: string): Promise<string[]> {
  const blanks: Start[] = [];
  const planners: Start[] = [];
  for (let round = 0; round < STARTS; round += 1) {
    blanks.push(await measureStart(launch, blank));
    const host = await startSample(folder);
    planners.push(await measureStart(launch, host.address));
    await host.stop();
  }
  const getLine = (name: string, key: keyof Start): string => {
    const [one, other] = [blanks, planners].map((starts) => getMedian(starts.map((start) => start[key]))) as [
      number,
      number,
    ];
    return `  ${name}  blank React page ${one.toFixed(0)} ms, planner ${other.toFixed(0)} ms  × ${(other / one).toFixed(2)}`;
  };
  return [
    `Start, medians of ${STARTS}, each in a new browser without a cache`,
    getLine('first drawn canvas, from opening the window', 'fromWindow'),
    getLine('first drawn canvas, from the page’s start  ', 'fromPage'),
    getLine('can be worked with, from opening the window', 'live'),
  ];
}

function describeFrames(name: string, frames: Frames, bare: Frames): string {
  const ms = (value: number): string => value.toFixed(1).padStart(5);
  const getRatio = (share: number): string =>
    (getShare(frames.processor, share) / getShare(bare.processor, share)).toFixed(1);
  return [
    `  ${name.padEnd(16)}`,
    `frame ${ms(getMedian(frames.intervals))} ms, 95 % ${ms(getShare(frames.intervals, 0.95))}`,
    `work ${ms(getMedian(frames.work))}, 95 % ${ms(getShare(frames.work, 0.95))}`,
    `processor ${ms(getMedian(frames.processor))}, 95 % ${ms(getShare(frames.processor, 0.95))}  × ${getRatio(0.5)} and ${getRatio(0.95)} bare Konva`,
    `${describeLong(frames.longTasks)} long tasks, ${describeLong(frames.longTasksOfProcessor)} of the processor`,
  ].join('  ');
}

function describeLong(tasks: readonly number[]): string {
  return tasks.length === 0 ? '0' : `${tasks.length} (to ${Math.max(...tasks).toFixed(0)} ms)`;
}

async function measureBare(browser: Browser, address: string, marks: number): Promise<Frames> {
  const page = await openPage(
    browser,
    `${address}?shapes=${marks}&width=${SIZE.width - 580}&height=${SIZE.height - 110}`,
  );
  const frames = await measureDrag(browser, page, { x: 300, y: 300 }, REACH, DRAG_MS);
  await page.context().close();
  return frames;
}

async function measureCase(browser: Browser, one: Case, planner: string, bare: string): Promise<void> {
  const marks = countMarks(one);
  console.log(`Dragging: ${one.name}; ${marks} marks in four views, ${SIZE.width} × ${SIZE.height}`);
  const bareFrames = await measureBare(browser, bare, marks);
  console.log(describeFrames('bare Konva', bareFrames, bareFrames));
  const page = await openPage(browser, planner);
  await page.locator('.bench-feature').first().waitFor({ state: 'attached' });
  await page.waitForTimeout(800);
  for (const drag of DRAGS) {
    console.log(describeFrames(drag.name, await measureBenchDrag(browser, page, drag, DRAG_MS), bareFrames));
  }
  await page.context().close();
}

/** All is measured, or what has one of the words of the command line in its name. */
function isAsked(name: string): boolean {
  const words = process.argv.slice(2);
  return words.length === 0 || words.some((word) => name.includes(word));
}

async function run(): Promise<void> {
  const found = findTestBrowser();
  if ('problem' in found) throw new Error(found.problem);
  if (runNode([getCommandPath('vite', 'bin/vite.js'), 'build', '--app', '--logLevel', 'warn']) !== 0) {
    throw new Error('The planner could not be built.');
  }
  const blankFolder = await buildPage('blank');
  const bareFolder = await buildPage('bare-konva');
  const folder = mkdtempSync(join(tmpdir(), 'kerfgrip-bench-'));
  const blank = await servePage(blankFolder);
  const bare = await servePage(bareFolder);
  const planners = await Promise.all(CASES.map((one) => serveCase(folder, one)));
  const launch = (): Promise<Browser> =>
    chromium.launch({ executablePath: found.browser, args: getTestBrowserFlags() });
  const browser = await launch();
  console.log(`load of the machine ${(loadavg()[0] ?? 0).toFixed(1)} on ${availableParallelism()} cores`);
  try {
    for (const [index, one] of CASES.entries()) {
      if (isAsked(one.name)) await measureCase(browser, one, planners[index]?.address ?? '', bare.address);
    }
    if (isAsked('start')) {
      for (const line of await measureStarts(launch, blank.address, folder)) console.log(line);
    }
  } finally {
    await browser.close();
    for (const server of [blank, bare, ...planners]) server.close();
    rmSync(folder, { recursive: true, force: true });
  }
}

await run();
