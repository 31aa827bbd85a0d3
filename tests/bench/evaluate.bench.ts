import { loadavg } from 'node:os';
import { evaluate } from '../../shared/evaluate';
import { defaultShop } from '../../shared/model/catalogue/default-shop';
import type { Plan } from '../../shared/model/plan';
import type { Shop } from '../../shared/model/shop';
import { readSamplePlan, SAMPLE_NAMES } from '../unit/support/sample-plans';
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

function typeClamp(plan: Plan, round: number): Plan {
  return { ...plan, holding: { ...plan.holding, clamp: { kind: 'force', clampForceN: 9000 + round } } };
}

function typeAllowance(plan: Plan, round: number): Plan {
  return { ...plan, allowance: { ...plan.allowance, top: 1 + round / 100 } };
}

function growPart(plan: Plan, round: number): Plan {
  const [part, ...others] = plan.parts;
  return part === undefined ? plan : { ...plan, parts: [{ ...part, length: part.length + round / 100 }, ...others] };
}

type Row = [name: string, ms: number];

/** A field changes from call to call, so that no answer can be one that was given before. */
function measureEdits(name: string, plan: Plan, shop: Shop): Row[] {
  const centres = evaluate(plan, shop).vises?.centres.value ?? [];
  return [
    [`${name}: the same plan again`, measure(() => evaluate(plan, shop))],
    [`${name}: a vise dragged`, measure((round) => evaluate(dragVise(plan, centres, round), shop))],
    [`${name}: the clamp force typed`, measure((round) => evaluate(typeClamp(plan, round), shop))],
    [`${name}: the top allowance typed`, measure((round) => evaluate(typeAllowance(plan, round), shop))],
    [`${name}: a part grown`, measure((round) => evaluate(growPart(plan, round), shop))],
  ];
}

/** Prints ms a call and the ratio to reading the large plan and its shop from JSON; returns what it printed. */
export function runEvaluateBench(): string[] {
  const { plan, shop } = buildBenchPlan();
  const json = JSON.stringify({ plan, shop });
  const first = performance.now();
  const cold = evaluate(plan, shop);
  const coldMs = performance.now() - first;
  const baseline = measure(() => JSON.parse(json));
  const rows: Row[] = [
    ['JSON.parse of the large plan and its shop (baseline)', baseline],
    ...measureEdits('large', plan, shop),
    ...SAMPLE_NAMES.flatMap((name) => measureEdits(name, readSamplePlan(name), defaultShop)),
  ];
  const lines = [
    `evaluate: large plan of ${plan.parts.length} parts, ${cold.vises?.centres.value.length ?? 0} vises, ${shop.bars.length} bars on offer; first call ${coldMs.toFixed(1)} ms; load of the machine ${(loadavg()[0] ?? 0).toFixed(1)}`,
    ...rows.map(
      ([name, ms]) => `  ${ms.toFixed(2).padStart(8)} ms  × ${(ms / baseline).toFixed(1).padStart(6)}  ${name}`,
    ),
  ];
  for (const line of lines) console.log(line);
  return lines;
}

if (process.argv[1]?.endsWith('evaluate.bench.ts')) runEvaluateBench();
