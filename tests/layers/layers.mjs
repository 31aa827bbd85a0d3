// Which layer may import which, type-only imports included. The list is of what is allowed:
// an import between files that no line here covers is an error, and so is a file in no layer.

import './read-tsx.mjs';

const layers = {
  units: '^shared/units/',
  model: '^shared/model/',
  engine: '^shared/engine/',
  nest: '^shared/nest/',
  findings: '^shared/findings/',
  evaluate: '^shared/evaluate([.]ts$|/)',
  drawing: '^shared/drawing/',
  outline: '^shared/outline/',
  lists: '^shared/lists/',
  contract: '^shared/contract/',
  renderer: '^renderer/',
  services: '^main/services/',
  desktop: '^main/desktop/',
  local: '^main/local/',
  start: '^main/start/',
  package: '^main/package/',
  cli: '^main/cli([.]ts$|/)',
  tests: '^(tests/|vite[.]config[.]ts$)',
};

const shared = ['units', 'model', 'engine', 'nest', 'findings', 'evaluate', 'drawing', 'outline', 'lists', 'contract'];

const may = {
  units: ['units'],
  model: ['units', 'model'],
  engine: ['units', 'model', 'engine'],
  nest: ['units', 'model', 'nest'],
  findings: ['units', 'model', 'engine', 'nest', 'findings'],
  outline: ['units', 'model', 'outline'],
  lists: ['units', 'model', 'engine', 'nest', 'lists'],
  evaluate: ['units', 'model', 'engine', 'nest', 'findings', 'evaluate'],
  drawing: ['units', 'model', 'engine', 'nest', 'findings', 'evaluate', 'drawing'],
  contract: ['units', 'model', 'evaluate', 'outline', 'lists', 'contract'],
  renderer: [...shared, 'renderer'],
  services: [...shared, 'services'],
  desktop: [...shared, 'services', 'desktop'],
  local: [...shared, 'services', 'local'],
  start: ['start'],
  package: ['package'],
  cli: [...shared, 'services', 'cli'],
  tests: Object.keys(layers),
};

const packages = {
  units: ['fraction[.]js'],
  model: ['zod'],
  nest: ['highs'],
  contract: ['zod'],
  renderer: [
    'react',
    'react-dom',
    'konva',
    'react-konva',
    'zustand',
    'zundo',
    'zod',
    'react-aria-components',
    'highs',
    'papaparse',
  ],
  services: ['pdfkit', 'bidi-js', 'papaparse', 'zod', 'highs', 'dxf', 'svgpath', 'saxes', 'tsx'],
  desktop: ['electron', 'zod'],
  local: ['zod'],
  start: ['@electron/get', 'electron'],
  package: ['@electron/fuses', 'electron-builder'],
  cli: ['highs'],
  tests: ['[^/]+', '@[^/]+/[^/]+'],
};

const nodeSide = ['services', 'desktop', 'local', 'start', 'package', 'cli', 'tests'];
const assets = ['renderer', 'services', 'desktop', 'local', 'cli', 'tests'];

const anyOf = (names) => names.map((name) => layers[name]);

export default {
  forbidden: [
    {
      name: 'unresolved',
      comment: 'Every import must be found; without this a wrong path would count as no import.',
      severity: 'error',
      from: {},
      to: { couldNotResolve: true },
    },
    {
      name: 'circular',
      severity: 'error',
      from: {},
      to: { circular: true },
    },
    {
      name: 'file-in-no-layer',
      comment: 'A file that neither imports nor is imported still has to belong to a layer.',
      severity: 'error',
      from: { orphan: true, pathNot: anyOf(Object.keys(layers)) },
      to: {},
    },
  ],
  allowedSeverity: 'error',
  allowed: [
    ...Object.entries(may).map(([from, to]) => ({ from: { path: layers[from] }, to: { path: anyOf(to) } })),
    ...Object.entries(packages).map(([from, names]) => ({
      from: { path: layers[from] },
      to: { path: names.map((name) => `^node_modules/(@types/)?${name}/`) },
    })),
    { from: { path: anyOf(nodeSide) }, to: { dependencyTypes: ['core'] } },
    { from: { path: anyOf(assets) }, to: { path: '^assets/' } },
  ],
  options: {
    parser: 'swc',
    tsPreCompilationDeps: true,
    doNotFollow: { path: 'node_modules' },
    moduleSystems: ['es6', 'cjs'],
    enhancedResolveOptions: {
      extensions: ['.ts', '.tsx', '.d.ts', '.js', '.mjs', '.cjs', '.json', '.css'],
      exportsFields: ['exports'],
      conditionNames: ['import', 'types', 'node', 'default', 'require'],
      mainFields: ['module', 'main', 'types', 'typings'],
    },
  },
};
