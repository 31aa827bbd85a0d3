import { fileURLToPath } from 'node:url';
import react from '@vitejs/plugin-react';
import type { EnvironmentOptions, Plugin } from 'vite';
import { defineConfig } from 'vitest/config';

const fromRoot = (path: string): string => fileURLToPath(new URL(path, import.meta.url));

/**
 * Has the browser fetch the page's own code after the entry, which imports it when the still picture stands. No more than
 * that: fetched or compiled any sooner, so much code would hold up the picture.
 */
function preloadPage(): Plugin {
  return {
    name: 'preload-page',
    transformIndexHtml: {
      order: 'post',
      handler(_html, { bundle = {} }) {
        const chunks = Object.values(bundle).filter((file) => file.type === 'chunk');
        const page = chunks.find(({ name }) => name === 'page');
        const ofEntry = new Set(chunks.flatMap((one) => (one.isEntry ? [one.fileName, ...one.imports] : [])));
        const files = page === undefined ? [] : [page.fileName, ...page.imports].filter((file) => !ofEntry.has(file));
        return files.map((file) => ({
          tag: 'link',
          attrs: { rel: 'preload', as: 'script', fetchpriority: 'low', crossorigin: true, href: `./${file}` },
          injectTo: 'head' as const,
        }));
      },
    },
  };
}

/** The PDF library looks up its font widths at run time, out of a bundler's sight; this puts them into the bundle. */
export function bundleFontWidths(): Plugin {
  return {
    name: 'bundle-font-widths',
    enforce: 'pre',
    transform(code, id) {
      if (!id.endsWith('/pdfkit.node.mjs')) return null;
      // Each line stays as long as it was, as far as a source map can tell.
      return { code: code.replaceAll("require$1('#standard-fonts/", "require('pdfkit/standard-fonts/"), map: null };
    },
  };
}

interface NodeBundle {
  format?: 'es' | 'cjs';
  /** Whether packages go into the bundle, with their licences beside it; else it reads them from node_modules. */
  carriesPackages: boolean;
}

function nodeBundle(name: string, entry: string, { format = 'es', carriesPackages }: NodeBundle): EnvironmentOptions {
  return {
    consumer: 'server',
    resolve: {
      conditions: ['node'],
      ...(carriesPackages ? { noExternal: true as const } : { external: true as const }),
    },
    build: {
      ssr: fromRoot(entry),
      outDir: fromRoot('build/main'),
      emptyOutDir: false,
      license: carriesPackages && { fileName: `${name}-licences.txt` },
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
  test: {
    name,
    root: fromRoot('.'),
    include: [`tests/${name}/**/*.test.{ts,tsx}`],
    environment: 'node',
    // Ends a test that hangs; how fast the machine is must fail none.
    testTimeout: 120_000,
    hookTimeout: 120_000,
  },
});

export default defineConfig({
  root: fromRoot('renderer'),
  base: './',
  publicDir: false,
  cacheDir: fromRoot('node_modules/.vite'),
  plugins: [react(), preloadPage(), bundleFontWidths()],
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
    local: nodeBundle('local', 'main/local/main.ts', { carriesPackages: false }),
    // Electron reads these two as CommonJS whatever its version and wherever they lie; ES modules only newer ones do.
    desktop: nodeBundle('desktop', 'main/desktop/main.ts', { format: 'cjs', carriesPackages: true }),
    // The thread that files from outside are read in.
    importWorker: nodeBundle('import-worker', 'main/services/import/import-worker.ts', {
      format: 'cjs',
      carriesPackages: true,
    }),
    // A sandboxed preload script can read no packages.
    preload: nodeBundle('preload', 'main/desktop/preload.ts', { format: 'cjs', carriesPackages: true }),
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
