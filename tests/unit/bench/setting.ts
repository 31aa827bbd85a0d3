import { getSetting } from '../../../renderer/bench/bench-model';
import type { Setting } from '../../../renderer/bench/gestures/mover';
import { evaluate } from '../../../shared/evaluate';
import { buildPart } from '../../../shared/model/build-part';
import { defaultShop } from '../../../shared/model/catalogue/default-shop';
import { buildHoistArms } from '../../../shared/model/catalogue/sample-hoist-arms';
import type { Plan } from '../../../shared/model/plan';
import type { Shop } from '../../../shared/model/shop';

export const inch = 25.4;

/** The hoist sample with what a test needs changed, and its setting as the Bench sees it. */
export function buildSetting(
  change: (plan: Plan) => Plan = (plan) => plan,
  blankIndex = 0,
  shop: Shop = defaultShop,
): { plan: Plan; shop: Shop; setting: Setting } {
  const plan = change(buildHoistArms());
  return { plan, shop, setting: settle(plan, shop, blankIndex) };
}

/** The setting of a plan as it stands after an edit. */
export function settle(plan: Plan, shop: Shop = defaultShop, blankIndex = 0): Setting {
  const setting = getSetting({ plan, evaluation: evaluate(plan, shop), shop, blankIndex, sectionX: 40 });
  if (setting === null) throw new Error('the plan has nothing to draw');
  return setting;
}

/** Jaw shelf and vises pinned, so that nothing but the gesture moves. */
export function pinHolding(plan: Plan): Plan {
  const soft = defaultShop.jawSets.find((jaws) => jaws.millable);
  if (soft === undefined) throw new Error('the shop has no soft jaws');
  return {
    ...plan,
    holding: {
      ...plan.holding,
      jawSetId: soft.id,
      seat: { pinned: { kind: 'shelf' } },
      vises: { pinned: [3 * inch, 9 * inch, 15 * inch] },
      blankX: { pinned: 0 },
    },
  };
}

/** A part cut off on tabs. */
export function withTabs(plan: Plan): Plan {
  return {
    ...plan,
    parts: [
      buildPart({ id: 'rod', name: 'Rod', length: 200, height: 20, thickness: 8, quantity: 2 }),
      ...plan.parts.slice(1),
    ],
    release: { ...plan.release, keep: { pinned: 'tabs' } },
  };
}
