import { existsSync, mkdirSync, readdirSync, readFileSync, rmSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { describe, expect, onTestFinished, test } from 'vitest';
import { createHost, type HostDoor } from '../../../main/services/host-calls';
import { type HostDialogs, NO_DIALOGS } from '../../../main/services/host-dialogs';
import { createServices, type Services } from '../../../main/services/services';
import type { Host, Reply, StartInfo } from '../../../shared/contract/host';
import { hostRequestSchemas } from '../../../shared/contract/host-schemas';
import { evaluate } from '../../../shared/evaluate';
import { serializePlan } from '../../../shared/model/serialize';
import { readSamplePlan } from '../support/sample-plans';
import { getDrawn } from '../support/sample-sheets';
import { buildNamedPlan } from './sample-plan';
import { makeTempFolder } from './temp-folder';

interface Desk {
  folder: string;
  plans: string;
  services: Services;
  host: HostDoor;
  call: Host['call'];
}

async function makeDesk(dialogs: HostDialogs = NO_DIALOGS, requested?: (plans: string) => string): Promise<Desk> {
  const folder = await makeTempFolder();
  const plans = join(folder, 'plans');
  const samplesFolder = join(folder, 'samples');
  mkdirSync(plans);
  mkdirSync(samplesFolder);
  const sample = { ...buildNamedPlan('Pawl arms'), notes: 'Shows the choice of bar. Prices are invented.' };
  writeFileSync(join(samplesFolder, 'arms.kgplan'), serializePlan(sample));
  writeFileSync(join(plans, 'hoist.kgplan'), serializePlan(buildNamedPlan('hoist')));
  const services = createServices({ dataFolder: join(folder, 'data'), samplesFolder });
  services.home = plans;
  onTestFinished(() => services.close());
  const host = createHost(services, dialogs, requested?.(plans));
  return { folder, plans, services, host, call: host.call as Host['call'] };
}

const getValue = async <T>(reply: Promise<Reply<T>>): Promise<T> => {
  const got = await reply;
  if (!got.ok) throw new Error(got.problem.sentence);
  return got.value;
};

const getCode = async (reply: Promise<Reply<unknown>>): Promise<string> => {
  const got = await reply;
  return got.ok ? 'done' : got.problem.code;
};

const start = (desk: Desk): Promise<StartInfo> => getValue(desk.call('start', {}));

describe('a session starts', () => {
  test('with a sample when no plan is named', async () => {
    const desk = await makeDesk();
    const { opened, samples, unsaved, recents, nativeDialogs } = await start(desk);
    expect(opened).toMatchObject({ plan: { name: 'Pawl arms' }, file: null });
    expect(samples).toEqual([{ id: 'arms', title: 'Pawl arms', about: 'Shows the choice of bar.' }]);
    expect({ unsaved, recents, nativeDialogs }).toEqual({ unsaved: [], recents: [], nativeDialogs: false });
  });

  test('with the plan that is named, which is then a recent one', async () => {
    const desk = await makeDesk(NO_DIALOGS, (plans) => join(plans, 'hoist.kgplan'));
    const { opened, recents } = await start(desk);
    expect(opened.file).toMatchObject({ name: 'hoist.kgplan', folder: desk.plans, readOnly: false });
    expect(recents.map(({ name }) => name)).toEqual(['hoist.kgplan']);
  });

  test('with a sample and a sentence when the plan that is named cannot be opened', async () => {
    const desk = await makeDesk(NO_DIALOGS, (plans) => join(plans, 'gone.kgplan'));
    const { opened } = await start(desk);
    expect(opened.plan.name).toBe('Pawl arms');
    expect(opened.remarks).toEqual(['gone.kgplan could not be read: it or its folder is not there.']);
  });

  test('with what the plan comes to, as the engine has it', async () => {
    const desk = await makeDesk(NO_DIALOGS, (plans) => join(plans, 'hoist.kgplan'));
    const plan = readSamplePlan('hoist-arms');
    writeFileSync(join(desk.plans, 'hoist.kgplan'), serializePlan(plan));
    await desk.host.prepare();
    const { opened, evaluation, shop } = await start(desk);
    expect(evaluation).toEqual(evaluate(opened.plan, shop));
    // What is sent over the loopback port loses nothing on the way.
    expect(JSON.parse(JSON.stringify(evaluation))).toEqual(evaluation);
  });

  test('with what the plan comes to as it is now, though another was looked at beforehand', async () => {
    const desk = await makeDesk(NO_DIALOGS, (plans) => join(plans, 'hoist.kgplan'));
    await desk.host.prepare();
    const plan = readSamplePlan('keeper-links');
    writeFileSync(join(desk.plans, 'hoist.kgplan'), serializePlan(plan));
    const { evaluation, shop } = await start(desk);
    expect(evaluation).toEqual(evaluate(plan, shop));
  });

  test('though what was to be looked at beforehand is not there', async () => {
    const desk = await makeDesk(NO_DIALOGS, (plans) => join(plans, 'gone.kgplan'));
    await desk.host.prepare();
    expect((await start(desk)).opened.plan.name).toBe('Pawl arms');
  });

  test('again, when its page is loaded anew, with the plan it had open and what was not saved', async () => {
    const desk = await makeDesk();
    await start(desk);
    const listing = await getValue(desk.call('browse', { folder: null }));
    const opened = await getValue(desk.call('openPlan', { token: listing.entries[0]?.token ?? '' }));
    await getValue(
      desk.call('writeJournal', { plan: buildNamedPlan('changed'), file: opened?.file ?? null, shop: null }),
    );
    const again = await start(desk);
    expect(again.opened.file?.name).toBe('hoist.kgplan');
    expect(again.unsaved.map(({ plan, fileName }) => [plan.name, fileName])).toEqual([['changed', 'hoist.kgplan']]);
    await getValue(desk.call('discardLeft', { ids: again.unsaved.map(({ id }) => id) }));
    expect((await start(desk)).unsaved).toEqual([]);
  });
});

describe('work that a session has left', () => {
  /** A session that opens the plan, changes it and ends without saving; then the next one. */
  async function leaveWork(between: (plans: string) => void = () => undefined) {
    const desk = await makeDesk(NO_DIALOGS, (plans) => join(plans, 'hoist.kgplan'));
    const { opened } = await start(desk);
    await getValue(desk.call('writeJournal', { plan: buildNamedPlan('changed'), file: opened.file, shop: null }));
    await desk.services.close();
    between(desk.plans);
    const services = createServices({ dataFolder: join(desk.folder, 'data'), samplesFolder: desk.folder });
    onTestFinished(() => services.close());
    const call = createHost(services, NO_DIALOGS).call as Host['call'];
    const { unsaved } = await getValue(call('start', {}));
    const restored = await getValue(call('restoreLeft', { id: unsaved[0]?.id ?? '' }));
    const save = (): Promise<string> =>
      getCode(
        call('savePlan', {
          plan: restored.plan,
          file: restored.file ?? expect.fail('no file'),
          overwriteChanged: false,
        }),
      );
    return { ...desk, restored, call, save, readName: () => readName(join(desk.plans, 'hoist.kgplan')) };
  }
  const readName = (path: string): string => JSON.parse(readFileSync(path, 'utf8')).name;

  test('comes back with its file, and is saved to it', async () => {
    const { restored, save, readName, plans } = await leaveWork();
    expect(restored).toMatchObject({ plan: { name: 'changed' }, file: { name: 'hoist.kgplan' }, remarks: [] });
    expect(readdirSync(plans)).toContain('.hoist.kgplan.open');
    expect(await save()).toBe('done');
    expect(readName()).toBe('changed');
  });

  test('is not saved over a file that has changed since the work began', async () => {
    const { restored, save, readName } = await leaveWork((plans) =>
      writeFileSync(join(plans, 'hoist.kgplan'), serializePlan(buildNamedPlan('theirs'))),
    );
    expect(restored.remarks).toEqual([
      'hoist.kgplan was changed since this work began; you will be asked before it is written over.',
    ]);
    expect(await save()).toBe('file-changed');
    expect(readName()).toBe('theirs');
  });

  test('has no file where that one is gone, and the sentence says so', async () => {
    const { restored } = await leaveWork((plans) => rmSync(join(plans, 'hoist.kgplan')));
    expect(restored).toMatchObject({ plan: { name: 'changed' }, file: null });
    expect(restored.remarks.join()).toMatch(/it or its folder is not there\. The restored plan has no file until/);
  });

  test('is given back by no other id than one that was offered', async () => {
    const { call } = await leaveWork();
    expect(await getCode(call('restoreLeft', { id: '../../plans/hoist' }))).toBe('no-such-work');
  });
});

test('a new plan on the page ends the work on the file: its lock note goes, and a reload begins empty', async () => {
  const desk = await makeDesk(NO_DIALOGS, (plans) => join(plans, 'hoist.kgplan'));
  await start(desk);
  expect(readdirSync(desk.plans)).toContain('.hoist.kgplan.open');
  await getValue(desk.call('leavePlan', {}));
  expect(readdirSync(desk.plans)).toEqual(['hoist.kgplan']);
  const again = await start(desk);
  expect(again.opened).toMatchObject({ plan: { name: 'New plan', parts: [] }, file: null });
});

test('a shop that another window has saved is read anew and can then be saved over', async () => {
  const desk = await makeDesk();
  const { shop } = await start(desk);
  await getValue(desk.call('saveShop', { shop }));
  const file = join(desk.folder, 'data', 'shop.json');
  writeFileSync(file, JSON.stringify({ ...shop, name: 'the other window' }));
  expect(await getCode(desk.call('saveShop', { shop }))).toBe('file-changed');
  expect((await getValue(desk.call('loadShop', {}))).shop.name).toBe('the other window');
  expect(await getCode(desk.call('saveShop', { shop }))).toBe('done');
});

describe('a host without dialogs', () => {
  test('lists folders and plans, and opens, saves and saves again by tokens', async () => {
    const desk = await makeDesk();
    mkdirSync(join(desk.plans, 'old'));
    writeFileSync(join(desk.plans, 'notes.txt'), '');
    writeFileSync(join(desk.plans, '.hidden.kgplan'), '');
    const listing = await getValue(desk.call('browse', { folder: null }));
    expect(listing.entries.map(({ name, kind }) => [name, kind])).toEqual([
      ['old', 'folder'],
      ['hoist.kgplan', 'plan'],
    ]);
    const opened = await getValue(desk.call('openPlan', { token: listing.entries[1]?.token ?? '' }));
    const file = opened?.file ?? expect.fail('no file');
    const saved = await getValue(
      desk.call('savePlan', { plan: buildNamedPlan('second'), file, overwriteChanged: false }),
    );
    expect(saved.stamp).not.toBe(file.stamp);
    const stale = desk.call('savePlan', { plan: buildNamedPlan('third'), file, overwriteChanged: false });
    expect(await getCode(stale)).toBe('file-changed');
    expect(JSON.parse(readFileSync(join(desk.plans, 'hoist.kgplan'), 'utf8')).name).toBe('second');
  });

  test('saves under a new name in a listed folder, adds the ending, and asks before it replaces', async () => {
    const desk = await makeDesk();
    const { folder } = await getValue(desk.call('browse', { folder: null }));
    const saveAs = (name: string, replace: boolean) =>
      desk.call('savePlanAs', { plan: buildNamedPlan('new'), suggestedName: '', target: { folder, name, replace } });
    expect(await getValue(saveAs('links', false))).toMatchObject({ name: 'links.kgplan', folder: desk.plans });
    expect(await getCode(saveAs('hoist.kgplan', false))).toBe('file-exists');
    expect(JSON.parse(readFileSync(join(desk.plans, 'hoist.kgplan'), 'utf8')).name).toBe('hoist');
    expect(await getCode(saveAs('hoist.kgplan', true))).toBe('done');
  });

  test.each(['../out', 'a/b', 'a\\b', '', '.', '..', '.hidden', 'nul', 'a\u0000b', 'a\nb', 'x'.repeat(300)])(
    'refuses the file name %j',
    async (name) => {
      const desk = await makeDesk();
      const { folder } = await getValue(desk.call('browse', { folder: null }));
      const target = { folder, name, replace: true };
      expect(await getCode(desk.call('savePlanAs', { plan: buildNamedPlan('x'), suggestedName: '', target }))).toBe(
        'bad-file-name',
      );
      expect(readdirSync(desk.folder).sort()).toEqual(['plans', 'samples']);
      expect(readdirSync(desk.plans)).toEqual(['hoist.kgplan']);
    },
  );

  test('takes no path for a token, nor the token of a file for a folder', async () => {
    const desk = await makeDesk();
    const listing = await getValue(desk.call('browse', { folder: null }));
    const fileToken = listing.entries[0]?.token ?? '';
    const codes = await Promise.all([
      getCode(desk.call('openPlan', { token: join(desk.plans, 'hoist.kgplan') })),
      getCode(desk.call('openPlan', { token: listing.folder })),
      getCode(desk.call('browse', { folder: '/etc' })),
      getCode(desk.call('browse', { folder: fileToken })),
    ]);
    expect(codes).toEqual(Array(4).fill('unknown-token'));
  });

  test('wants a place named, since it cannot ask', async () => {
    const desk = await makeDesk();
    expect(await getCode(desk.call('openPlan', { token: null }))).toBe('no-dialog');
    const { opened, shop } = await start(desk);
    const request = { plan: opened.plan, shop, suggestedName: 'cuts.csv', target: null };
    expect(await getCode(desk.call('exportCutList', request))).toBe('no-dialog');
  });

  test('writes the cut list of the plan, and never over a file that is there', async () => {
    const desk = await makeDesk();
    const { shop } = await start(desk);
    const { folder } = await getValue(desk.call('browse', { folder: null }));
    const target = { folder, name: 'cuts', replace: false };
    const request = { plan: readSamplePlan('hoist-arms'), shop, suggestedName: '', target };
    expect(await getValue(desk.call('exportCutList', request))).toEqual({ name: 'cuts.csv', folder: desk.plans });
    expect(readFileSync(join(desk.plans, 'cuts.csv'), 'utf8')).toMatch(
      /^\uFEFFBar[,;]Bars cut like this[,;]Stock[,;]/u,
    );
    expect(await getCode(desk.call('exportCutList', request))).toBe('file-exists');
  });

  test('says that there is no cut list for a plan without parts', async () => {
    const desk = await makeDesk();
    const { opened, shop } = await start(desk);
    const { folder } = await getValue(desk.call('browse', { folder: null }));
    const request = {
      plan: { ...opened.plan, parts: [] },
      shop,
      suggestedName: 'x',
      target: { folder, name: 'x', replace: false },
    };
    expect(await getCode(desk.call('exportCutList', request))).toBe('no-order');
  });
});

describe('the fixture sheet', { timeout: 30_000 }, () => {
  test('is written in each format, and comes as bytes for a preview', async () => {
    const desk = await makeDesk();
    const { shop } = await start(desk);
    const plan = buildNamedPlan('x');
    const { folder } = await getValue(desk.call('browse', { folder: null }));
    for (const format of ['pdf', 'svg', 'dxf'] as const) {
      const target = { folder, name: 'sheet', replace: false };
      const request = {
        plan,
        shop,
        format,
        measuredSquare: 98.5,
        workings: true,
        fileName: 'x.kgplan',
        suggestedName: '',
        target,
      };
      expect(await getValue(desk.call('exportSheet', request))).toEqual({
        name: `sheet.${format}`,
        folder: desk.plans,
      });
      expect(readFileSync(join(desk.plans, `sheet.${format}`)).length).toBeGreaterThan(500);
    }
    const { pdfBase64, pages } = await getValue(
      desk.call('renderSheet', {
        plan,
        shop,
        measuredSquare: null,
        workings: false,
        fileName: '',
      }),
    );
    expect(Buffer.from(pdfBase64, 'base64').subarray(0, 5).toString()).toBe('%PDF-');
    expect(pages).toBeGreaterThan(0);
  });
});

describe('one view by itself', { timeout: 30_000 }, () => {
  const choice = { view: 'elevation', partId: '', blankIndex: null, sectionX: null, sectionPass: 'cutOff' } as const;

  test('is written as a drawing, and refused in a sentence where there is none', async () => {
    const desk = await makeDesk();
    const { shop } = await start(desk);
    const { plan } = getDrawn('hoist-arms');
    const { folder } = await getValue(desk.call('browse', { folder: null }));
    const target = { folder, name: 'view', replace: false };
    const partId = plan.parts[0]?.id ?? '';
    for (const format of ['svg', 'dxf'] as const) {
      const request = { plan, shop, choice: { ...choice, view: 'part', partId }, format, suggestedName: '', target };
      expect(await getValue(desk.call('exportView', request as never))).toEqual({
        name: `view.${format}`,
        folder: desk.plans,
      });
      expect(readFileSync(join(desk.plans, `view.${format}`), 'utf8').toLowerCase()).toContain('allowance');
    }
    const none = { plan: { ...plan, parts: [] }, shop, choice, format: 'svg' as const, suggestedName: '', target };
    expect(await getCode(desk.call('exportView', { ...none, target: { ...target, name: 'none' } }))).toBe('no-view');
    expect(existsSync(join(desk.plans, 'none.svg'))).toBe(false);
  });

  test('is written as a picture when it is one', async () => {
    const desk = await makeDesk();
    await start(desk);
    const { folder } = await getValue(desk.call('browse', { folder: null }));
    // One white pixel.
    const pngBase64 = 'iVBORw0KGgoAAAANSUhEUgAAAAEAAAABCAAAAAA6fptVAAAACklEQVR4nGP4DwABAQEAsTjQPQAAAABJRU5ErkJggg==';
    const target = { folder, name: 'view', replace: false };
    expect(await getCode(desk.call('exportPicture', { pngBase64, suggestedName: '', target }))).toBe('done');
    expect(readFileSync(join(desk.plans, 'view.png')).toString('base64')).toBe(pngBase64);
    const other = Buffer.from('#!/bin/sh\n').toString('base64');
    const request = { pngBase64: other, suggestedName: '', target: { ...target, name: 'other' } };
    expect(await getCode(desk.call('exportPicture', request))).toBe('not-a-picture');
    expect(existsSync(join(desk.plans, 'other.png'))).toBe(false);
  });
});

describe('a host with dialogs', () => {
  const makeNative = (answers: { open?: string; save?: string }): HostDialogs => ({
    hostKind: 'electron',
    native: true,
    askOpen: async () => answers.open ?? null,
    askSave: async () => answers.save ?? null,
    setTitle: () => undefined,
  });

  test('answers null when the user thinks better of it', async () => {
    const desk = await makeDesk(makeNative({}));
    expect(await getValue(desk.call('openPlan', { token: null }))).toBeNull();
    const plan = buildNamedPlan('x');
    expect(await getValue(desk.call('savePlanAs', { plan, suggestedName: 'x', target: null }))).toBeNull();
  });

  test('does not replace a file that its dialog did not ask about', async () => {
    const answers: { save?: string } = {};
    const desk = await makeDesk(makeNative(answers));
    answers.save = join(desk.plans, 'hoist');
    const plan = buildNamedPlan('x');
    expect(await getCode(desk.call('savePlanAs', { plan, suggestedName: 'x', target: null }))).toBe('file-exists');
    answers.save = join(desk.plans, 'hoist.kgplan');
    expect(await getCode(desk.call('savePlanAs', { plan, suggestedName: 'x', target: null }))).toBe('done');
  });
});

describe('a call that is not as the contract says', () => {
  test.each<[string, unknown]>([
    ['start', { extra: 1 }],
    ['openPlan', {}],
    ['openPlan', { token: 5 }],
    ['openPlan', null],
    ['savePlan', { plan: {}, file: {}, overwriteChanged: true }],
    ['openSample', { sample: '../../package' }],
    ['toString', {}],
    ['__proto__', {}],
    ['constructor', {}],
  ])('%s with %j is answered with a problem', async (verb, request) => {
    const desk = await makeDesk();
    const reply = await desk.host.call(verb, request);
    expect(reply).toMatchObject({ ok: false, problem: { sentence: expect.stringMatching(/\.\)?$/) } });
    expect(reply).not.toMatchObject({ problem: { code: 'bug' } });
  });

  test('names the field of the plan that is wrong', async () => {
    const desk = await makeDesk();
    const plan = buildNamedPlan('x');
    const bad = { ...plan, cleanup: { ...plan.cleanup, top: -2 } };
    const reply = await desk.host.call('writeJournal', { plan: bad, file: null, shop: null });
    const sentence = expect.stringContaining('not -2');
    expect(reply).toMatchObject({ ok: false, problem: { code: 'bad-request', where: 'cleanup.top', sentence } });
  });

  test('every verb of the contract has an answer that is never thrown', async () => {
    const desk = await makeDesk();
    for (const verb of Object.keys(hostRequestSchemas)) {
      const reply = await desk.host.call(verb, JSON.parse('{"__proto__":{"plan":1},"plan":{"__proto__":[]}}'));
      expect(reply, verb).toMatchObject({ ok: false });
      expect(reply, verb).not.toMatchObject({ problem: { code: 'no-such-call' } });
    }
  });
});
