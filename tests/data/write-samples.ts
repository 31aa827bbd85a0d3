import { mkdir, writeFile } from 'node:fs/promises';
import { fileURLToPath } from 'node:url';
import { SAMPLES } from '../../shared/model/catalogue/samples';
import { serializePlan } from '../../shared/model/serialize';

// Writes assets/samples anew from their builders: npx tsx tests/data/write-samples.ts
const folder = new URL('../../assets/samples/', import.meta.url);
await mkdir(folder, { recursive: true });
for (const [name, build] of Object.entries(SAMPLES)) {
  const file = fileURLToPath(new URL(`${name}.kgplan`, folder));
  await writeFile(file, serializePlan(build()));
  console.log(file);
}
