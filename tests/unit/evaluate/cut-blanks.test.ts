import { describe, expect, it } from 'vitest';
import type { Evaluation } from '../../../shared/evaluate';
import { defaultShop } from '../../../shared/model/catalogue/default-shop';
import type { NestInput } from '../../../shared/nest/types';
import { toNanometres } from '../../../shared/units/exact';
import { buildBar, buildJaws, buildVise, evaluateScenario, type Scenario } from '../engine-geometry/scenario';
import { findBruteBest } from '../nest/brute-force';
import { makeRandom } from '../nest/random-jobs';

const SAW = defaultShop.saws[0];
const KERF = SAW?.kerf ?? 0;

interface Job {
  readonly parts: readonly { readonly length: number; readonly quantity: number }[];
  readonly bars: readonly { readonly length: number; readonly price: number }[];
  /** Longest blank the machine travels over, mm. */
  readonly travel: number;
  /** Extra gap between parts on one blank, and metal at its two ends together, mm. */
  readonly gap: number;
  readonly ends: number;
}

function buildJob({ parts, bars, travel, gap, ends }: Job, change: Partial<Scenario> = {}): Scenario {
  return {
    units: 'mm',
    kerf: 3,
    parts: parts.map(({ length, quantity }, index) => ({
      id: `part-${index}`,
      name: `Part ${index}`,
      length,
      height: 20,
      thickness: 8,
      quantity,
    })),
    bars: [
      buildBar({
        id: 'bar',
        width: 40,
        thickness: 12,
        lengths: bars.map(({ length, price }) => ({
          id: `length-${length}`,
          length,
          price,
          stocked: true,
          quantity: null,
        })),
      }),
    ],
    vise: buildVise({ jawWidth: 1000 }),
    jaws: buildJaws(),
    rules: { gangGap: gap },
    shop: { machine: { ...defaultShop.machine, travelX: travel, tableLength: 3000 } },
    plan: (plan) => ({
      ...plan,
      cleanup: { ...plan.cleanup, leftEnd: ends / 2, rightEnd: ends / 2 },
      stock: { ...plan.stock, wayUp: { pinned: 'onEdge' } },
    }),
    ...change,
  };
}

/** The same job as the brute-force search reads it, with the lengths of the table of parts per blank. */
function buildInput({ parts, bars }: Job, { gang }: Evaluation): NestInput {
  return {
    demands: parts.map(({ quantity }, index) => ({
      id: `part-${index}`,
      parts: quantity,
      choices: gang
        .filter(({ partId, fits, partsPerBlank }) => partId === `part-${index}` && fits && partsPerBlank <= quantity)
        .map(({ partsPerBlank, blankLength }) => ({ partsPerBlank, lengthNm: toNanometres(blankLength) })),
    })),
    stocks: bars.map(({ length, price }) => ({
      id: `length-${length}`,
      kind: 'new',
      lengthNm: toNanometres(length),
      costMinor: price * 100,
      worthMinor: 0,
      quantity: null,
    })),
    kerfNm: toNanometres(KERF),
    ends: { squaringTrimNm: 0, badEndLeftNm: 0, badEndRightNm: 0, stubNm: 0 },
    remnantMinNm: 0,
  };
}

const listSizes = ({ blanks }: Evaluation): string[] => blanks.map(({ parts, count }) => `${count} x ${parts.length}`);

describe('sizes of blanks chosen together with the cutting', () => {
  it('cost what a search through every size and every way of cutting finds, and are proven', () => {
    const random = makeRandom(41);
    const disagreements: string[] = [];
    let mixed = 0;
    for (let run = 0; run < 150; run++) {
      const job: Job = {
        parts: Array.from({ length: 1 + random(3) }, () => ({ length: 30 + random(60), quantity: 1 + random(4) })),
        bars: Array.from({ length: 1 + random(2) }, (_, k) => ({
          length: 200 + 150 * k + random(120),
          price: 8 + random(8) + 6 * k,
        })),
        travel: 120 + random(150),
        gap: random(3) * 6,
        ends: random(2) * 8,
      };
      const evaluation = evaluateScenario(buildJob(job), { orderWorkUnits: 1e8 });
      const { order } = evaluation;
      const best = findBruteBest(buildInput(job, evaluation));
      if (order?.cost?.value !== (best?.total ?? Number.NaN) / 100 || order.totalBars !== best?.bars) {
        disagreements.push(
          `${run}: ${order?.cost?.value} for ${order?.totalBars}, best ${best?.total} for ${best?.bars}`,
        );
      }
      if (order?.proven !== true) disagreements.push(`${run}: not proven`);
      if (evaluation.spares.some(({ made, ordered }) => made < ordered)) disagreements.push(`${run}: too few made`);
      if (new Set(evaluation.blanks.map(({ parts }) => parts[0]?.partId)).size < evaluation.blanks.length) mixed++;
    }
    expect(disagreements).toEqual([]);
    expect(mixed).toBeGreaterThan(10);
  }, 120_000);

  it('keep the largest gangs where smaller ones save nothing', () => {
    const job: Job = {
      parts: [{ length: 60, quantity: 6 }],
      bars: [{ length: 1000, price: 20 }],
      travel: 260,
      gap: 20,
      ends: 0,
    };
    expect(listSizes(evaluateScenario(buildJob(job)))).toEqual(['2 x 3']);
  });

  it('go down where all of them then come out of one bar less', () => {
    // Each part alone needs one bar however it is ganged; together they fit one bar only as singles:
    // 4 x 60 + 4 x 55 with a kerf each is under 500, and every gap within a gang takes 20 more.
    const parts = [
      { length: 60, quantity: 4 },
      { length: 55, quantity: 4 },
    ];
    const job: Job = { parts, bars: [{ length: 460 + 7 * KERF, price: 20 }], travel: 260, gap: 20, ends: 0 };
    const evaluation = evaluateScenario(buildJob(job));
    expect([evaluation.order?.totalBars, evaluation.order?.proven]).toEqual([1, true]);
    expect(listSizes(evaluation)).toEqual(['4 x 1', '4 x 1']);
  });

  it('are the user’s where the user has pinned them', () => {
    const parts = [
      { length: 60, quantity: 4 },
      { length: 55, quantity: 4 },
    ];
    const job: Job = { parts, bars: [{ length: 460 + 7 * KERF, price: 20 }], travel: 260, gap: 20, ends: 0 };
    const scenario = buildJob(job);
    const pinned = evaluateScenario({
      ...scenario,
      plan: (plan) => ({ ...(scenario.plan?.(plan) ?? plan), partsPerBlank: { pinned: 2 } }),
    });
    expect(listSizes(pinned)).toEqual(['2 x 2', '2 x 2']);
    expect([pinned.order?.totalBars, pinned.order?.proven]).toEqual([2, true]);
  });

  it('keep to a limit on cutting patterns where other sizes can', () => {
    // Pairs of 60 and pairs of 55 do not go on one bar together; a single of each does, four times over.
    const parts = [
      { length: 60, quantity: 4 },
      { length: 55, quantity: 4 },
    ];
    const scenario = buildJob({ parts, bars: [{ length: 180, price: 20 }], travel: 160, gap: 0, ends: 0 });
    const limited = evaluateScenario({
      ...scenario,
      plan: (plan) => {
        const told = scenario.plan?.(plan) ?? plan;
        return { ...told, order: { ...told.order, maxPatterns: 1 } };
      },
    });
    expect(limited.findings.map(({ code }) => code)).not.toContain('too-many-patterns');
    expect(limited.order?.bars).toHaveLength(1);
    expect(limited.order?.proven).toBe(true);
  });

  it('tell each better order on the way, each whole and none dearer than the one before', () => {
    const parts = Array.from({ length: 7 }, (_, index) => ({ length: 47 + 13 * index, quantity: 9 + index }));
    const bars = [
      { length: 1000, price: 24 },
      { length: 2000, price: 44 },
    ];
    const costs: number[] = [];
    const last = evaluateScenario(buildJob({ parts, bars, travel: 260, gap: 9, ends: 0 }), {
      orderWorkUnits: 2e7,
      onProgress: (getEvaluation) => {
        const { order, blanks, spares } = getEvaluation();
        expect(spares.every(({ made, ordered }) => made >= ordered)).toBe(true);
        expect(order?.unplaced).toEqual([]);
        const cut = order?.bars.flatMap(({ times, lines }) =>
          lines.flatMap(({ kind }) => (kind === 'blank' ? times : [])),
        );
        expect(cut?.reduce((sum, times) => sum + times, 0)).toBe(blanks.reduce((sum, { count }) => sum + count, 0));
        expect(order?.bound ?? Number.NaN).toBeLessThanOrEqual(order?.cost?.value ?? Number.NaN);
        costs.push(order?.cost?.value ?? Number.NaN);
      },
    });
    expect(costs.length).toBeGreaterThan(1);
    expect(last.order?.cost?.value).toBeLessThanOrEqual(Math.min(...costs));
  });

  it('end with the best so far when told to stop', () => {
    const parts = Array.from({ length: 12 }, (_, index) => ({ length: 47 + 13 * index, quantity: 9 + index }));
    const job: Job = { parts, bars: [{ length: 2000, price: 44 }], travel: 260, gap: 9, ends: 0 };
    let asked = 0;
    const { order } = evaluateScenario(buildJob(job), { orderWorkUnits: 1e12, shouldStop: () => ++asked > 4 });
    expect(order?.unplaced).toEqual([]);
    expect(order?.bound ?? Number.NaN).toBeLessThanOrEqual(order?.cost?.value ?? Number.NaN);
  });
});

describe('money', () => {
  const job = buildJob({
    parts: [{ length: 180, quantity: 30 }],
    bars: [{ length: 1000, price: 1.235 }],
    travel: 400,
    gap: 3,
    ends: 4,
  });

  it.each(['KWD', 'JPY', 'EUR'])(
    'in %s is summed to the smallest unit the currency has, never coarser than a hundredth',
    (currency) => {
      const { order } = evaluateScenario({ ...job, shop: { ...job.shop, currency } });
      const bars = order?.purchase[0]?.count ?? 0;
      expect(bars).toBeGreaterThan(1);
      expect(order?.cost?.value).toBeCloseTo(bars * (currency === 'KWD' ? 1.235 : 1.24), 9);
      expect(order?.purchase[0]?.cost).toBeCloseTo(order?.cost?.value ?? 0, 9);
    },
  );
});
