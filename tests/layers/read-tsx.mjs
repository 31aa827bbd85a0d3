// dependency-cruiser reads TypeScript through swc, since TypeScript 7 offers no parser to it, but it never tells swc
// that a .tsx file holds JSX. This tells it.
import swc from '@swc/core';

const { parseFileSync } = swc;

swc.parseFileSync = (path, options) => parseFileSync(path, { ...options, tsx: path.endsWith('.tsx') });
