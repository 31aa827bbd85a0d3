import { defaultShop } from '../../../shared/model/catalogue/default-shop';
import type { Plan } from '../../../shared/model/plan';
import type { Shop } from '../../../shared/model/shop';
import { buildNamedPlan } from '../../unit/services/sample-plan';

const NOTES = 2000;

/** A plan that says its number at its start and all through its notes, so that a mixed one shows. */
export function buildNumberedPlan(count: number): Plan {
  return { ...buildNamedPlan(`${count}`), notes: `${count} `.repeat(NOTES) };
}

/** A shop that says its number at its start and in entries all through it. */
export function buildNumberedShop(count: number): Shop {
  const name = `${count}`;
  return {
    ...defaultShop,
    name,
    vises: defaultShop.vises.map((vise) => ({ ...vise, name })),
    saws: defaultShop.saws.map((saw) => ({ ...saw, name })),
  };
}

/** The number of a plan that is whole; null of one that is mixed. */
export function getPlanNumber({ name, notes }: Plan): number | null {
  return notes === `${name} `.repeat(NOTES) ? Number(name) : null;
}

/** The number of a shop that is whole; null of one that is mixed. */
export function getShopNumber({ name, vises, saws }: Shop): number | null {
  return [...vises, ...saws].every((entry) => entry.name === name) ? Number(name) : null;
}
