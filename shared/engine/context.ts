import type { PerFace } from '../model/faces';
import { FACES } from '../model/faces';
import { keepByObject } from '../model/memo';
import type { Part, Plan } from '../model/plan';
import { resolveShop } from '../model/plan-library';
import type { RuleKey, Rules } from '../model/rules';
import type {
  BarOffer,
  CutOffCutter,
  Holder,
  JawSet,
  Material,
  ParallelPair,
  Remnant,
  Saw,
  Shop,
  SizeClass,
  Tool,
  Vise,
} from '../model/shop';
import { getTidyNumbers } from './tidy-numbers';

/** Something the plan names that neither its library nor the shop holds, or a part that has no usable size. */
export interface Unresolved {
  kind: 'material' | 'bar' | 'sizeClass' | 'vise' | 'jawSet' | 'parallel' | 'tool' | 'holder' | 'saw' | 'part';
  /** The id that was not found, or the part's id. */
  id: string;
  /** Path of the field in the plan, such as `holding.viseId`. */
  path: string;
}

/** A plan with everything it names looked up once. What could not be found is null and listed in `unresolved`. */
export interface EngineContext {
  readonly plan: Plan;
  readonly shop: Shop;
  readonly rules: Rules;
  readonly units: 'in' | 'mm';
  readonly material: Material | null;
  readonly vise: Vise | null;
  readonly jawSet: JawSet | null;
  readonly saw: Saw | null;
  /** Parts with a usable size and quantity, in the plan's order. */
  readonly parts: readonly Part[];
  readonly partById: ReadonlyMap<string, Part>;
  /** Bars on offer in the plan's material. */
  readonly bars: readonly BarOffer[];
  readonly rack: readonly Remnant[];
  readonly parallels: readonly ParallelPair[];
  readonly cutOffCutters: readonly CutOffCutter[];
  readonly sizeClassById: ReadonlyMap<string, SizeClass>;
  readonly toolById: ReadonlyMap<string, Tool>;
  readonly holderById: ReadonlyMap<string, Holder>;
  readonly allowanceByPart: ReadonlyMap<string, PerFace<number>>;
  /** Height of the jaw tops above the vise bed; 0 without a vise. */
  readonly jawHeight: number;
  /** Shelf depths are multiples of this: the rule of the plan's units. */
  readonly shelfStep: number;
  /** Spacers come in multiples of this: likewise. */
  readonly spacerStep: number;
  readonly unresolved: readonly Unresolved[];
}

const NO_ALLOWANCE: PerFace<number> = { top: 0, bottom: 0, fixedSide: 0, movingSide: 0, leftEnd: 0, rightEnd: 0 };

/** A shop is large and seldom changes. */
const getTidyShop = keepByObject(getTidyNumbers<Shop>);

/**
 * Looks up everything a plan names. The plan's own copies win over the shop's entries of the same id.
 *
 * @param givenPlan any plan; numbers that are none are taken as 0 or auto; unknown ids and unusable sizes are listed, never thrown
 * @param givenShop the shop at hand
 */
export function buildContext(givenPlan: Plan, givenShop: Shop): EngineContext {
  const plan = getTidyNumbers(givenPlan);
  const shop = getTidyShop(givenShop);
  const unresolved: Unresolved[] = [];
  const { materials, vises, jawSets, saws, tools, holders, bars, parallels, sizeClasses } = resolveShop(plan, shop);
  const lookUp = <T extends { id: string }>(
    entries: readonly T[],
    id: string,
    kind: Unresolved['kind'],
    path: string,
  ): T | null => {
    const found = entries.find((entry) => entry.id === id) ?? null;
    if (found === null) unresolved.push({ kind, id, path });
    return found;
  };

  const material = lookUp(materials, plan.stock.materialId, 'material', 'stock.materialId');
  const vise = lookUp(vises, plan.holding.viseId, 'vise', 'holding.viseId');
  const jawSet = lookUp(jawSets, plan.holding.jawSetId, 'jawSet', 'holding.jawSetId');
  const saw = lookUp(saws, plan.order.sawId, 'saw', 'order.sawId');
  const { barId } = plan.stock;
  if (barId !== 'auto') lookUp(bars, barId.pinned, 'bar', 'stock.barId');
  const parts = plan.parts.filter(isUsablePart);
  plan.parts.forEach((part, index) => {
    if (!isUsablePart(part)) unresolved.push({ kind: 'part', id: part.id, path: `parts.${index}` });
  });
  plan.cuts.forEach((cut, index) => {
    if (cut.toolId !== '') lookUp(tools, cut.toolId, 'tool', `cuts.${index}.toolId`);
    if (cut.holderId !== '') lookUp(holders, cut.holderId, 'holder', `cuts.${index}.holderId`);
  });

  return {
    plan,
    shop,
    rules: shop.rules,
    units: plan.units,
    material,
    vise,
    jawSet,
    saw,
    parts,
    partById: new Map(parts.map((part) => [part.id, part])),
    bars: bars.filter((bar) => bar.materialId === plan.stock.materialId),
    rack: shop.rack.filter((remnant) => remnant.materialId === plan.stock.materialId),
    parallels: parallels,
    cutOffCutters: tools.filter(isCutOffCutter),
    sizeClassById: indexById(sizeClasses),
    toolById: indexById(tools),
    holderById: indexById(holders),
    allowanceByPart: new Map(parts.map((part) => [part.id, resolveAllowance(part, plan)])),
    jawHeight: jawSet?.height ?? vise?.jawHeight ?? 0,
    shelfStep: getStep(shop.rules, plan.units, 'shelfStepInch', 'shelfStepMm'),
    spacerStep: getStep(shop.rules, plan.units, 'spacerStepInch', 'spacerStepMm'),
    unresolved,
  };
}

/** Allowance left on each face of a part: its own where it has one, else the plan's. Lengths in mm, never negative. */
export function getAllowance(context: EngineContext, part: Part): PerFace<number> {
  return context.allowanceByPart.get(part.id) ?? NO_ALLOWANCE;
}

/** True for a tool that can part a piece off from the side. */
export function isCutOffCutter(tool: Tool): tool is CutOffCutter {
  return tool.kind === 'keySeat' || tool.kind === 'slittingSaw';
}

/** Nothing that is held or sawn is smaller, mm; dividing by less would lose all sense. */
const SMALLEST_SIZE = 0.001;

/** True when the number can stand for a size: finite and at least a micrometre. */
export function isSize(value: number): boolean {
  return Number.isFinite(value) && value >= SMALLEST_SIZE;
}

/** A part over a kilometre or an order over a million is a slip of the keys; it is listed, not planned. */
export const LARGEST_SIZE = 1e6;
export const LARGEST_QUANTITY = 1e6;

function isUsablePart(part: Part): boolean {
  return (
    [part.length, part.height, part.thickness].every((size) => isSize(size) && size <= LARGEST_SIZE) &&
    Number.isSafeInteger(part.quantity) &&
    part.quantity > 0 &&
    part.quantity <= LARGEST_QUANTITY
  );
}

function resolveAllowance(part: Part, plan: Plan): PerFace<number> {
  const stated = part.allowance ?? plan.allowance;
  const allowance = { ...NO_ALLOWANCE };
  for (const face of FACES) {
    const value = part.asSupplied.includes(face) ? 0 : stated[face];
    allowance[face] = Number.isFinite(value) && value > 0 ? value : 0;
  }
  return allowance;
}

function getStep(rules: Rules, units: 'in' | 'mm', inchKey: RuleKey, mmKey: RuleKey): number {
  const step = units === 'in' ? rules[inchKey] : rules[mmKey];
  return isSize(step) ? step : 0.001;
}

function indexById<T extends { id: string }>(entries: readonly T[]): ReadonlyMap<string, T> {
  return new Map(entries.map((entry) => [entry.id, entry]));
}
