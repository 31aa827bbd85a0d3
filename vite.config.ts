import { fileURLToPath } from 'node:url';
import react from '@vitejs/plugin-react';
import type { EnvironmentOptions, Plugin } from 'vite';
import { defineConfig } from 'vitest/config';

const fromRoot = (path: string): string => fileURLToPath(new URL(path, import.meta.url));

/** Has the browser fetch what draws the first picture beside the entry, which imports it only once the host is asked. */
function preloadPage(): Plugin {
  return {
    name: 'preload-page',
    transformIndexHtml: {
      order: 'post',
      handler(_html, { bundle = {} }) {
        const page = Object.values(bundle).find((file) => file.type === 'chunk' && file.name === 'page');
        if (page?.type !== 'chunk') return [];
        const files = [page.fileName, ...page.imports].filter(
          (name) => bundle[name]?.type === 'chunk' && !bundle[name].isEntry,
        );
        return files.map((fileName) => ({
          tag: 'link',
          attrs: { rel: 'modulepreload', crossorigin: true, href: `./${fileName}` },
          injectTo: 'head' as const,
        }));
      },
    },
  };
}

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
  plugins: [react(), preloadPage()],
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
