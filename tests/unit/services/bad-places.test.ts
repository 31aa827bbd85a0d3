import { chmodSync, mkdirSync, readFileSync, rmSync, symlinkSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { describe, expect, onTestFinished, test } from 'vitest';
import { createHost } from '../../../main/services/host-calls';
import { NO_DIALOGS } from '../../../main/services/host-dialogs';
import { createServices } from '../../../main/services/services';
import type { FileHandle, Host, HostCalls, Reply } from '../../../shared/contract/host';
import { serializePlan } from '../../../shared/model/serialize';
import { asNobody } from './as-nobody';
import { buildNamedPlan } from './sample-plan';
import { mountSmallDisk, NEEDS_ROOT, protectDisk } from './small-disk';
import { makeTempFolder } from './temp-folder';

interface Desk {
  folder: string;
  /** The folder of the plan. */
  plans: string;
  path: string;
  call: Host['call'];
  file: FileHandle;
  /** What the next start offers. */
  listLeft: () => Promise<string[]>;
}

/** A plan that is open, with a change that is in the journal and not on file. */
async function openAndChange(): Promise<Desk> {
  const folder = await makeTempFolder();
  const plans = join(folder, 'plans');
  const path = join(plans, 'hoist.kgplan');
  mkdirSync(plans);
  writeFileSync(path, serializePlan(buildNamedPlan('on file')));
  const dataFolder = join(folder, 'data');
  const services = createServices({ dataFolder, samplesFolder: folder });
  onTestFinished(() => services.close());
  const { call } = createHost(services, NO_DIALOGS, path) as Host;
  const { file } = (await getValue(call('start', {}))).opened;
  await getValue(call('writeJournal', { plan: buildNamedPlan('changed'), file, shop: null }));
  const listLeft = async (): Promise<string[]> => {
    await services.close();
    const next = createServices({ dataFolder, samplesFolder: folder });
    const left = await next.recovery.listLeft();
    await next.close();
    return left.map(({ plan }) => plan.name);
  };
  return { folder, plans, path, call, file: file ?? expect.fail('no file'), listLeft };
}

async function getValue<T>(reply: Promise<Reply<T>>): Promise<T> {
  const got = await reply;
  return got.ok ? got.value : expect.fail(got.problem.sentence);
}

async function save({ call, file }: Desk, name = 'changed'): Promise<Reply<HostCalls['savePlan']['reply']>> {
  return call('savePlan', { plan: buildNamedPlan(name), file, overwriteChanged: false });
}

/** The sentence of a save that has to fail; the file as it was and the work in the journal are checked as well. */
async function getRefusal(desk: Desk, onFile: string | null): Promise<string> {
  const reply = await save(desk);
  if (reply.ok) return expect.fail('It was saved.');
  if (onFile !== null) expect(readFileSync(desk.path, 'utf8')).toBe(onFile);
  expect(await desk.listLeft()).toEqual(['changed']);
  expect(reply.problem.sentence).toMatch(/^[^\n]{10,300}\.$/);
  return reply.problem.sentence;
}

const original = serializePlan(buildNamedPlan('on file'));

describe('where a plan cannot be saved, one sentence says why, the file is whole and the work stays in the journal', () => {
  test('a folder that may only be read', async ({ skip }) => {
    if (process.platform === 'win32') skip('Windows has no such folders');
    const desk = await openAndChange();
    chmodSync(desk.folder, 0o755);
    chmodSync(join(desk.folder, 'data'), 0o777);
    chmodSync(desk.plans, 0o555);
    chmodSync(desk.path, 0o666);
    const reply = await asNobody(() => save(desk));
    chmodSync(desk.plans, 0o755);
    expect(reply).toMatchObject({
      ok: false,
      problem: { sentence: 'hoist.kgplan was not saved: you are not allowed to use it.' },
    });
    expect(readFileSync(desk.path, 'utf8')).toBe(original);
    expect(await desk.listLeft()).toEqual(['changed']);
  });

  test('a disk that is full', async ({ skip }) => {
    const desk = await openAndChange();
    if (!mountSmallDisk(desk.plans, '64k')) skip(NEEDS_ROOT);
    writeFileSync(desk.path, original);
    expect(() => writeFileSync(join(desk.plans, 'filler'), Buffer.alloc(100_000))).toThrow('ENOSPC');
    expect(await getRefusal(desk, original)).toBe('hoist.kgplan was not saved: the disk is full.');
  });

  test('a disk that can only be read', async ({ skip }) => {
    const desk = await openAndChange();
    if (!mountSmallDisk(desk.plans, '1m')) skip(NEEDS_ROOT);
    writeFileSync(desk.path, original);
    protectDisk(desk.plans);
    expect(await getRefusal(desk, original)).toBe('hoist.kgplan was not saved: it is on a disk that can only be read.');
  });

  test('a folder that has vanished', async () => {
    const desk = await openAndChange();
    rmSync(desk.plans, { recursive: true });
    expect(await getRefusal(desk, null)).toBe('hoist.kgplan was not saved: it or its folder is not there.');
  });

  test('a folder in place of the file', async () => {
    const desk = await openAndChange();
    rmSync(desk.path);
    mkdirSync(desk.path);
    expect(await getRefusal(desk, null)).toBe('hoist.kgplan was not saved: it is a folder and not a file.');
  });

  test('a link in a circle in place of the file', async () => {
    const desk = await openAndChange();
    rmSync(desk.path);
    symlinkSync(desk.path, desk.path);
    expect(await getRefusal(desk, null)).toBe('hoist.kgplan was not saved: its links lead in a circle.');
  });

  test('a path of 4,000 characters', async () => {
    const desk = await openAndChange();
    const services = createServices({ dataFolder: join(desk.folder, 'data'), samplesFolder: desk.folder });
    onTestFinished(() => services.close());
    const long = join(desk.plans, ...Array.from({ length: 20 }, () => 'n'.repeat(200)), 'hoist.kgplan');
    const saving = services.planFiles.save(long, buildNamedPlan('changed'), { stamp: null, overwrite: false });
    await expect(saving).rejects.toMatchObject({
      problem: {
        sentence: expect.stringMatching(/^hoist\.kgplan was not saved: (its name or path is too long|it or its)/),
      },
    });
    expect(await desk.listLeft()).toEqual(['changed']);
  });
});

describe('where a plan can be saved', () => {
  test.each(['水車の腕.kgplan', 'Рычаг шлюза.kgplan', 'ذراع.kgplan', 'bras d’écluse ⌀½ 🛠.kgplan'])(
    'under the name %s it comes back as it was',
    async (name) => {
      const desk = await openAndChange();
      const listing = await getValue(desk.call('browse', { folder: null }));
      const services = createServices({ dataFolder: join(desk.folder, 'data'), samplesFolder: desk.folder });
      onTestFinished(() => services.close());
      const path = join(desk.plans, name);
      await services.planFiles.save(path, buildNamedPlan(name), { stamp: null, overwrite: false });
      expect((await services.planFiles.open(path)).plan.name).toBe(name);
      expect(listing.shown).not.toBe('');
    },
  );

  test('through a link, the link stays and its target has the work', async () => {
    const desk = await openAndChange();
    const target = join(desk.folder, 'real.kgplan');
    writeFileSync(target, original);
    rmSync(desk.path);
    symlinkSync(target, desk.path);
    expect((await save(desk)).ok).toBe(true);
    expect(JSON.parse(readFileSync(target, 'utf8')).name).toBe('changed');
  });
});
