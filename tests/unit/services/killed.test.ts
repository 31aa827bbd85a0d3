import { expect, test } from 'vitest';
import { createChance } from '../../soak/bad-files/spoil-json';
import { KILLED_FILES, killWhileSaving } from '../../soak/kills/kill-saves';
import { makeTempFolder } from './temp-folder';

// `npm run test:soak` kills 300 times.
test('a process that is killed while it saves leaves whole files, old or new, never mixed', {
  timeout: 60_000,
}, async () => {
  const outcome = await killWhileSaving({
    folder: await makeTempFolder(),
    kills: 8,
    program: ['--import', 'tsx', 'tests/soak/kills/save-until-killed.ts'],
    chance: createChance(1),
  });
  expect(outcome.faults).toEqual([]);
  expect(outcome).toMatchObject({ kills: 8, whole: 8 * KILLED_FILES });
});
