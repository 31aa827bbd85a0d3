import { computeChance } from '../../shared/engine/chance';
import type { ChanceInputs } from '../../shared/engine/chance-model';
import { sampleChance } from '../../shared/engine/chance-sampling';
import { getRandomStream } from '../../shared/engine/random';
import { evaluate } from '../../shared/evaluate';
import { defaultShop } from '../../shared/model/catalogue/default-shop';
import { buildHoistArms } from '../../shared/model/catalogue/sample-hoist-arms';
import { buildBenchPlan } from './evaluate-plan';

const DRAWS = 10_000;
const CALLS = 15;

/** Median time of one call, ms. */
function measure(call: () => void): number {
  for (let round = 0; round < 5; round += 1) call();
  const times = Array.from({ length: CALLS }, () => {
    const from = performance.now();
    call();
    return performance.now() - from;
  });
  return times.sort((a, b) => a - b)[Math.floor(CALLS / 2)] ?? Number.NaN;
}

/** Drawing the bare numbers that as many draws take for one blank in one vise: seven a draw. */
function drawBare(): number {
  const stream = getRandomStream(1);
  let sum = 0;
  for (let draw = 0; draw < 7 * DRAWS; draw += 1) sum += stream.nextNormal();
  return sum;
}

/** Prints ms for 10 000 draws and for the sums, with ratios to drawing bare normal numbers; returns what it printed. */
export function runChanceBench(): string[] {
  const { plan, shop } = buildBenchPlan();
  const small: ChanceInputs = { ...evaluate(buildHoistArms(), defaultShop), rules: defaultShop.rules };
  const large: ChanceInputs = { ...evaluate(plan, shop), rules: shop.rules };
  const baseline = measure(drawBare);
  const rows: [string, number][] = [
    [`${7 * DRAWS} bare normal numbers (baseline)`, baseline],
    [`${DRAWS} draws, the sample plan`, measure(() => sampleChance(small, { draws: DRAWS, seed: 1 }))],
    [`${DRAWS} draws, 40 parts in 6 vises`, measure(() => sampleChance(large, { draws: DRAWS, seed: 1 }))],
    ['sums, the sample plan', measure(() => computeChance(small))],
    ['sums, 40 parts in 6 vises', measure(() => computeChance(large))],
  ];
  const lines = [
    'chance of grip, allowance and hold',
    ...rows.map(
      ([name, ms]) => `  ${ms.toFixed(2).padStart(8)} ms  × ${(ms / baseline).toFixed(2).padStart(6)}  ${name}`,
    ),
  ];
  for (const line of lines) console.log(line);
  return lines;
}

if (process.argv[1]?.endsWith('chance.bench.ts')) runChanceBench();
