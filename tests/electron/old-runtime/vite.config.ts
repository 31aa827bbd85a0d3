// The same program for an Electron as old as version 9 (Chromium 83, Node 12): lower syntax, missing functions added,
// and newer calls of Electron and Node put on top of older ones. It is built for the tests alone.
import { cpSync, mkdirSync, readFileSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { fileURLToPath } from 'node:url';
import react from '@vitejs/plugin-react';
import { defineConfig, type EnvironmentOptions, type Plugin } from 'vite';
import { bundleFontWidths } from '../../../vite.config';

const fromRoot = (path: string): string => fileURLToPath(new URL(`../../../${path}`, import.meta.url));
const OUT = fromRoot('build/old-runtime');
const SHIMS = fromRoot('tests/electron/old-runtime/shims');

/** Modules that the old runtime lacks, or has under another name. */
const NODE_SIDE: Readonly<Record<string, string>> = {
  electron: join(SHIMS, 'electron.ts'),
  'fs/promises': join(SHIMS, 'fs-promises.ts'),
  crypto: join(SHIMS, 'crypto.ts'),
};

/** Leads a Node-side bundle to the shims and takes the `node:` that Node 12 does not know off the other modules. */
function takeShims(): Plugin {
  return {
    name: 'use-shims',
    enforce: 'pre',
    applyToEnvironment: ({ name }) => name !== 'client',
    resolveId(source, importer = '') {
      const name = source.replace(/^node:/, '');
      const isOutside = name !== source || name === 'electron';
      const takesShim = this.environment.name !== 'preload' && !importer.startsWith(SHIMS);
      const shim = takesShim ? NODE_SIDE[name] : undefined;
      return shim ?? (isOutside ? { id: name, external: true } : null);
    },
  };
}

/** Puts the missing functions in front of every entry. */
function addPolyfills(): Plugin {
  const entries = [
    'main/desktop/main.ts',
    'main/services/import/import-worker.ts',
    'renderer/main.ts',
    'renderer/bench/evaluate-worker.ts',
    'renderer/order/search-worker.ts',
  ].map(fromRoot);
  return {
    name: 'add-polyfills',
    enforce: 'pre',
    transform(code, id) {
      if (!entries.includes(id)) return null;
      const shims = id.startsWith(fromRoot('main/')) ? ['polyfills.ts', 'node-globals.ts'] : ['polyfills.ts'];
      return `${shims.map((file) => `import ${JSON.stringify(join(SHIMS, file))};\n`).join('')}${code}`;
    },
  };
}

/** Copies what lies beside the bundles in the program's folder. */
function copyFiles(): Plugin {
  return {
    name: 'copy-files',
    applyToEnvironment: ({ name }) => name === 'desktop',
    closeBundle() {
      mkdirSync(OUT, { recursive: true });
      const { type: _, dependencies: __, ...own } = JSON.parse(readFileSync(fromRoot('package.json'), 'utf8'));
      writeFileSync(join(OUT, 'package.json'), JSON.stringify(own, null, 2));
      cpSync(fromRoot('assets'), join(OUT, 'assets'), { recursive: true });
    },
  };
}

function nodeBundle(entry: string, file: string): EnvironmentOptions {
  return {
    consumer: 'server',
    resolve: { conditions: ['node'], noExternal: true, builtins: [] },
    build: {
      ssr: fromRoot(entry),
      outDir: join(OUT, 'build/main'),
      emptyOutDir: false,
      target: 'es2020',
      minify: false,
      rolldownOptions: {
        output: { format: 'cjs', entryFileNames: file, codeSplitting: false },
      },
    },
  };
}

export default defineConfig({
  root: fromRoot('renderer'),
  base: './',
  publicDir: false,
  cacheDir: fromRoot('node_modules/.vite-old-runtime'),
  plugins: [react(), bundleFontWidths(), takeShims(), addPolyfills(), copyFiles()],
  environments: {
    client: {
      build: {
        outDir: join(OUT, 'build/renderer'),
        emptyOutDir: true,
        target: 'es2020',
        cssTarget: 'chrome83',
        assetsInlineLimit: 0,
        chunkSizeWarningLimit: 4000,
      },
    },
    desktop: nodeBundle('main/desktop/main.ts', 'desktop.cjs'),
    importWorker: nodeBundle('main/services/import/import-worker.ts', 'import-worker.cjs'),
    preload: nodeBundle('main/desktop/preload.ts', 'preload.cjs'),
  },
  builder: {
    async buildApp(builder) {
      for (const environment of Object.values(builder.environments)) {
        if (environment.name !== 'ssr') await builder.build(environment);
      }
    },
  },
});
