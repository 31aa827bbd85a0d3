// Frames while things are dragged on the Bench, and the time to its first drawn canvas, in a real browser. Each figure
// stands beside a baseline of the same run: a bare Konva page that moves as many shapes, and a blank React page.
import { mkdtempSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { type Browser, chromium, type Page } from '@playwright/test';
import react from '@vitejs/plugin-react';
import { build } from 'vite';
import { createHost } from '../../main/services/host-calls';
import { NO_DIALOGS } from '../../main/services/host-dialogs';
import { createServices } from '../../main/services/services';
import { buildBenchView, getSetting } from '../../renderer/bench/bench-model';
import { PANES } from '../../renderer/bench/panes';
import { getSectionX } from '../../shared/drawing/views/end-section';
import { evaluate } from '../../shared/evaluate';
import { findTestBrowser } from '../run/find-test-browser';
import { getCommandPath, ROOT, runNode } from '../run/run-program';
import { getTestBrowserFlags } from '../run/test-browser-flags';
import { buildBenchPlan } from './evaluate-plan';
import { addRecorder, FIRST_DRAWN, type Frames, getMedian, getShare, measureDrag } from './ui/measures';
import { type PageServer, servePage } from './ui/page-server';

const SIZE = { width: 1440, height: 900 };
const DRAG_MS = 4000;
const STARTS = 7;

const { plan, shop } = buildBenchPlan();

/** Marks that the Bench draws of this plan in its four views. */
function countMarks(): number {
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

/** The planner with the plan of the speed target, its shop on file as a user would have it. */
async function serveBenchPlan(folder: string): Promise<PageServer> {
  const path = join(folder, 'bench.kgplan');
  writeFileSync(path, JSON.stringify(plan));
  const services = createServices({ dataFolder: join(folder, 'data') });
  const host = createHost(services, NO_DIALOGS, path);
  await host.call('start', {});
  const saved = await host.call('saveShop', { shop });
  if (!saved.ok) throw new Error(saved.problem.sentence);
  return servePage(PLANNER, (verb, request) => host.call(verb, request));
}

/** The planner as it starts for the first time: with a sample. */
async function serveSample(folder: string): Promise<PageServer> {
  const host = createHost(createServices({ dataFolder: join(folder, 'fresh') }), NO_DIALOGS);
  return servePage(PLANNER, (verb, request) => host.call(verb, request));
}

async function openPage(browser: Browser, address: string): Promise<Page> {
  const context = await browser.newContext({ viewport: SIZE });
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
}

/** One start from nothing: a new browser, a new window, no cache. */
async function measureStart(launch: () => Promise<Browser>, address: string): Promise<Start> {
  const from = Date.now();
  const browser = await launch();
  const page = await openPage(browser, address);
  const { drawn, origin } = (await page.evaluate(
    '({ drawn: window.firstDrawnMs, origin: performance.timeOrigin })',
  )) as { drawn: number; origin: number };
  await browser.close();
  return { fromWindow: origin + drawn - from, fromPage: drawn };
}

async function measureStarts(launch: () => Promise<Browser>, blank: string, planner: string): Promise<string[]> {
  const blanks: Start[] = [];
  const planners: Start[] = [];
  for (let round = 0; round < STARTS; round += 1) {
    blanks.push(await measureStart(launch, blank));
    planners.push(await measureStart(launch, planner));
  }
  const getLine = (name: string, key: keyof Start): string => {
    const [one, other] = [blanks, planners].map((starts) => getMedian(starts.map((start) => start[key]))) as [
      number,
      number,
    ];
    return `  ${name}  blank React page ${one.toFixed(0)} ms, first drawn canvas ${other.toFixed(0)} ms  × ${(other / one).toFixed(2)}`;
  };
  return [
    `Start, medians of ${STARTS}, each in a new browser without a cache`,
    getLine('from opening the window', 'fromWindow'),
    getLine('from the page’s start  ', 'fromPage'),
  ];
}

interface Place {
  readonly x: number;
  readonly y: number;
}

interface DragCase {
  readonly name: string;
  readonly feature: string;
  /** What the value beside the pointer says while it is the right thing that is dragged. */
  readonly says: RegExp;
  /** Where in the thing to take hold, 0 to 1; the first place where it is not hidden by another is taken. */
  readonly holds: readonly Place[];
}

const REACH: Place = { x: 40, y: 0 };
const ALONG = Array.from({ length: 40 }, (_, index) => (index + 0.5) / 40);

const DRAGS: readonly DragCase[] = [
  { name: 'a vise', feature: 'vise:1', says: /vise 2/u, holds: ALONG.map((x) => ({ x, y: 0.92 })) },
  { name: 'a part', feature: 'part:', says: /^Part|Part \d/u, holds: ALONG.map((x) => ({ x, y: 0.6 })) },
  { name: 'the bar', feature: 'blank:', says: /the bar,/u, holds: ALONG.map((x) => ({ x, y: 0.35 })) },
  {
    name: 'the section line',
    feature: 'field:sectionX',
    says: /section A/u,
    holds: [0.97, 0.9, 0.8].map((x) => ({ x, y: 0.3 })),
  },
];

/** A point of the screen at which a press takes hold of the thing meant and of nothing else. */
async function findHold(page: Page, { name, feature, says, holds }: DragCase): Promise<Place> {
  const box = await page.locator(`[data-feature^="${feature}"]`).first().boundingBox();
  if (box === null) throw new Error(`${feature} is not on the Bench`);
  for (const hold of holds) {
    const from = { x: box.x + box.width * hold.x, y: box.y + box.height * hold.y };
    await page.mouse.move(from.x, from.y);
    await page.mouse.down();
    await page.mouse.move(from.x + 8, from.y);
    const said = (await page.locator('.bench-bubble').allTextContents()).join('');
    await page.keyboard.press('Escape');
    await page.mouse.up();
    if (says.test(said)) return from;
  }
  throw new Error(`no place to take hold of ${name}`);
}

async function measureBench(page: Page, drag: DragCase): Promise<Frames> {
  const from = await findHold(page, drag);
  await page.getByRole('button', { name: 'Fit', exact: true }).click();
  await page.waitForTimeout(400);
  const frames = await measureDrag(page, from, REACH, DRAG_MS);
  await page.keyboard.press('Control+z');
  await page.waitForTimeout(300);
  return frames;
}

function describeFrames(name: string, frames: Frames, bare: Frames): string {
  const ms = (value: number): string => value.toFixed(1).padStart(6);
  const work = getMedian(frames.work);
  const ratio = work / getMedian(bare.work);
  return [
    `  ${name.padEnd(18)}`,
    `frame ${ms(getMedian(frames.intervals))} ms median, ${ms(getShare(frames.intervals, 0.95))} at 95 %`,
    `work ${ms(work)} ms median, ${ms(getShare(frames.work, 0.95))} at 95 %  × ${ratio.toFixed(1)} bare Konva`,
    `${frames.longTasks.length} long tasks${frames.longTasks.length > 0 ? ` to ${Math.max(...frames.longTasks)} ms` : ''}`,
  ].join('  ');
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
  const servers = [
    await serveBenchPlan(folder),
    await serveSample(folder),
    await servePage(blankFolder),
    await servePage(bareFolder),
  ] as const;
  const [planner, sample, blank, bare] = servers;
  const launch = (): Promise<Browser> =>
    chromium.launch({ executablePath: found.browser, args: getTestBrowserFlags() });
  const browser = await launch();
  try {
    const marks = countMarks();
    console.log(
      `Bench: ${plan.parts.length} parts, ${shop.bars.length} bars on offer, ${marks} marks in four views, ${SIZE.width} × ${SIZE.height}`,
    );
    const barePage = await openPage(
      browser,
      `${bare.address}?shapes=${marks}&width=${SIZE.width - 580}&height=${SIZE.height - 110}`,
    );
    await addRecorder(barePage);
    const bareFrames = await measureDrag(barePage, { x: 300, y: 300 }, REACH, DRAG_MS);
    console.log(describeFrames('bare Konva', bareFrames, bareFrames));
    await barePage.context().close();

    const page = await openPage(browser, planner.address);
    await page.locator('.bench-feature').first().waitFor({ state: 'attached' });
    await page.waitForTimeout(800);
    await addRecorder(page);
    for (const drag of DRAGS) console.log(describeFrames(drag.name, await measureBench(page, drag), bareFrames));
    await page.context().close();

    for (const line of await measureStarts(launch, blank.address, sample.address)) console.log(line);
  } finally {
    await browser.close();
    for (const server of servers) server.close();
    rmSync(folder, { recursive: true, force: true });
  }
}

await run();
