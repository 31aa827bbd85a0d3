import { mkdirSync, readdirSync, readFileSync, rmSync, utimesSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { describe, expect, test } from 'vitest';
import { getDataFolder } from '../../../main/services/data-folder';
import { createKeptVersions } from '../../../main/services/kept-versions';
import { createRecents } from '../../../main/services/recents';
import { createRecovery } from '../../../main/services/recovery';
import { createShopLibrary } from '../../../main/services/shop-library';
import { defaultShop } from '../../../shared/model/catalogue/default-shop';
import { serializePlan, serializeShop } from '../../../shared/model/serialize';
import { buildNamedPlan } from './sample-plan';
import { makeClock, makeTempFolder } from './temp-folder';

const codeOf = (work: Promise<unknown>): Promise<string> =>
  work.then(
    () => 'done',
    (error) => error.problem.code,
  );

describe('the shop library', () => {
  const makeLibrary = (folder: string) => {
    const versions = createKeptVersions(join(folder, 'versions'), makeClock());
    return createShopLibrary({ file: join(folder, 'data', 'shop.json'), versions });
  };

  test('is the built-in shop until one is saved, and then the user’s own', async () => {
    const folder = await makeTempFolder();
    const library = makeLibrary(folder);
    expect(await library.load()).toEqual({ shop: defaultShop, remarks: [] });
    const own = { ...defaultShop, name: 'The watermill' };
    await library.save(own);
    await library.save({ ...own, currency: 'EUR' });
    const written = JSON.parse(serializeShop({ ...own, currency: 'EUR' }));
    expect(await makeLibrary(folder).load()).toEqual({ shop: written, remarks: [] });
  });

  test('that cannot be read is left as it is, and the sentence says what is used instead', async () => {
    const folder = await makeTempFolder();
    const file = join(folder, 'data', 'shop.json');
    mkdirSync(join(folder, 'data'));
    writeFileSync(file, '{"format":"kerfgrip-shop","version":1,');
    const library = makeLibrary(folder);
    const { shop, remarks } = await library.load();
    expect(shop).toEqual(defaultShop);
    expect(remarks).toEqual([
      expect.stringMatching(/^The shop file could not be opened: .*ends too early.*built-in shop/),
    ]);
    expect(await codeOf(library.save(defaultShop))).toBe('shop-unreadable');
    expect(readFileSync(file, 'utf8')).toBe('{"format":"kerfgrip-shop","version":1,');
    rmSync(file);
    expect(await codeOf(library.save(defaultShop))).toBe('done');
  });

  test('of a newer program is never written over', async () => {
    const folder = await makeTempFolder();
    const file = join(folder, 'data', 'shop.json');
    mkdirSync(join(folder, 'data'));
    writeFileSync(file, JSON.stringify({ ...defaultShop, version: 99 }));
    const library = makeLibrary(folder);
    expect((await library.load()).remarks.join()).toContain('newer Kerfgrip');
    expect(await codeOf(library.save(defaultShop))).toBe('shop-unreadable');
  });

  test('that another window has changed is not written over', async () => {
    const folder = await makeTempFolder();
    const [one, two] = [makeLibrary(folder), makeLibrary(folder)];
    await one.load();
    await two.load();
    await one.save({ ...defaultShop, name: 'one' });
    expect(await codeOf(two.save({ ...defaultShop, name: 'two' }))).toBe('file-changed');
    expect((await two.load()).shop.name).toBe('one');
  });
});

describe('the recovery journal', () => {
  const makeSession = (folder: string, session: string, now = makeClock()) =>
    createRecovery({ folder: join(folder, 'recovery'), session, now, readShop: async () => defaultShop });

  test('offers the work of a session that ended without saving, and not of one that runs', async () => {
    const folder = await makeTempFolder();
    const crashed = makeSession(folder, 'crashed', () => new Date());
    await crashed.write({
      plan: buildNamedPlan('unsaved arms'),
      file: { path: '/plans/hoist.kgplan', stamp: '1' },
      shop: null,
    });
    const next = makeSession(folder, 'next', () => new Date());
    expect(await next.listLeft()).toEqual([]);
    await crashed.close();
    expect(await next.listLeft()).toMatchObject([
      { id: 'crashed', fileName: 'hoist.kgplan', plan: { name: 'unsaved arms' } },
    ]);
  });

  test('says what differs from the file, or what is in it where there is no file', async () => {
    const folder = await makeTempFolder();
    const path = join(folder, 'hoist.kgplan');
    writeFileSync(path, serializePlan(buildNamedPlan('hoist')));
    const lost = { ...buildNamedPlan('hoist, wider'), notes: 'as measured' };
    for (const [session, file] of [
      ['on-file', { path, stamp: '1' }],
      ['never', null],
      ['gone', { path: join(folder, 'gone.kgplan'), stamp: '1' }],
    ] as const) {
      const ended = makeSession(folder, session);
      await ended.write({ plan: lost, file: file, shop: null });
      await ended.close();
    }
    const left = await makeSession(folder, 'next').listLeft();
    expect(Object.fromEntries(left.map(({ id, differs }) => [id, differs]))).toEqual({
      'on-file': ['the name was “hoist”', 'notes'],
      never: ['0 parts; 3 cuts'],
      gone: ['0 parts; 3 cuts'],
    });
  });

  test('offers nothing that is on file by now', async () => {
    const folder = await makeTempFolder();
    const path = join(folder, 'hoist.kgplan');
    const ended = makeSession(folder, 'ended');
    await ended.write({ plan: buildNamedPlan('hoist'), file: { path, stamp: '1' }, shop: null });
    await ended.close();
    writeFileSync(path, serializePlan(buildNamedPlan('another')));
    expect(await makeSession(folder, 'next').listLeft()).toHaveLength(1);
    writeFileSync(path, serializePlan(buildNamedPlan('hoist')));
    expect(await makeSession(folder, 'next').listLeft()).toEqual([]);
    expect(readdirSync(join(folder, 'recovery'))).toEqual([]);
  });

  test('keeps the shop while what is on file is another, and gives it back with the plan', async () => {
    const folder = await makeTempFolder();
    const path = join(folder, 'hoist.kgplan');
    writeFileSync(path, serializePlan(buildNamedPlan('hoist')));
    const work = { plan: buildNamedPlan('hoist'), file: { path, stamp: '1' } };
    const own = { ...defaultShop, name: 'The watermill' };
    for (const [session, shop] of [
      ['own-shop', own],
      ['shop-on-file', defaultShop],
    ] as const) {
      const ended = makeSession(folder, session);
      await ended.write({ ...work, shop });
      await ended.close();
    }
    const next = makeSession(folder, 'next');
    expect(await next.listLeft()).toMatchObject([{ id: 'own-shop', differs: ['the shop library'] }]);
    expect((await next.findLeft('own-shop'))?.shop?.name).toBe('The watermill');
  });

  test('does what it is told in that order: a discard is not overtaken by the write before it', async () => {
    const folder = await makeTempFolder();
    const own = makeSession(folder, 'own');
    await Promise.all([
      own.write({ plan: buildNamedPlan('a'), file: null, shop: null }),
      own.discardOwn(),
      own.write({ plan: buildNamedPlan('b'), file: null, shop: null }),
    ]);
    await own.close();
    expect((await makeSession(folder, 'next').listLeft()).map(({ plan }) => plan.name)).toEqual(['b']);
    await Promise.all([own.write({ plan: buildNamedPlan('c'), file: null, shop: null }), own.discardOwn()]);
    expect(await makeSession(folder, 'next').listLeft()).toEqual([]);
  });

  test('takes a session for ended when its sign of life is old, whatever runs under its process id now', async () => {
    const folder = await makeTempFolder();
    await makeSession(folder, 'killed', () => new Date()).write({ plan: buildNamedPlan('x'), file: null, shop: null });
    const longAgo = new Date(Date.now() - 600_000);
    utimesSync(join(folder, 'recovery', 'killed.alive'), longAgo, longAgo);
    expect(await makeSession(folder, 'next', () => new Date()).listLeft()).toHaveLength(1);
  });

  test('holds the last that was written, and nothing once it is discarded', async () => {
    const folder = await makeTempFolder();
    const own = makeSession(folder, 'own');
    for (const name of ['a', 'b', 'c']) await own.write({ plan: buildNamedPlan(name), file: null, shop: null });
    await own.setAside();
    expect((await own.listLeft()).map(({ plan }) => plan.name)).toEqual(['c']);
    await own.write({ plan: buildNamedPlan('d'), file: null, shop: null });
    await own.discardOwn();
    await own.discardOwn();
    expect((await own.listLeft()).map(({ plan }) => plan.name)).toEqual(['c']);
  });

  test('drops only the entries that are named, and reaches no other file', async () => {
    const folder = await makeTempFolder();
    for (const name of ['one', 'two']) {
      const session = makeSession(folder, name);
      await session.write({ plan: buildNamedPlan(name), file: null, shop: null });
      await session.close();
    }
    writeFileSync(join(folder, 'precious.journal.json'), 'x');
    const next = makeSession(folder, 'next');
    await next.discardLeft(['one', '../precious', 'unknown']);
    expect((await next.listLeft()).map(({ id }) => id)).toEqual(['two']);
    expect(readdirSync(folder)).toContain('precious.journal.json');
  });

  test('passes over a journal that cannot be read and leaves it there', async () => {
    const folder = await makeTempFolder();
    mkdirSync(join(folder, 'recovery'));
    writeFileSync(join(folder, 'recovery', 'odd.journal.json'), '{"format":"kerfgrip-recovery"');
    expect(await makeSession(folder, 'next').listLeft()).toEqual([]);
    expect(readdirSync(join(folder, 'recovery'))).toEqual(['odd.journal.json']);
  });

  test('says so when it cannot be written', async () => {
    const folder = await makeTempFolder();
    writeFileSync(join(folder, 'recovery'), 'a file in place of the folder');
    expect(
      await codeOf(makeSession(folder, 'own').write({ plan: buildNamedPlan('x'), file: null, shop: null })),
    ).toMatch(/^file-/);
  });
});

describe('the recent plans', () => {
  test('are listed latest first, each once, and no more than twelve', async () => {
    const folder = await makeTempFolder();
    const recents = createRecents(join(folder, 'recents.json'), makeClock());
    const paths = Array.from({ length: 14 }, (_, index) => `/plans/${index}.kgplan`);
    await Promise.all([...paths, '/plans/5.kgplan'].map((path) => recents.add(path)));
    const listed = (await recents.list()).map(({ path }) => path);
    expect(listed).toHaveLength(12);
    expect(listed.slice(0, 3)).toEqual(['/plans/5.kgplan', '/plans/13.kgplan', '/plans/12.kgplan']);
  });

  test('are empty when their list cannot be read', async () => {
    const folder = await makeTempFolder();
    writeFileSync(join(folder, 'recents.json'), '[1, 2');
    expect(await createRecents(join(folder, 'recents.json'), makeClock()).list()).toEqual([]);
  });
});

describe('the data folder', () => {
  test.each([
    ['linux', {}, '/home/miller/.local/share/kerfgrip'],
    ['linux', { XDG_DATA_HOME: '/data' }, '/data/kerfgrip'],
    ['linux', { XDG_DATA_HOME: 'relative' }, '/home/miller/.local/share/kerfgrip'],
    ['darwin', {}, '/home/miller/Library/Application Support/Kerfgrip'],
    ['win32', { APPDATA: 'C:\\Users\\miller\\AppData\\Roaming' }, 'C:\\Users\\miller\\AppData\\Roaming\\Kerfgrip'],
    ['linux', { KERFGRIP_DATA: '/tmp/own' }, '/tmp/own'],
  ] as const)('on %s with %o is %s', (platform, env, folder) => {
    expect(getDataFolder(platform, env, '/home/miller')).toBe(folder);
  });
});
