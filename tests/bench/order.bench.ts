import { loadavg } from 'node:os';
import { type EvaluateOptions, evaluate, THOROUGH } from '../../shared/evaluate';
import type { Plan } from '../../shared/model/plan';
import type { Shop } from '../../shared/model/shop';
import { buildBenchPlan } from './evaluate-plan';

const ROUNDS = 9;

/** Comparing every section may take no longer than this, ms. */
const SECTIONS_TARGET = 1000;

function getMedian(numbers: readonly number[]): number {
  return [...numbers].sort((a, b) => a - b)[Math.floor(numbers.length / 2)] ?? Number.NaN;
}

/** Every part a little longer, so that no answer can be one that was given before. */
function growParts(plan: Plan, round: number): Plan {
  return { ...plan, parts: plan.parts.map((part) => ({ ...part, length: part.length + (round + 1) / 64 })) };
}

function time<T>(work: () => T): { ms: number; result: T } {
  const from = performance.now();
  const result = work();
  return { ms: performance.now() - from, result };
}

function compareSections(plan: Plan, shop: Shop): string[] {
  const chosen = evaluate(plan, shop).section?.barId.value;
  const alone: Shop = { ...shop, bars: shop.bars.filter(({ id }) => id === chosen) };
  const rounds = Array.from({ length: ROUNDS }, (_, round) => growParts(plan, round)).map((grown) => ({
    all: time(() => evaluate(grown, shop)),
    one: time(() => evaluate(grown, alone)),
  }));
  const all = getMedian(rounds.map((round) => round.all.ms));
  const one = getMedian(rounds.map((round) => round.one.ms));
  const worst = Math.max(...rounds.map((round) => round.all.ms));
  const rows = rounds[0]?.all.result.sections.length ?? 0;
  return [
    `order: ${shop.bars.length} bars on offer, ${plan.parts.length} part lengths, ${rows} sections compared; load of the machine ${(loadavg()[0] ?? 0).toFixed(1)}`,
    `  ${one.toFixed(0).padStart(8)} ms  ×    1.0  the plan with one bar on offer (baseline)`,
    `  ${all.toFixed(0).padStart(8)} ms  × ${(all / one).toFixed(1).padStart(6)}  every section compared, parts never seen before (worst ${worst.toFixed(0)} ms; aim ${SECTIONS_TARGET} ms)`,
  ];
}

/** The order as it stands while typing, after the search beside the page, and with other rules for its blanks. */
function searchOrders(plan: Plan, shop: Shop): string[] {
  const typed = time(() => evaluate(plan, shop));
  const tell = (name: string, { ms, result }: { ms: number; result: ReturnType<typeof evaluate> }): string => {
    const { order } = result;
    const cost = order?.cost?.value ?? Number.NaN;
    const base = typed.result.order?.cost?.value ?? Number.NaN;
    const gap = (100 * (cost - (order?.bound ?? 0))) / cost;
    return `  ${ms.toFixed(0).padStart(8)} ms  cost × ${(cost / base).toFixed(4)}  gap ${gap.toFixed(2).padStart(5)} %  ${order?.loads ?? 0} loads  ${name}`;
  };
  const search = (name: string, change: (plan: Plan) => Plan, options: EvaluateOptions): string =>
    tell(
      name,
      time(() => evaluate(change(plan), shop, options)),
    );
  return [
    tell('while typing (baseline)', typed),
    search('searched: sizes of blanks chosen with the cutting', (one) => one, THOROUGH),
    search('searched: one part a blank', (one) => ({ ...one, partsPerBlank: { pinned: 1 } }), THOROUGH),
    search(
      'searched: at most 30 cutting patterns',
      (one) => ({ ...one, partsPerBlank: { pinned: 1 }, order: { ...one.order, maxPatterns: 30 } }),
      THOROUGH,
    ),
  ];
}

/** Prints how long all sections take to compare, and what the search for a cheaper order gains; returns what it printed. */
export function runOrderBench(): string[] {
  const { plan, shop } = buildBenchPlan();
  const lines = [...compareSections(plan, shop), ...searchOrders(plan, shop)];
  for (const line of lines) console.log(line);
  return lines;
}

if (process.argv[1]?.endsWith('order.bench.ts')) runOrderBench();
