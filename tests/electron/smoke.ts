import { strict as assert } from 'node:assert';
import { existsSync, readFileSync } from 'node:fs';
import { mkdir, readdir, writeFile } from 'node:fs/promises';
import { join } from 'node:path';
import { pathToFileURL } from 'node:url';
import { waitForEnd } from '../../main/start/child-process';
import type { Reply } from '../../shared/contract/host';
import { evaluate } from '../../shared/evaluate';
import type { TableText } from '../../shared/lists/table';
import { defaultShop } from '../../shared/model/catalogue/default-shop';
import { SAMPLES } from '../../shared/model/catalogue/samples';
import { serializePlan } from '../../shared/model/serialize';
import type { OutlineDrawing } from '../../shared/outline/outline-drawing';
import type { Desk } from './desk';
import { listPages } from './devtools';
import { openPlanner, type Planner, type Program, spawnPlanner } from './planner';
import { waitUntil } from './wait-until';

/** What the tests hand on to each other: one session of a user, then a second one. */
export interface Stage {
  program: Program;
  desk: Desk;
  /** An empty folder for this run. */
  folder: string;
  planner: Planner;
}

export interface SmokeTest {
  title: string;
  run: (stage: Stage) => Promise<void>;
}

const HOIST_ARMS = SAMPLES['hoist-arms']();
const KEEPER_LINKS = SAMPLES['keeper-links']();

const KERFGRIP = / — Kerfgrip$/;
const CHANGED = /^• .* — Kerfgrip$/;

const getDataFolder = ({ folder }: Stage): string => join(folder, 'data');

/** Starts the program for a stage. */
export function openStagePlanner(stage: Omit<Stage, 'planner'>, words: readonly string[] = []): Promise<Planner> {
  return openPlanner(stage.program, stage.desk, join(stage.folder, 'data'), words);
}

/** What Chromium and GTK say on a machine without a graphics card or a session bus. */
function getIsRuntimeNoise(line: string): boolean {
  return /dconf|dbus|gl_|gpu|vaapi|Gtk-|GLib|ALSA|libva|viz_main|sandbox_linux/i.test(line);
}

const getText = ({ planner }: Stage): Promise<string> => planner.page.evaluate('document.body.innerText');

/** Presses the first button whose text or name begins with these words. */
async function pressButton({ planner }: Stage, words: string): Promise<void> {
  await waitUntil(`the button "${words}" is there`, () =>
    planner.page.evaluate(`(() => {
      const buttons = [...document.querySelectorAll('button, [role=tab]')];
      const button = buttons.find((one) => (one.getAttribute('aria-label') ?? one.innerText).trim().startsWith(${JSON.stringify(words)}));
      button?.click();
      return button !== undefined;
    })()`),
  );
}

/** Whether a window gives up the keys in the time that one takes to close; keys that it missed are pressed again. */
async function getGoes(desk: Desk, title: RegExp): Promise<boolean> {
  for (let look = 0; look < 100 && title.test(desk.getActiveTitle()); look += 1) {
    await new Promise((resolve) => setTimeout(resolve, 100));
  }
  return !title.test(desk.getActiveTitle());
}

/** Presses keys until the window that has them now gives them up; a dialog may miss what comes before it is ready. */
async function pressUntilGone({ desk }: Stage, title: RegExp, ...keys: string[]): Promise<void> {
  await desk.waitForDialog(title);
  await waitUntil(`${title} goes away`, async () => {
    if (title.test(desk.getActiveTitle())) desk.press(...keys);
    return getGoes(desk, title);
  });
}

/** Answers the dialog for files that is open: this path, and Enter. `keys` lead to the field for it. */
async function answerFileDialog(
  { desk }: Stage,
  title: RegExp,
  path: string,
  keys: readonly string[] = [],
): Promise<void> {
  await desk.waitForDialog(title);
  await waitUntil(`${title} takes its answer`, async () => {
    if (title.test(desk.getActiveTitle())) {
      desk.press(...keys);
      await desk.waitUntilStill();
      desk.press('ctrl+a');
      desk.type(path);
      await desk.waitUntilStill();
      desk.press('Return');
      await getGoes(desk, title);
    }
    return KERFGRIP.test(desk.getActiveTitle());
  });
}

/** Asks the page to call its host and to keep the answer, which a dialog holds up: `getAnswer` gives it later. */
async function startCall({ planner }: Stage, verb: string, request: object): Promise<void> {
  await planner.page.evaluate(
    `void (window.answer = undefined, window.kerfgrip.call(${JSON.stringify(verb)}, ${JSON.stringify(request)}).then((answer) => { window.answer = answer; }))`,
  );
}

const getAnswer = <T>({ planner }: Stage): Promise<T> =>
  waitUntil('the host has answered', () => planner.page.evaluate<T | undefined>('window.answer')) as Promise<T>;

/** Opens a menu by its key, goes to an item, and waits for what it brings up. */
async function chooseByKeys({ desk }: Stage, menu: string, keys: readonly string[], result: RegExp): Promise<void> {
  await waitUntil(`the menu brings up ${result}`, async () => {
    if (result.test(desk.getActiveTitle())) return true;
    desk.press(menu);
    await desk.waitUntilStill();
    desk.press(...keys);
    await desk.waitUntilStill();
    return false;
  });
}

const tests: SmokeTest[] = [];
const add = (title: string, run: SmokeTest['run']): void => {
  tests.push({ title, run });
};

add('the window opens with the sample, and its title names it', async ({ desk }) => {
  await desk.waitForActive(KERFGRIP);
  assert.equal(desk.getActiveTitle(), `${HOIST_ARMS.name} — Kerfgrip`);
});

add('the canvas is drawn', async ({ planner }) => {
  const colours = await waitUntil('the canvas has more than one colour', () =>
    planner.page.evaluate<number | false>(`(() => {
      const counts = [...document.querySelectorAll('canvas')].map((canvas) => {
        if (canvas.width === 0 || canvas.height === 0) return 0;
        const { data } = canvas.getContext('2d').getImageData(0, 0, canvas.width, canvas.height);
        const colours = new Set();
        for (let at = 0; at < data.length; at += 4) colours.add((data[at] << 16) | (data[at + 1] << 8) | data[at + 2]);
        return colours.size;
      });
      const most = Math.max(...counts);
      return most > 20 && most;
    })()`),
  );
  assert.ok(colours > 20, `${colours} colours`);
});

add('the sample is evaluated: the figures are those of the engine', async (stage) => {
  const evaluation = evaluate(HOIST_ARMS, defaultShop);
  const stops = evaluation.findings.filter(({ severity }) => severity === 'stop').length;
  const checks = evaluation.findings.filter(({ severity }) => severity === 'check').length;
  const text = await getText(stage);
  assert.match(text, new RegExp(`\\b${stops} stops?\\b`));
  assert.match(text, new RegExp(`\\b${checks} checks?\\b`));
  assert.ok(checks > 0);
});

add('the page has no Node: no require, no process, and a bridge of three functions', async ({ planner }) => {
  const seen = await planner.page.evaluate(`({
    types: [typeof require, typeof process, typeof module, typeof Buffer, typeof global],
    bridge: Object.keys(window.kerfgrip).sort(),
    origin: location.origin,
  })`);
  assert.deepEqual(seen, {
    types: Array(5).fill('undefined'),
    bridge: ['call', 'onAction', 'onOpen'],
    origin: 'kerfgrip://planner',
  });
});

add('a call outside the contract is refused', async ({ planner }) => {
  const reply = await planner.page.evaluate<{ ok: boolean }>(
    `window.kerfgrip.call('readAnyFile', { path: '/etc/passwd' })`,
  );
  assert.equal(reply.ok, false);
});

add('navigation, new windows, other addresses, permissions and devices are refused', async ({ planner, folder }) => {
  const { page, getOutput } = planner;
  const before = page.troubles.length;
  await writeFile(join(folder, 'other.html'), '<title>other</title>');
  for (const address of ['https://example.com/', `file://${join(folder, 'other.html')}`, 'data:text/html,other']) {
    await page.evaluate(
      `(() => { const link = document.createElement('a'); link.href = ${JSON.stringify(address)}; document.body.append(link); link.click(); link.remove(); })()`,
    );
  }
  await page.evaluate(`void window.open('https://example.com/')`);
  const fetched = await page.evaluate(
    `Promise.all(['https://example.com/', 'file:///etc/passwd', 'kerfgrip://elsewhere/'].map((url) => fetch(url).then(({ ok }) => ok, () => false)))`,
  );
  assert.deepEqual(fetched, [false, false, false]);
  const permission = await page.evaluate('Notification.requestPermission()');
  assert.notEqual(permission, 'granted');
  const ran = await page.evaluate(`(() => {
    const script = document.createElement('script');
    script.textContent = 'window.hasRun = true';
    document.body.append(script);
    script.remove();
    return window.hasRun === true;
  })()`);
  assert.equal(ran, false, 'the content policy let text run as code');
  assert.equal(await page.evaluate('location.href'), 'kerfgrip://planner/');
  const port = Number(/127\.0\.0\.1:(\d+)/.exec(getOutput())?.[1]);
  assert.equal((await listPages(port)).length, 1, 'there is more than one page');
  // These refusals are what was asked for.
  page.troubles.splice(before);
});

add('Save as writes the plan where the dialog says', async (stage) => {
  const path = join(stage.folder, 'plans', 'hoist.kgplan');
  await mkdir(join(stage.folder, 'plans'));
  stage.desk.press('ctrl+shift+s');
  await answerFileDialog(stage, /^Save the plan$/, path);
  await waitUntil('the plan is on file', () => existsSync(path));
  assert.equal(JSON.parse(readFileSync(path, 'utf8')).name, HOIST_ARMS.name);
  await waitUntil('the title names it', () => stage.desk.getActiveTitle() === 'hoist.kgplan — Kerfgrip');
});

add('an edit puts the mark into the title, Save takes it away and writes the edit', async (stage) => {
  const path = join(stage.folder, 'plans', 'hoist.kgplan');
  const before = readFileSync(path, 'utf8');
  await pressButton(stage, 'Leave ');
  await stage.desk.waitForActive(CHANGED);
  stage.desk.press('ctrl+s');
  await waitUntil('the mark is gone', () => !CHANGED.test(stage.desk.getActiveTitle()));
  assert.notEqual(readFileSync(path, 'utf8'), before);
});

add('Open shows the plan that the dialog names', async (stage) => {
  const path = join(stage.folder, 'plans', 'links.kgplan');
  await writeFile(path, serializePlan(KEEPER_LINKS));
  stage.desk.press('ctrl+o');
  await answerFileDialog(stage, /^Open a plan$/, path, ['ctrl+l']);
  await waitUntil('the plan is shown', () => stage.desk.getActiveTitle() === 'links.kgplan — Kerfgrip');
});

add('the sheet is shown, and written as PDF, SVG and DXF', async (stage) => {
  stage.desk.press('alt+4');
  const kinds = [
    { button: 'Export PDF', title: /^Export as PDF$/, file: 'sheet.pdf', begins: /^%PDF-1\.7/ },
    { button: 'SVG', title: /^Export as SVG$/, file: 'sheet.svg', begins: /<svg/ },
    { button: 'DXF', title: /^Export as DXF$/, file: 'sheet.dxf', begins: /^\s*(999|0)\r?\n/ },
  ];
  for (const { button, title, file, begins } of kinds) {
    await pressButton(stage, button);
    await answerFileDialog(stage, title, join(stage.folder, file));
    await waitUntil(`${file} is written`, async () =>
      (await readdir(stage.folder)).some((name) => name.startsWith(file.slice(0, 5)) && name.endsWith(file.slice(-4))),
    );
    const [written = ''] = (await readdir(stage.folder)).filter((name) => name.endsWith(file.slice(-4)));
    assert.match(readFileSync(join(stage.folder, written), 'latin1').slice(0, 400), begins);
  }
  stage.desk.press('alt+2');
  await waitUntil('the Bench is back', () => stage.planner.page.evaluate('document.querySelector("canvas") !== null'));
});

add('a second start ends, brings the first window to the front and opens its plan there', async (stage) => {
  const { desk, program } = stage;
  desk.minimizeActive();
  await waitUntil('the window is away', () => !KERFGRIP.test(desk.getActiveTitle()));
  const path = join(stage.folder, 'plans', 'hoist.kgplan');
  const second = spawnPlanner(program, desk, getDataFolder(stage), [path]);
  assert.equal(await waitForEnd(second), 0);
  await waitUntil('its plan is shown in front', () => desk.getActiveTitle() === 'hoist.kgplan — Kerfgrip');
  await waitUntil('there is one window', () => desk.listTitles().filter((title) => KERFGRIP.test(title)).length === 1);
});

add('Print opens the print dialog of the system', async (stage) => {
  const { desk } = stage;
  desk.press('ctrl+p');
  await pressUntilGone(stage, /^Print$/, 'Escape');
  await desk.waitForActive(KERFGRIP);
});

add('the about box shows; its menu is reached by keys', async (stage) => {
  await chooseByKeys(stage, 'alt+h', ['Up', 'Return'], /^About Kerfgrip$/);
  await pressUntilGone(stage, /^About Kerfgrip$/, 'Escape');
  await stage.desk.waitForActive(KERFGRIP);
});

add('Open recent opens a plan from the menu', async (stage) => {
  const before = stage.desk.getActiveTitle();
  assert.equal(before, 'hoist.kgplan — Kerfgrip');
  // The plan that is open is the first of the recent ones.
  await chooseByKeys(stage, 'alt+f', ['r', 'Down', 'Down', 'Return'], /^links\.kgplan — Kerfgrip$/);
});

add('a dialog that is left opens nothing and changes nothing', async (stage) => {
  const before = stage.desk.getActiveTitle();
  stage.desk.press('ctrl+o');
  await pressUntilGone(stage, /^Open a plan$/, 'Escape');
  await stage.desk.waitForActive(KERFGRIP);
  assert.equal(stage.desk.getActiveTitle(), before);
});

add('drawings and lists are read by the thread beside the program', async (stage) => {
  const drawing = join(stage.folder, 'outline.svg');
  const path = 'M0 0H40V12H0Z';
  await writeFile(
    drawing,
    `<svg xmlns="http://www.w3.org/2000/svg" width="40mm" height="12mm" viewBox="0 0 40 12"><path d="${path}"/></svg>`,
  );
  await startCall(stage, 'readOutline', { token: null });
  await answerFileDialog(stage, /^Read a drawing$/, drawing, ['ctrl+l']);
  const outline = await getAnswer<Reply<{ name: string; drawing: OutlineDrawing }>>(stage);
  assert.ok(outline.ok, JSON.stringify(outline));
  assert.equal(outline.value.name, 'outline.svg');
  assert.ok(JSON.stringify(outline.value.drawing).includes('40'));
  const list = join(stage.folder, 'parts.csv');
  await writeFile(list, 'name;length;count\nkeeper link;40,5;12\n');
  await startCall(stage, 'readTable', { token: null, delimiter: null });
  await answerFileDialog(stage, /^Read a list$/, list, ['ctrl+l']);
  const table = await getAnswer<Reply<{ table: TableText }>>(stage);
  assert.ok(table.ok, JSON.stringify(table));
  assert.equal(table.value.table.delimiter, ';');
});

add(
  'a double click on a plan, which names it by its address, opens it; one that is gone is said to be',
  async (stage) => {
    const { desk, program, planner } = stage;
    const plan = join(stage.folder, 'plans', 'keeper & links 2.kgplan');
    await writeFile(plan, serializePlan(KEEPER_LINKS));
    assert.equal(await waitForEnd(spawnPlanner(program, desk, getDataFolder(stage), [pathToFileURL(plan).href])), 0);
    await waitUntil('the plan is shown', () => desk.getActiveTitle() === 'keeper & links 2.kgplan — Kerfgrip');
    const gone = join(stage.folder, 'plans', 'gone.kgplan');
    assert.equal(await waitForEnd(spawnPlanner(program, desk, getDataFolder(stage), [gone])), 0);
    await waitUntil('the page says so', async () => (await getText(stage)).includes('gone.kgplan'));
    assert.equal(desk.getActiveTitle(), 'keeper & links 2.kgplan — Kerfgrip');
    assert.deepEqual(planner.page.troubles, []);
  },
);

add('after a crash of the page it is loaded again, and what was not saved is offered', async (stage) => {
  stage.desk.press('alt+u');
  await stage.desk.waitForActive(CHANGED);
  await waitUntil('the journal is written', async () =>
    (await readdir(getDataFolder(stage), { recursive: true })).some((name) => name.endsWith('.journal.json')),
  );
  // By its process: the protocol would send a call that crashed the page to the next one again.
  assert.deepEqual(stage.planner.page.troubles, [], 'the first page logged errors');
  stage.planner.page.close();
  const [renderer] = stage.planner.listProcesses().filter(({ kind }) => kind === 'renderer');
  assert.ok(renderer !== undefined);
  process.kill(renderer.id, 'SIGKILL');
  await pressUntilGone(stage, /^Kerfgrip$/, 'Return');
  stage.planner.page = await waitUntil('the page is back', async () => {
    const fresh = await stage.planner.connect();
    if ((await fresh.evaluate<string>('document.body.innerText')).includes('Work that was not saved')) return fresh;
    fresh.close();
    return undefined;
  });
  await stage.desk.waitForActive(KERFGRIP);
  await pressButton(stage, 'Restore');
  await stage.desk.waitForActive(CHANGED);
});

add('closing with unsaved work asks; going on keeps the window', async (stage) => {
  stage.desk.press('ctrl+q');
  await pressUntilGone(stage, /^Kerfgrip$/, 'Escape');
  await stage.desk.waitForActive(CHANGED);
  assert.equal(stage.planner.process.exitCode, null);
});

add('closing without saving ends the program', async (stage) => {
  stage.desk.press('ctrl+q');
  await stage.desk.waitForDialog(/^Kerfgrip$/);
  stage.desk.press('Tab', 'Return');
  assert.equal(await stage.planner.waitForEnd(), 0);
});

add('no error was logged, by the page or by the main process', async ({ planner }) => {
  assert.deepEqual(planner.page.troubles, []);
  const words = planner
    .getOutput()
    .split('\n')
    .filter((line) => /error|exception|unhandled/i.test(line) && !getIsRuntimeNoise(line));
  assert.deepEqual(words, []);
});

add(
  'the next start opens a plan named on the command line, where the window was, with no journal left',
  async (stage) => {
    const place = { x: 120, y: 80, width: 1100, height: 700 };
    stage.planner = await openStagePlanner(stage);
    await stage.desk.waitForActive(KERFGRIP);
    stage.desk.moveActive(place.x, place.y, place.width, place.height);
    const set = await waitUntil('the window is moved', () => {
      const now = stage.desk.getActivePlace();
      return now.width === place.width && now;
    });
    await waitUntil('its place is kept', () =>
      readFileSync(join(getDataFolder(stage), 'window.json'), 'utf8').includes(`"width":${set.width}`),
    );
    assert.ok(!(await getText(stage)).includes('Work that was not saved'));
    stage.desk.press('ctrl+q');
    assert.equal(await stage.planner.waitForEnd(), 0);
    stage.planner = await openStagePlanner(stage, [join(stage.folder, 'plans', 'links.kgplan')]);
    await stage.desk.waitForActive(/^links\.kgplan — Kerfgrip$/);
    const { width, height } = stage.desk.getActivePlace();
    assert.deepEqual({ width, height }, { width: set.width, height: set.height });
    assert.deepEqual(stage.planner.page.troubles, []);
  },
);

add('closing with Save writes the plan and ends the program', async (stage) => {
  const path = join(stage.folder, 'plans', 'links.kgplan');
  const before = readFileSync(path, 'utf8');
  stage.desk.press('alt+u');
  await stage.desk.waitForActive(CHANGED);
  stage.desk.press('ctrl+q');
  await stage.desk.waitForDialog(/^Kerfgrip$/);
  stage.desk.press('Return');
  assert.equal(await stage.planner.waitForEnd(), 0);
  assert.notEqual(readFileSync(path, 'utf8'), before);
  assert.deepEqual(
    (await readdir(join(stage.folder, 'plans'))).filter((name) => !name.endsWith('.kgplan')),
    [],
    'notes or half-written files were left',
  );
});

export const smokeTests: readonly SmokeTest[] = tests;
