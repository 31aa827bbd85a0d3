import { type Evaluation, evaluate } from '../../../shared/evaluate';
import { defaultShop } from '../../../shared/model/catalogue/default-shop';
import type { SampleName } from '../../../shared/model/catalogue/samples';
import type { Part, Plan } from '../../../shared/model/plan';
import type { Shop } from '../../../shared/model/shop';
import { readSamplePlan } from './sample-plans';

/** A plan with what the engine says of it, ready to draw. */
export interface Drawn {
  plan: Plan;
  shop: Shop;
  evaluation: Evaluation;
}

/** A sample plan, changed by `change` before it is evaluated. */
export function getDrawn(sample: SampleName, change: (plan: Plan) => void = () => {}): Drawn {
  const plan = readSamplePlan(sample);
  change(plan);
  return { plan, shop: defaultShop, evaluation: evaluate(plan, defaultShop) };
}

/** The inch sample with a shelf milled into soft jaws instead of parallels. */
export function getDrawnOnShelf(): Drawn {
  return getDrawn('hoist-arms', (plan) => {
    plan.holding.seat = { pinned: { kind: 'shelf' } };
  });
}

/** The metric sample with `count` kinds of part, each a little different. */
export function getDrawnWithParts(count: number, getName = (index: number): string => `Link ${index + 1}`): Drawn {
  return getDrawn('keeper-links', (plan) => {
    const first = plan.parts[0];
    if (!first) {
      throw new Error('The sample has no part.');
    }
    plan.parts = Array.from({ length: count }, (_unused, index) => buildVariant(first, index, getName(index)));
  });
}

function buildVariant(part: Part, index: number, name: string): Part {
  return {
    ...structuredClone(part),
    id: `part-${index + 1}`,
    name,
    quantity: 1 + (index % 5),
    stations: [],
    holes: part.holes.map((hole) => ({ ...hole, id: `${hole.id}-${index}`, x: 10 + (index % 3) })),
    length: 60 + (index % 20) * 3,
    height: 14 + (index % 6),
  };
}
