import { fileURLToPath } from 'node:url';
import react from '@vitejs/plugin-react';
import type { EnvironmentOptions } from 'vite';
import { defineConfig } from 'vitest/config';

const fromRoot = (path: string): string => fileURLToPath(new URL(path, import.meta.url));

/**
 * A Node-side bundle. The hosts read packages from node_modules, where PDF and solver libraries find the data files
 * that lie beside their code; a sandboxed preload script can read none and has to carry what it uses.
 */
function nodeBundle(name: string, entry: string, format: 'es' | 'cjs'): EnvironmentOptions {
  return {
    consumer: 'server',
    resolve: {
      conditions: ['node'],
      ...(format === 'cjs' ? { noExternal: true as const } : { external: true as const }),
    },
    build: {
      ssr: fromRoot(entry),
      outDir: fromRoot('build/main'),
      emptyOutDir: false,
      target: 'node20',
      minify: false,
      sourcemap: true,
      rolldownOptions: {
        external: ['electron'],
        output: {
          format,
          entryFileNames: `${name}.${format === 'cjs' ? 'cjs' : 'js'}`,
          chunkFileNames: `${name}-[name].js`,
        },
      },
    },
  };
}

const testProject = (name: string) => ({
  extends: true as const,
  root: fromRoot('.'),
  test: { name, root: fromRoot('.'), include: [`tests/${name}/**/*.test.{ts,tsx}`], environment: 'node' },
});

export default defineConfig({
  root: fromRoot('renderer'),
  base: './',
  publicDir: false,
  cacheDir: fromRoot('node_modules/.vite'),
  plugins: [react()],
  environments: {
    client: {
      build: {
        outDir: fromRoot('build/renderer'),
        // What the page bundles comes with its licences.
        license: { fileName: 'licences.txt' },
        emptyOutDir: true,
        target: 'es2023',
        sourcemap: true,
        // A data: font or image would need a wider content policy than 'self'.
        assetsInlineLimit: 0,
        chunkSizeWarningLimit: 2000,
      },
    },
    local: nodeBundle('local', 'main/local/main.ts', 'es'),
    desktop: nodeBundle('desktop', 'main/desktop/main.ts', 'es'),
    // The thread that files from outside are read in.
    importWorker: nodeBundle('import-worker', 'main/services/import/import-worker.ts', 'es'),
    // A sandboxed preload script cannot be an ES module.
    preload: nodeBundle('preload', 'main/desktop/preload.ts', 'cjs'),
  },
  builder: {
    async buildApp(builder) {
      for (const environment of Object.values(builder.environments)) {
        if (environment.name !== 'ssr') await builder.build(environment);
      }
    },
  },
  test: {
    projects: [testProject('unit'), testProject('published')],
  },
});
