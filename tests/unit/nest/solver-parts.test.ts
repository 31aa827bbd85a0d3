import highsLoader, { type Highs } from 'highs';
import { beforeAll, describe, expect, it } from 'vitest';
import { computeNest } from '../../../shared/nest/compute-nest';
import { type CoreProblem, getWholeResidual } from '../../../shared/nest/core-model';
import { Knapsack } from '../../../shared/nest/knapsack';
import { MasterLp } from '../../../shared/nest/master-lp';
import { PatternPool } from '../../../shared/nest/pattern-pool';
import { computeRelaxation } from '../../../shared/nest/relaxation';
import type { NestInput } from '../../../shared/nest/types';
import { WorkMeter } from '../../../shared/nest/work-meter';
import { checkAnswer } from './check-answer';
import { makeRandom } from './random-jobs';

// Cross-checks against HiGHS (Huangfu & Hall 2018, Math. Prog. Comp. 10:119-142), a solver that is not ours.
let highs: Highs;
beforeAll(async () => {
  highs = await highsLoader();
});

const makeWork = (): WorkMeter => new WorkMeter({ workUnits: 1e12 });

/** Every filling of a capacity to which nothing can be added, by plain recursion. */
function listFullPatterns(sizes: readonly number[], bounds: readonly number[], capacity: number): number[][] {
  const found: number[][] = [];
  const counts = sizes.map(() => 0);
  const visit = (k: number, left: number): void => {
    if (k === sizes.length) {
      const isFull = sizes.every((size, j) => size > left || counts[j] === bounds[j]);
      if (isFull && counts.some((count) => count > 0)) found.push([...counts]);
      return;
    }
    const size = sizes[k] as number;
    for (let count = 0; count <= (bounds[k] as number) && count * size <= left; count++) {
      counts[k] = count;
      visit(k + 1, left - count * size);
    }
    counts[k] = 0;
  };
  visit(0, capacity);
  return found;
}

describe('bounded knapsack', () => {
  const solveNaively = (sizes: number[], profits: number[], bounds: number[], capacity: number): number => {
    let best = 0;
    const visit = (k: number, left: number, profit: number): void => {
      best = Math.max(best, profit);
      for (let j = k; j < sizes.length; j++) {
        for (let count = 1; count <= (bounds[j] as number) && count * (sizes[j] as number) <= left; count++) {
          visit(j + 1, left - count * (sizes[j] as number), profit + count * (profits[j] as number));
        }
      }
    };
    visit(0, capacity, 0);
    return best;
  };

  it.each([
    ['unit by unit', 1],
    ['on a coarse grid, with sizes of no common measure', 7919],
  ])('finds the best filling %s', (_, unit) => {
    const random = makeRandom(unit);
    for (let run = 0; run < 60; run++) {
      const n = 2 + random(7);
      const sizes = Array.from({ length: n }, () => (5 + random(60)) * unit + random(unit)).sort((a, b) => b - a);
      const profits = sizes.map((size) => Math.round(size / unit) * 1000 + random(3000));
      const bounds = sizes.map(() => 1 + random(4));
      const capacity = (60 + random(80)) * unit;
      const knapsack = new Knapsack(sizes, capacity, makeWork(), 200);
      knapsack.load(profits, bounds);
      const filling = knapsack.fill(capacity);
      const best = solveNaively(sizes, profits, bounds, capacity);
      const length = filling.items.reduce(
        (sum, item, k) => sum + (sizes[item] as number) * (filling.counts[k] as number),
        0,
      );
      expect(filling.profit).toBe(best);
      expect(Math.floor(filling.ceiling)).toBe(best);
      expect(length).toBeLessThanOrEqual(capacity);
      filling.items.forEach((item, k) => {
        expect(filling.counts[k]).toBeLessThanOrEqual(bounds[item] as number);
      });
      for (const varied of knapsack.fillVaried(capacity, 0, 5)) expect(varied.profit).toBeLessThanOrEqual(best);
    }
  });

  it('lists every filling of at least a profit, or says that there are too many', () => {
    const sizes = [50, 31, 22, 13];
    const bounds = [2, 2, 3, 3];
    const knapsack = new Knapsack(sizes, 100, makeWork());
    knapsack.load(sizes, bounds);
    const listed: number[] = [];
    expect(knapsack.list(100, 95, 1000, (_items, _counts, profit) => listed.push(profit))).toBe(true);
    const wanted = listFullPatterns(sizes, bounds, 100)
      .map((counts) => counts.reduce((sum, count, k) => sum + count * (sizes[k] as number), 0))
      .filter((length) => length >= 95);
    expect(listed.sort()).toEqual(wanted.sort());
    expect(knapsack.list(100, 1, 3, () => undefined)).toBe(false);
  });
});

describe('linear program', () => {
  it('has the same least cost as HiGHS on random covering problems', () => {
    const random = makeRandom(11);
    for (let run = 0; run < 40; run++) {
      const [m, n] = [3 + random(12), 8 + random(40)];
      const right = Array.from({ length: m }, () => 1 + random(30));
      const columns = Array.from({ length: n }, () => {
        const rows = [...new Set(Array.from({ length: 1 + random(4) }, () => random(m)))];
        return { cost: 1 + random(20) / 4, rows, values: rows.map(() => 1 + random(5)) };
      });
      right.forEach((_, row) => {
        columns.push({ cost: 30, rows: [row], values: [1] });
      });
      const lp = new MasterLp(right, 1e4, makeWork());
      for (const column of columns) lp.addColumn(column);
      expect(lp.solve()).toBe(true);
      const rows = right.map((bound, row) => {
        const terms = columns.flatMap((column, j) => {
          const at = column.rows.indexOf(row);
          return at < 0 ? [] : [`+ ${column.values[at]} x${j}`];
        });
        return ` r${row}: ${terms.join(' ')} >= ${bound}`;
      });
      const objective = columns.map((column, j) => `+ ${column.cost} x${j}`).join(' ');
      const solution = highs.solve(`Minimize\n o: ${objective}\nSubject To\n${rows.join('\n')}\nEnd`);
      expect(lp.getObjective()).toBeCloseTo(solution.ObjectiveValue, 3);
    }
  });
});

describe('pattern relaxation', () => {
  it('proves the bound that HiGHS finds over all patterns listed one by one', () => {
    const random = makeRandom(23);
    for (let run = 0; run < 25; run++) {
      const capacity = 60 + random(60);
      const sizes = [...new Set(Array.from({ length: 3 + random(5) }, () => 8 + random(capacity / 2)))].sort(
        (a, b) => b - a,
      );
      const demands = sizes.map(() => 1 + random(12));
      const core: CoreProblem = {
        sizes,
        demands,
        rows: sizes.map((_, row) => row),
        values: sizes.map(() => 1),
        stocks: [{ capacity, weight: 1, quantity: Number.POSITIVE_INFINITY }],
      };
      const work = makeWork();
      const context = { core, work, pool: new PatternPool(), knapsack: new Knapsack(sizes, capacity, work) };
      const { bound, isConverged } = computeRelaxation(context, getWholeResidual(core), Number.POSITIVE_INFINITY);
      const patterns = listFullPatterns(sizes, demands, capacity);
      const rows = sizes.map((_, row) => {
        const terms = patterns.flatMap((counts, j) => ((counts[row] as number) > 0 ? [`+ ${counts[row]} x${j}`] : []));
        return ` r${row}: ${terms.join(' ')} >= ${demands[row]}`;
      });
      const objective = patterns.map((__, j) => `+ x${j}`).join(' ');
      const solution = highs.solve(`Minimize\n o: ${objective}\nSubject To\n${rows.join('\n')}\nEnd`);
      expect(isConverged).toBe(true);
      expect(bound).toBe(Math.ceil(solution.ObjectiveValue - 1e-6));
    }
  });
});

describe('several bar lengths and prices', () => {
  it('cost what HiGHS finds with every pattern of every bar before it', () => {
    for (let seed = 0; seed < 25; seed++) {
      const input = makeMiddlingJob(seed);
      const result = computeNest(input, { workUnits: 1e9 });
      expect(checkAnswer(input, result)).toEqual([]);
      expect(result.isProven).toBe(true);
      expect(result.totalMinor).toBe(priceWithHighs(input));
    }
  }, 60_000);
});

/** Some thirty blanks of half a dozen lengths from two or three kinds of bar, one of them scarce. */
function makeMiddlingJob(seed: number): NestInput {
  const random = makeRandom(seed * 31 + 7);
  return {
    demands: Array.from({ length: 4 + random(3) }, (_, k) => ({
      id: `d${k}`,
      parts: 2 + random(8),
      choices: [{ partsPerBlank: 1, lengthNm: 90 + random(300) }],
    })),
    stocks: Array.from({ length: 2 + random(2) }, (_, k) => ({
      id: `s${k}`,
      kind: 'new' as const,
      lengthNm: 500 + random(500),
      costMinor: 300 + random(400),
      worthMinor: 0,
      quantity: k === 1 ? 1 + random(4) : null,
    })),
    kerfNm: 3,
    ends: { squaringTrimNm: 0, badEndLeftNm: 0, badEndRightNm: 0, stubNm: 0 },
    remnantMinNm: 0,
  };
}

function priceWithHighs(input: NestInput): number {
  const sizes = input.demands.map((demand) => (demand.choices[0]?.lengthNm ?? 0) + input.kerfNm);
  const bounds = input.demands.map((demand) => demand.parts);
  const columns = input.stocks.flatMap((stock) => {
    return listFullPatterns(sizes, bounds, stock.lengthNm + input.kerfNm).map((counts) => ({ stock, counts }));
  });
  const rows = sizes.map((_, row) => {
    const terms = columns.flatMap(({ counts }, j) => ((counts[row] as number) > 0 ? [`+ ${counts[row]} x${j}`] : []));
    return ` r${row}: ${terms.join(' ')} >= ${bounds[row]}`;
  });
  const limits = input.stocks.flatMap((stock) => {
    if (stock.quantity === null) return [];
    const terms = columns.flatMap((column, j) => (column.stock === stock ? [`+ x${j}`] : []));
    return terms.length === 0 ? [] : [` q_${stock.id}: ${terms.join(' ')} <= ${stock.quantity}`];
  });
  const objective = columns.map(({ stock }, j) => `+ ${stock.costMinor} x${j}`).join(' ');
  const names = columns.map((_, j) => `x${j}`);
  const wrap = (text: string): string => text.replace(/((?:\S+ ){60})/g, '$1\n  ');
  const text = [
    'Minimize',
    wrap(` o: ${objective}`),
    'Subject To',
    ...[...rows, ...limits].map(wrap),
    'General',
    wrap(` ${names.join(' ')}`),
    'End',
  ];
  const solution = highs.solve(text.join('\n'), { mip_rel_gap: 0, output_flag: false });
  return Math.round(solution.ObjectiveValue);
}

describe('work meter', () => {
  it('ends a stage at its own limit and never lets it beyond the limit around it', () => {
    const work = new WorkMeter({ workUnits: 100 });
    work.within(30, () => {
      work.add(30);
      expect(work.isOut()).toBe(true);
    });
    expect([work.isOut(), work.left]).toEqual([false, 70]);
    work.within(1000, () => expect(work.left).toBe(70));
  });

  it('asks the caller at the first look, and stays stopped', () => {
    let isWanted = true;
    const work = new WorkMeter({ workUnits: 1e9, shouldStop: () => isWanted });
    expect(work.isOut()).toBe(true);
    isWanted = false;
    expect(work.isOut()).toBe(true);
  });
});
