import { readFileSync } from 'node:fs';
import { describe, expect, it } from 'vitest';
import { type BinInstance, computeBinAnswer, parseBinInstance } from '../../shared/nest/bin-instance';

// Falkenauer 1996 (J. Heuristics 2:5-30), Scholl, Klein & Juergens 1997 (Computers & OR 24:627-645),
// Schwerin & Waescher 1997 (Int. Trans. OR 4:377-389), Waescher & Gau 1996 (OR Spektrum 18:131-144);
// optimal numbers of bins as listed with the instances in public collections.
const FILE = new URL('../data/bpp-dozen.tsv', import.meta.url);

const instances = readFileSync(FILE, 'utf8')
  .split('\n')
  .flatMap((text): BinInstance[] => {
    const line = parseBinInstance(text);
    if (line.kind === 'refused') throw new Error(line.reason);
    return line.kind === 'instance' ? [line.instance] : [];
  });

describe('public cutting-stock and bin-packing instances', () => {
  it('are a dozen or so, from every class', () => {
    expect(instances.length).toBeGreaterThanOrEqual(12);
  });

  it.each(instances.map((instance) => [instance.name, instance] as const))(
    '%s is solved to the known optimum and proven',
    (_, instance) => {
      const answer = computeBinAnswer(instance, { workUnits: 1e10 });
      expect([answer.bins, answer.bound, answer.isProven]).toEqual([instance.knownBins, instance.knownBound, true]);
      const left = new Map(instance.items.map((item) => [item.length, item.demand]));
      let bins = 0;
      for (const { lengths, counts, bins: alike } of answer.fillings) {
        bins += alike;
        const filled = lengths.reduce((sum, length, k) => sum + length * (counts[k] as number), 0);
        expect(filled).toBeLessThanOrEqual(instance.capacity);
        lengths.forEach((length, k) => {
          left.set(length, (left.get(length) ?? 0) - (counts[k] as number) * alike);
        });
      }
      expect(bins).toBe(answer.bins);
      expect(Math.max(...left.values())).toBeLessThanOrEqual(0);
    },
    30_000,
  );
});

describe('instance lines', () => {
  it('are read with items of one length put together', () => {
    expect(parseBinInstance('t\t10\t2\t3\t4x2 6x2 4x1')).toEqual({
      kind: 'instance',
      instance: {
        name: 't',
        capacity: 10,
        items: [
          { length: 6, demand: 2 },
          { length: 4, demand: 3 },
        ],
        knownBound: 2,
        knownBins: 3,
      },
    });
  });

  it('that are empty or comments hold nothing', () => {
    expect([parseBinInstance(''), parseBinInstance('# name')]).toEqual([{ kind: 'nothing' }, { kind: 'nothing' }]);
  });

  it.each([
    [7, 'A line of text is wanted.'],
    ['only a name', 'A line needs five fields with tabs between: name, capacity, bound, bins, items.'],
    ['t\t-5\t1\t1\t4x1', 't: the capacity must be a whole number over 0.'],
    ['t\t10\t1\t1\t4x0', 't: "4x0" is not LENGTHxDEMAND with whole numbers over 0.'],
    ['t\t10\t1\t1\t4.5x1', 't: "4.5x1" is not LENGTHxDEMAND with whole numbers over 0.'],
    ['t\t10\t1\t1\t12x1', 't: item 12 is longer than the capacity.'],
    ['t\t10\t1\t1\t', 't: there are no items.'],
  ])('%j is refused', (line, reason) => {
    expect(parseBinInstance(line)).toEqual({ kind: 'refused', reason });
  });
});
