// Saves a plan and writes its journal over and over, until the process is killed.
import { join } from 'node:path';
import { createServices } from '../../../main/services/services';
import { buildNamedPlan } from '../../unit/services/sample-plan';

const [folder = '', start = '0'] = process.argv.slice(2);
const { planFiles, recovery } = createServices({ dataFolder: join(folder, 'data'), session: 'saver' });
for (let count = Number(start); ; count += 1) {
  const plan = { ...buildNamedPlan(`plan ${count}`), notes: `${count} `.repeat(2000) };
  await Promise.all([
    planFiles.save(join(folder, 'hoist.kgplan'), plan, { stamp: null, overwrite: true }),
    recovery.write(plan, { fileName: 'hoist.kgplan', path: null }),
  ]);
  if (count === Number(start)) console.log('saving');
}
