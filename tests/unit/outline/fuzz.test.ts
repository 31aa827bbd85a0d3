import { expect, test } from 'vitest';
import { OUTLINE_FILES } from '../../data/outlines/outline-files';
import { fuzzReader, readDrawingWhole } from './fuzz-readers';

const files = [...OUTLINE_FILES].filter(([name]) => !name.includes('bomb'));

// A run in CI; `npm run test:soak` reads 10,000 of each.
test.each([
  ['DXF', '.dxf', 300],
  ['SVG', '.svg', 200],
])('%s files changed at random are read or refused, never more', (_format, ending, count) => {
  const outcome = fuzzReader(
    files.filter(([name]) => name.endsWith(ending)),
    readDrawingWhole,
    count,
    20_260,
  );
  expect(outcome.crashed).toEqual([]);
  expect(outcome.read).toBeGreaterThan(count / 10);
  expect(outcome.refused).toBeGreaterThan(count / 20);
});
