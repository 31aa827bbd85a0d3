import { describe, expect, it } from 'vitest';
import { isBowKept, type MeasuredBow } from '../../../renderer/panels/kept-bow';

const bow: MeasuredBow = {
  date: '2026-03-02',
  materialId: 'material-4140-annealed',
  sizeClassId: 'a108-flat',
  length: 184.15,
  height: 31.75,
  bow: 0.2,
  sidesCut: 'both',
  note: '',
};
const kept = [{ id: 'bow-1', ...bow }];

describe('a measured bow is kept in the shop', () => {
  it('when it is there in every figure, whatever is noted beside it', () => {
    expect(isBowKept(kept, bow)).toBe(true);
    expect(isBowKept(kept, { ...bow, note: 'third arm' })).toBe(true);
    expect(isBowKept([], bow)).toBe(false);
  });

  it.each<Partial<MeasuredBow>>([
    { date: '2026-03-03' },
    { materialId: 'material-304' },
    { sizeClassId: 'en-10278-h11' },
    { length: 292.1 },
    { height: 34.925 },
    { bow: 0.25 },
    { sidesCut: 'one' },
  ])('but not when another differs in %o', (other) => {
    expect(isBowKept(kept, { ...bow, ...other })).toBe(false);
  });
});
