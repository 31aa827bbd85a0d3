// Saves a plan, its journal, the shop and the list of recent plans over and over, until the process is killed.
import { join } from 'node:path';
import { createServices } from '../../../main/services/services';
import { buildNumberedPlan, buildNumberedShop } from './numbered-work';

const [folder = '', start = '0'] = process.argv.slice(2);
const { planFiles, recovery, shopLibrary, recents } = createServices({
  dataFolder: join(folder, 'data'),
  session: 'saver',
});
await shopLibrary.load();

const SAVES: readonly ((count: number) => Promise<unknown>)[] = [
  (count) => planFiles.save(join(folder, 'hoist.kgplan'), buildNumberedPlan(count), { stamp: null, overwrite: true }),
  (count) => recovery.write({ plan: buildNumberedPlan(count), file: null, shop: null }),
  (count) => shopLibrary.save(buildNumberedShop(count)),
  (count) => recents.add(join(folder, `${count}.kgplan`)),
];

const first = Number(start);
await Promise.all(SAVES.map((save) => save(first)));
console.log('saving');
// Each on its own, so that one is being written while another is being made.
for (const save of SAVES) void saveOnAndOn(save);

async function saveOnAndOn(save: (count: number) => Promise<unknown>): Promise<void> {
  for (let count = first + 1; ; count += 1) await save(count);
}
