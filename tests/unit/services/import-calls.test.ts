import { mkdirSync, readFileSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { expect, onTestFinished, test } from 'vitest';
import { createHost } from '../../../main/services/host-calls';
import { type HostDialogs, NO_DIALOGS } from '../../../main/services/host-dialogs';
import { createServices } from '../../../main/services/services';
import type { Host, Reply } from '../../../shared/contract/host';
import { defaultShop } from '../../../shared/model/catalogue/default-shop';
import { compareShops } from '../../../shared/model/merge-shop';
import { OUTLINE_FILES } from '../../data/outlines/outline-files';
import { makeTempFolder } from './temp-folder';

async function makeDesk(dialogs: HostDialogs = NO_DIALOGS): Promise<{ plans: string; call: Host['call'] }> {
  const folder = await makeTempFolder();
  const plans = join(folder, 'plans');
  mkdirSync(plans);
  for (const name of ['bores.dxf', 'svg-mm.svg']) writeFileSync(join(plans, name), OUTLINE_FILES.get(name) ?? '');
  writeFileSync(join(plans, 'parts.csv'), 'Name;Length (mm)\nStrut;1,5\n');
  writeFileSync(join(plans, 'notes.md'), 'x');
  const services = createServices({ dataFolder: join(folder, 'data'), samplesFolder: folder });
  services.home = plans;
  onTestFinished(() => services.close());
  return { plans, call: createHost(services, dialogs).call as Host['call'] };
}

async function getValue<T>(reply: Promise<Reply<T>>): Promise<T> {
  const got = await reply;
  if (!got.ok) throw new Error(got.problem.sentence);
  return got.value;
}

async function getCode(reply: Promise<Reply<unknown>>): Promise<string> {
  const got = await reply;
  return got.ok ? 'done' : got.problem.code;
}

test('a folder lists the files of the kind that is asked for, and no others', async () => {
  const { call } = await makeDesk();
  const list = async (show: 'drawing' | 'list' | 'shop'): Promise<string[]> =>
    (await getValue(call('browseFiles', { folder: null, show }))).entries.map(({ name }) => name);
  expect(await list('drawing')).toEqual(['bores.dxf', 'svg-mm.svg']);
  expect(await list('list')).toEqual(['parts.csv']);
  expect(await list('shop')).toEqual([]);
});

test('a drawing and a list are read by the token of the folder that listed them', async () => {
  const { call } = await makeDesk();
  const drawings = await getValue(call('browseFiles', { folder: null, show: 'drawing' }));
  const outline = await getValue(call('readOutline', { token: drawings.entries[0]?.token ?? '' }));
  expect(outline).toMatchObject({ name: 'bores.dxf', drawing: { format: 'dxf', declaredUnit: 'mm' } });
  const lists = await getValue(call('browseFiles', { folder: null, show: 'list' }));
  const list = await getValue(call('readTable', { token: lists.entries[0]?.token ?? '', delimiter: null }));
  expect(list?.table.delimiter).toBe(';');
  const again = await getValue(call('readTable', { token: list?.token ?? '', delimiter: ',' }));
  expect(again?.table.rows[1]?.cells).toEqual(['Strut;1', '5']);
});

test('nothing is read that no folder listed, and a host without dialogs asks for a choice', async () => {
  const { call, plans } = await makeDesk();
  expect(await getCode(call('readOutline', { token: join(plans, 'bores.dxf') }))).toBe('unknown-token');
  expect(await getCode(call('readOutline', { token: null }))).toBe('no-dialog');
  expect(await getCode(call('readTable', { token: null, delimiter: null }))).toBe('no-dialog');
  expect(await getCode(call('readShop', { token: null }))).toBe('no-dialog');
});

test('a host with dialogs asks for a file of the kind, and thinking better of it is no problem', async () => {
  const asked: string[] = [];
  const dialogs: HostDialogs = {
    ...NO_DIALOGS,
    native: true,
    askOpen: async (what) => {
      asked.push(what);
      return null;
    },
  };
  const { call } = await makeDesk(dialogs);
  expect(await getValue(call('readOutline', { token: null }))).toBeNull();
  expect(await getValue(call('readTable', { token: null, delimiter: null }))).toBeNull();
  expect(await getValue(call('readShop', { token: null }))).toBeNull();
  expect(asked).toEqual(['drawing', 'list', 'shop']);
});

test('a list is written disarmed, with the mark of its encoding, and never over a file that is there', async () => {
  const { call, plans } = await makeDesk();
  const { folder } = await getValue(call('browse', { folder: null }));
  const request = {
    rows: [
      ['Name', 'Length (mm)'],
      ['=1+1', '2,5'],
    ],
    delimiter: ';' as const,
    suggestedName: 'x',
    target: { folder, name: 'out', replace: false },
  };
  expect(await getValue(call('exportTable', request))).toEqual({ name: 'out.csv', folder: plans });
  expect(readFileSync(join(plans, 'out.csv'), 'utf8')).toBe("\uFEFFName;Length (mm)\r\n'=1+1;2,5\r\n");
  expect(await getCode(call('exportTable', request))).toBe('file-exists');
});

test('a shop library goes out and comes back as it was; one that is damaged is refused by name', async () => {
  const { call, plans } = await makeDesk();
  const { folder } = await getValue(call('browse', { folder: null }));
  const target = { folder, name: 'mine', replace: false };
  await getValue(call('exportShop', { shop: defaultShop, suggestedName: '', target }));
  writeFileSync(join(plans, 'broken.kgshop'), '{"format":"kerfgrip-shop","version":1');
  const { entries } = await getValue(call('browseFiles', { folder: null, show: 'shop' }));
  expect(entries.map(({ name }) => name)).toEqual(['broken.kgshop', 'mine.kgshop']);
  const read = await getValue(call('readShop', { token: entries[1]?.token ?? '' }));
  expect(read).toMatchObject({ name: 'mine.kgshop', remarks: [] });
  const lines = compareShops(defaultShop, read?.shop ?? { ...defaultShop, tools: [] });
  expect(lines.filter(({ kind }) => kind !== 'same')).toEqual([]);
  expect(lines.length).toBeGreaterThan(100);
  const refused = await call('readShop', { token: entries[0]?.token ?? '' });
  expect(refused).toMatchObject({ ok: false, problem: { sentence: expect.stringContaining('broken.kgshop') } });
});
