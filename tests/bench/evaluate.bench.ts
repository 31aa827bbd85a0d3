import { evaluate } from '../../shared/evaluate';
import { defaultShop } from '../../shared/model/catalogue/default-shop';
import type { Plan } from '../../shared/model/plan';
import { buildBenchPlan } from './evaluate-plan';

const WARM_UP_CALLS = 30;
const CALLS = 60;

/** Median time of one call, ms. */
function measure(call: (round: number) => void): number {
  for (let round = 0; round < WARM_UP_CALLS; round += 1) call(round);
  const times = Array.from({ length: CALLS }, (_, round) => {
    const from = performance.now();
    call(WARM_UP_CALLS + round);
    return performance.now() - from;
  });
  return times.sort((a, b) => a - b)[Math.floor(CALLS / 2)] ?? Number.NaN;
}

/** The same plan with the first vise moved a little, as a drag does. */
function dragVise(plan: Plan, centres: readonly number[], round: number): Plan {
  const moved = centres.map((centre, index) => centre + (index === 0 ? round / 100 : 0));
  return { ...plan, holding: { ...plan.holding, vises: { pinned: moved } } };
}

/** Prints ms a call and the ratio to reading the same plan and shop from JSON; returns what it printed. */
export function runEvaluateBench(): string[] {
  const { plan, shop } = buildBenchPlan();
  const json = JSON.stringify({ plan, shop });
  const first = performance.now();
  const cold = evaluate(plan, shop);
  const coldMs = performance.now() - first;
  const centres = cold.vises?.centres.value ?? [];
  const baseline = measure(() => JSON.parse(json));
  const rows: [string, number][] = [
    ['JSON.parse of the same plan and shop (baseline)', baseline],
    ['evaluate, the same plan again', measure(() => evaluate(plan, shop))],
    ['evaluate, a vise dragged between calls', measure((round) => evaluate(dragVise(plan, centres, round), shop))],
    [
      'evaluate, a part grown between calls (orders worked out anew)',
      measure((round) => evaluate(growPart(plan, round), shop)),
    ],
    ['evaluate, that plan with the sample shop', measure(() => evaluate(plan, defaultShop))],
  ];
  const lines = [
    `evaluate: ${plan.parts.length} parts, ${centres.length} vises, ${shop.bars.length} bars on offer; first call ${coldMs.toFixed(1)} ms`,
    ...rows.map(
      ([name, ms]) => `  ${ms.toFixed(2).padStart(8)} ms  × ${(ms / baseline).toFixed(1).padStart(6)}  ${name}`,
    ),
  ];
  for (const line of lines) console.log(line);
  return lines;
}

function growPart(plan: Plan, round: number): Plan {
  const [part, ...others] = plan.parts;
  return part === undefined ? plan : { ...plan, parts: [{ ...part, length: part.length + round / 100 }, ...others] };
}

if (process.argv[1]?.endsWith('evaluate.bench.ts')) runEvaluateBench();
