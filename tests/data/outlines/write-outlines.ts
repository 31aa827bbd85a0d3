// Writes the drawings of `outline-files.ts` beside it: node --import tsx tests/data/outlines/write-outlines.ts
import { mkdirSync, rmSync, writeFileSync } from 'node:fs';
import { fileURLToPath } from 'node:url';
import { OUTLINE_FILES } from './outline-files';

const folder = fileURLToPath(new URL('files/', import.meta.url));
rmSync(folder, { recursive: true, force: true });
mkdirSync(folder);
for (const [name, content] of OUTLINE_FILES) writeFileSync(`${folder}${name}`, content);
console.log(`${OUTLINE_FILES.size} drawings`);
