import { expect, test } from 'vitest';
import { fuzzReader, readTableWhole } from '../outline/fuzz-readers';
import { LIST_FILES } from './list-files';

// A run in CI; `npm run test:soak` reads 10,000.
test('lists changed at random are read or refused, never more', () => {
  const outcome = fuzzReader(LIST_FILES, readTableWhole, 500, 7);
  expect(outcome.crashed).toEqual([]);
  expect(outcome.read).toBeGreaterThan(100);
});
