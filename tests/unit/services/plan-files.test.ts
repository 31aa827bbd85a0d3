import { chmodSync, mkdirSync, readdirSync, readFileSync, symlinkSync, utimesSync, writeFileSync } from 'node:fs';
import { hostname } from 'node:os';
import { join } from 'node:path';
import { describe, expect, test } from 'vitest';
import { createKeptVersions } from '../../../main/services/kept-versions';
import { createLockNotes, getLockPath } from '../../../main/services/lock-notes';
import { createPlanFiles, type PlanFiles } from '../../../main/services/plan-files';
import { ReplaceRefused, type writeFileSafely } from '../../../main/services/write-file-safely';
import { serializePlan } from '../../../shared/model/serialize';
import { PLAN_VERSION } from '../../../shared/model/versions';
import { asNobody } from './as-nobody';
import { buildNamedPlan } from './sample-plan';
import { makeClock, makeTempFolder } from './temp-folder';

interface Bench {
  folder: string;
  path: string;
  files: PlanFiles;
  versions: string;
  listVersions: () => string[];
}

async function makeBench(write?: typeof writeFileSafely): Promise<Bench> {
  const folder = await makeTempFolder();
  const path = join(folder, 'hoist.kgplan');
  const versions = createKeptVersions(join(folder, '.versions'), makeClock());
  const locks = createLockNotes('session-a', 'miller', () => new Date());
  const files = createPlanFiles({ versions, locks, now: () => new Date(), ...(write === undefined ? {} : { write }) });
  const listVersions = (): string[] => readdirSync(versions.getFolder(path)).sort();
  return { folder, path, files, versions: versions.getFolder(path), listVersions };
}

const problemOf = async (work: Promise<unknown>): Promise<{ code: string; sentence: string; where: string }> => {
  const error = await work.then(
    () => undefined,
    (thrown) => thrown,
  );
  return error.problem;
};

describe('a plan file', () => {
  test('comes back as it was saved', async () => {
    const { files, path } = await makeBench();
    const plan = buildNamedPlan('Pawl arms ⌀ ½');
    const stamp = await files.save(path, plan, { stamp: null, overwrite: false });
    const opened = await files.open(path);
    expect(opened.plan).toEqual(plan);
    expect(opened).toMatchObject({ stamp, readOnly: false, remarks: [] });
  });

  test('that was changed on disk since it was opened is not written over', async () => {
    const { files, path } = await makeBench();
    const { stamp } = { stamp: await files.save(path, buildNamedPlan('mine'), { stamp: null, overwrite: false }) };
    const theirs = serializePlan(buildNamedPlan('theirs'));
    writeFileSync(path, theirs);
    const problem = await problemOf(files.save(path, buildNamedPlan('mine again'), { stamp, overwrite: false }));
    expect(problem.code).toBe('file-changed');
    expect(problem.sentence).toContain('hoist.kgplan was changed on disk');
    expect(readFileSync(path, 'utf8')).toBe(theirs);
  });

  test('is written over when the user said so, and what was there is kept', async () => {
    const { files, path, versions, listVersions } = await makeBench();
    const stamp = await files.save(path, buildNamedPlan('mine'), { stamp: null, overwrite: false });
    writeFileSync(path, 'not a plan at all');
    await files.save(path, buildNamedPlan('mine again'), { stamp, overwrite: true });
    expect((await files.open(path)).plan.name).toBe('mine again');
    expect(readFileSync(join(versions, listVersions()[0] ?? ''), 'utf8')).toBe('not a plan at all');
  });

  test('is not created over a file that nobody opened', async () => {
    const { files, path } = await makeBench();
    writeFileSync(path, 'somebody’s notes');
    const problem = await problemOf(files.save(path, buildNamedPlan('mine'), { stamp: null, overwrite: false }));
    expect(problem.code).toBe('file-exists');
    expect(readFileSync(path, 'utf8')).toBe('somebody’s notes');
  });

  test('that has vanished since it was opened is written again', async () => {
    const { files, path, folder } = await makeBench();
    const plan = buildNamedPlan('mine');
    await files.save(path, plan, { stamp: 'of a file that is gone', overwrite: false });
    expect(readdirSync(folder)).toContain('hoist.kgplan');
  });

  test('keeps its previous three versions and no more', async () => {
    const { files, path, versions, listVersions } = await makeBench();
    let stamp: string | null = null;
    for (const name of ['one', 'two', 'three', 'four', 'five']) {
      stamp = await files.save(path, buildNamedPlan(name), { stamp, overwrite: false });
    }
    const names = listVersions().map((file) => JSON.parse(readFileSync(join(versions, file), 'utf8')).name);
    expect(names).toEqual(['two', 'three', 'four']);
  });

  test('saved again without a change makes no new version', async () => {
    const { files, path, folder } = await makeBench();
    const stamp = await files.save(path, buildNamedPlan('one'), { stamp: null, overwrite: false });
    expect(await files.save(path, buildNamedPlan('one'), { stamp, overwrite: false })).toBe(stamp);
    expect(readdirSync(folder)).not.toContain('.versions');
  });

  test('that another program holds is saved as a copy beside it, and the sentence says so', async () => {
    const { files, path, folder } = await makeBench(async (target, content) => {
      if (target.endsWith('hoist.kgplan')) throw new ReplaceRefused(target, new Error('EBUSY'));
      writeFileSync(target, content);
    });
    const old = serializePlan(buildNamedPlan('old'));
    writeFileSync(path, old);
    const { stamp } = await files.open(path);
    const problem = await problemOf(files.save(path, buildNamedPlan('new'), { stamp, overwrite: false }));
    expect(problem.code).toBe('saved-beside');
    expect(problem.sentence).toContain('hoist (copy 1).kgplan');
    expect(readFileSync(path, 'utf8')).toBe(old);
    expect(JSON.parse(readFileSync(join(folder, 'hoist (copy 1).kgplan'), 'utf8')).name).toBe('new');
  });

  test('that would not open again is refused with the field’s name and nothing is written', async () => {
    const { files, path, folder } = await makeBench();
    const plan = buildNamedPlan('mine');
    const bad = { ...plan, allowance: { ...plan.allowance, top: Number.NaN } };
    const problem = await problemOf(files.save(path, bad, { stamp: null, overwrite: false }));
    expect(problem.where).toBe('allowance.top');
    expect(problem.sentence).toMatch(/^The plan cannot be saved as it is: /);
    expect(readdirSync(folder)).toEqual([]);
  });

  test('saved fifty times at once is whole and holds the last', async () => {
    const { files, path } = await makeBench();
    const names = Array.from({ length: 50 }, (_, index) => `plan ${index}`);
    await Promise.all(names.map((name) => files.save(path, buildNamedPlan(name), { stamp: null, overwrite: true })));
    expect((await files.open(path)).plan.name).toBe('plan 49');
  });
});

describe('a plan that a newer program wrote', () => {
  const newer = JSON.stringify({ ...buildNamedPlan('from next year'), version: 99, coolant: { kind: 'mist' } });

  test('opens to be looked at, and the sentences say what is missing', async () => {
    const { files, path } = await makeBench();
    writeFileSync(path, newer);
    const opened = await files.open(path);
    expect(opened).toMatchObject({
      plan: { name: 'from next year', version: PLAN_VERSION },
      readOnly: true,
      fromNewer: true,
    });
    expect(opened.remarks[0]).toBe(
      'hoist.kgplan was written by a newer Kerfgrip (file version 99), so it is open to look at only: what this version does not know of it is missing here.',
    );
    expect(opened.remarks.join()).toContain('Coolant');
  });

  test('is never written over, whatever the user was asked; under another name it can be kept', async () => {
    const { files, path, folder } = await makeBench();
    writeFileSync(path, newer);
    const { plan, stamp } = await files.open(path);
    for (const overwrite of [false, true]) {
      expect((await problemOf(files.save(path, plan, { stamp, overwrite }))).code).toBe('file-newer');
    }
    expect(readFileSync(path, 'utf8')).toBe(newer);
    await files.save(join(folder, 'b.kgplan'), plan, { stamp: null, overwrite: false });
    expect((await files.open(join(folder, 'b.kgplan'))).readOnly).toBe(false);
  });
});

describe('what a killed save has left beside a plan', () => {
  test('is taken away when the plan is opened a day later, and nothing else is', async () => {
    const { files, path, folder } = await makeBench();
    await files.save(path, buildNamedPlan('x'), { stamp: null, overwrite: false });
    await files.leave(path);
    const yesterday = new Date(Date.now() - 25 * 3_600_000);
    const names = ['.hoist.kgplan.0123456789ab.tmp', '.hoist.kgplan.notes.tmp', '.other.kgplan.0123456789ab.tmp'];
    for (const name of [...names, '.hoist.kgplan.ffffffffffff.tmp']) writeFileSync(join(folder, name), 'x');
    for (const name of names) utimesSync(join(folder, name), yesterday, yesterday);
    await files.open(path);
    await expect.poll(() => readdirSync(folder)).not.toContain(names[0]);
    expect(readdirSync(folder)).toEqual(
      expect.arrayContaining(['hoist.kgplan', '.hoist.kgplan.ffffffffffff.tmp', ...names.slice(1)]),
    );
  });
});

describe('a file that cannot be opened says why in one sentence', () => {
  const cases: readonly (readonly [string, string | Buffer, RegExp])[] = [
    ['no JSON', 'G0 X0 Y0', /is not JSON/],
    ['another JSON file', '{"format":"other"}', /is not a/],
    ['a cut-off plan', serializePlan(buildNamedPlan('x')).slice(0, 700), /ends too early/],
    [
      'a newer version that this one cannot make a plan of',
      '{"format":"kerfgrip-plan","version":99}',
      /newer Kerfgrip/,
    ],
    [
      'a negative length',
      JSON.stringify({ ...buildNamedPlan('x'), allowance: { ...buildNamedPlan('x').allowance, top: -1 } }),
      /must be 0 or more, not -1/,
    ],
    ['nothing', '', /is empty/],
    ['zeros', Buffer.alloc(4096), /is empty/],
    ['deep nesting', '['.repeat(200_000), /could not be opened/],
  ];

  test.each(cases)('%s', async (_, content, sentence) => {
    const { files, path } = await makeBench();
    writeFileSync(path, content);
    const problem = await problemOf(files.open(path));
    expect(problem.sentence).toMatch(/^hoist\.kgplan could not be opened: /);
    expect(problem.sentence).toMatch(sentence);
    expect(problem.sentence.match(/\n/)).toBeNull();
  });

  test('more than 50 MB', async () => {
    const { files, path } = await makeBench();
    writeFileSync(path, Buffer.alloc(50_000_001, 'x'));
    expect(await problemOf(files.open(path))).toMatchObject({
      code: 'file-too-large',
      sentence: expect.stringContaining('hoist.kgplan is larger than 50 MB'),
    });
  });

  test('50 MB of junk', async () => {
    const { files, path } = await makeBench();
    writeFileSync(path, Buffer.alloc(50_000_000, '[{"'));
    expect((await problemOf(files.open(path))).sentence).toMatch(/^hoist\.kgplan could not be opened: /);
  });

  test('a folder, a missing file, and a link in a circle', async () => {
    const { files, folder } = await makeBench();
    mkdirSync(join(folder, 'folder.kgplan'));
    symlinkSync(join(folder, 'circle.kgplan'), join(folder, 'circle.kgplan'));
    const sentences = await Promise.all(
      ['folder.kgplan', 'gone.kgplan', 'circle.kgplan', `${'n'.repeat(4000)}.kgplan`].map(
        async (name) => (await problemOf(files.open(join(folder, name)))).sentence,
      ),
    );
    expect(sentences).toEqual([
      'folder.kgplan is a folder and not a file.',
      'gone.kgplan could not be read: it or its folder is not there.',
      'circle.kgplan could not be read: its links lead in a circle.',
      expect.stringMatching(/^n+…n+\.kgplan could not be read: its name or path is too long for the system\.$/),
    ]);
  });

  test('saving over a folder, or into a folder that is gone, is refused', async () => {
    const { files, folder, path } = await makeBench();
    mkdirSync(path);
    const plan = buildNamedPlan('mine');
    const overFolder = await problemOf(files.save(path, plan, { stamp: null, overwrite: true }));
    expect(overFolder.sentence).toBe('hoist.kgplan was not saved: it is a folder and not a file.');
    const gone = await problemOf(files.save(join(folder, 'gone', 'a.kgplan'), plan, { stamp: null, overwrite: false }));
    expect(gone.sentence).toBe('a.kgplan was not saved: it or its folder is not there.');
  });

  test('a file that may only be read opens so and is not saved over, whatever the user was asked', async () => {
    const { files, path, folder } = await makeBench();
    const text = serializePlan(buildNamedPlan('x'));
    writeFileSync(path, text);
    chmodSync(folder, 0o777);
    chmodSync(path, 0o444);
    const opened = await asNobody(() => files.open(path));
    expect(opened.readOnly).toBe(true);
    expect(opened.remarks.join()).toContain('can only be read');
    const saving = (): Promise<unknown> => files.save(path, opened.plan, { stamp: opened.stamp, overwrite: true });
    expect(await asNobody(() => problemOf(saving()))).toMatchObject({
      code: 'file-eacces',
      sentence: 'hoist.kgplan was not saved: you are not allowed to use it.',
    });
    expect(readFileSync(path, 'utf8')).toBe(text);
  });
});

describe('a plan that someone else has open', () => {
  const writeNote = (path: string, since: Date, machine = 'the-other-machine'): void => {
    const note = { who: 'keeper', machine, processId: 1, session: 'session-b', since: since.toISOString() };
    writeFileSync(getLockPath(path), JSON.stringify(note));
  };

  test('opens with a remark, and asks before its file is written over', async () => {
    const { files, path } = await makeBench();
    writeFileSync(path, serializePlan(buildNamedPlan('x')));
    writeNote(path, new Date());
    const { remarks, stamp } = await files.open(path);
    expect(remarks.join()).toContain('keeper has this plan open on the-other-machine');
    const problem = await problemOf(files.save(path, buildNamedPlan('y'), { stamp, overwrite: false }));
    expect(problem).toMatchObject({ code: 'file-in-use', sentence: expect.stringContaining('keeper') });
    await files.save(path, buildNamedPlan('y'), { stamp, overwrite: true });
    expect((await files.open(path)).plan.name).toBe('y');
  });

  test('is free again once the note is stale: its program has ended, or it was not renewed', async () => {
    const { files, path } = await makeBench();
    writeFileSync(path, serializePlan(buildNamedPlan('x')));
    const note = { who: 'keeper', machine: hostname(), processId: 2 ** 22 + 5, session: 'b', since: '2026-03-01' };
    writeFileSync(getLockPath(path), JSON.stringify(note));
    expect((await files.open(path)).remarks).toEqual([]);
    await files.leave(path);
    writeNote(path, new Date());
    const longAgo = new Date(Date.now() - 3_600_000);
    utimesSync(getLockPath(path), longAgo, longAgo);
    expect((await files.open(path)).remarks).toEqual([]);
  });

  test('leaves no note once it is left, and junk in place of a note counts as none', async () => {
    const { files, path, folder } = await makeBench();
    writeFileSync(path, serializePlan(buildNamedPlan('x')));
    writeFileSync(getLockPath(path), 'junk');
    expect((await files.open(path)).remarks).toEqual([]);
    expect(JSON.parse(readFileSync(getLockPath(path), 'utf8'))).toMatchObject({ who: 'miller', session: 'session-a' });
    await files.leave(path);
    expect(readdirSync(folder)).toEqual(['hoist.kgplan']);
  });
});
