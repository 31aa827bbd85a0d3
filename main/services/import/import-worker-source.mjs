// The reading thread where the program runs as written: a thread does not take over the loader its parent reads TypeScript with.
import { tsImport } from 'tsx/esm/api';

await tsImport('./import-worker.ts', import.meta.url);
