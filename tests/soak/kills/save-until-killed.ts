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
for (let count = Number(start); ; count += 1) {
  const plan = buildNumberedPlan(count);
  await Promise.all([
    planFiles.save(join(folder, 'hoist.kgplan'), plan, { stamp: null, overwrite: true }),
    recovery.write({ plan, file: null, shop: null }),
    shopLibrary.save(buildNumberedShop(count)),
    recents.add(join(folder, `${count}.kgplan`)),
  ]);
  if (count === Number(start)) console.log('saving');
}
