import { describe, expect, it } from 'vitest';
import type { WhyInput } from '../../shared/engine/figure';
import { evaluate } from '../../shared/evaluate';
import { getWorkings } from '../../shared/evaluate/workings';
import { getWorkingText } from '../../shared/evaluate/workings-text';
import { defaultShop } from '../../shared/model/catalogue/default-shop';
import { buildHoistArms } from '../../shared/model/catalogue/sample-hoist-arms';
import { buildKeeperLinks } from '../../shared/model/catalogue/sample-keeper-links';
import type { Plan } from '../../shared/model/plan';
import type { Shop } from '../../shared/model/shop';
import type { QuantityKind } from '../../shared/units/quantity';
import { evaluateFormula, getEquations, getInputsBySymbol, toSi } from './support/evaluate-formula';

const arms = buildHoistArms();
const links = buildKeeperLinks();

const holding = (plan: Plan, change: Partial<Plan['holding']>): Plan => ({
  ...plan,
  holding: { ...plan.holding, ...change },
});
const release = (plan: Plan, change: Partial<Plan['release']>): Plan => ({
  ...plan,
  release: { ...plan.release, ...change },
});

/** What the figures are worked out of: the samples, and the samples changed until every formula has come up. */
const PLANS: [string, Plan, Shop][] = [
  ['hoist arms', arms, defaultShop],
  ['keeper links', links, defaultShop],
  [
    'arms on a shelf, a nut factor',
    holding(arms, {
      seat: { pinned: { kind: 'shelf' } },
      clamp: { kind: 'torque', handleTorqueNm: 60, nutFactor: 0.2 },
    }),
    defaultShop,
  ],
  [
    'links on tabs, a clamp force',
    holding(release(links, { keep: { pinned: 'tabs' } }), { clamp: { kind: 'force', clampForceN: 9000 } }),
    defaultShop,
  ],
  [
    'arms in one vise, cut off from one side',
    holding(release(arms, { sides: 'fixedSide' }), { viseCount: { pinned: 1 } }),
    defaultShop,
  ],
  ['links with cuts after the cut-off', { ...links, cuts: [...links.cuts].reverse() }, defaultShop],
  [
    'arms by scrap rate, cut on one side',
    {
      ...arms,
      cleanup: { ...arms.cleanup, fromFixedJaw: { pinned: 0.3 } },
      order: { ...arms.order, spares: { kind: 'scrapRate', scrapRate: 0.05, confidence: 0.95 } },
    },
    defaultShop,
  ],
  [
    'links with so many spares, bar measured',
    {
      ...links,
      stock: { ...links.stock, measuredHeight: 34.9, measuredBow: 0.3 },
      order: { ...links.order, spares: { kind: 'pieces', pieces: 3 } },
    },
    defaultShop,
  ],
  [
    'links without spares, a bow seen',
    { ...links, order: { ...links.order, spares: { kind: 'none' } } },
    {
      ...defaultShop,
      bowMeasurements: [
        {
          id: 'one',
          date: '2026-01-02',
          materialId: links.stock.materialId,
          sizeClassId: 'other',
          length: 120,
          height: 20,
          bow: 0.2,
          sidesCut: 'both',
          note: '',
        },
      ],
      vises: defaultShop.vises.map((vise) => ({ ...vise, movingJawCannotCock: true })),
      rules: { ...defaultShop.rules, leastLedge: 2.9, ledge: 3 },
    },
  ],
  ['arms with short cutters', release(arms, { cutterId: { pinned: 'tool-key-1212' } }), defaultShop],
];

/** Formulas that say how something is chosen or looked up; there is nothing in them to add up. */
const NO_SUMS: readonly RegExp[] = [
  /^least cost over the bars/,
  /^skin = table\(/,
  /^grip = S, J - P or J$/,
  /^fewest for which overhang/,
  /^tabs where snap force/,
  /^chance = Σ over slices/,
  /^least n: P\(Bin/,
  /^P\(Bin\(made/,
  /^bars = sum over/,
  /^cost = sum\(/,
  // What a pair of places and a gap come to is a list of places.
  /^o = \(L - n B\)/,
  // Chooses a cutter; its reach has a figure of its own.
  /^reach = \(D - neck\)\/2 - running clearance >= /,
];

interface Found {
  path: string;
  value: number;
  kind: QuantityKind;
  why: { rule: string; formula: string; inputs: WhyInput[]; source: string };
}

/** Every number of an evaluation that carries its workings. Decisions are lengths but for the number of vises. */
function collect(value: unknown, path: string, found: Found[]): void {
  if (typeof value !== 'object' || value === null) return;
  if ('why' in value && 'value' in value && isWhy(value.why)) {
    const number = 'auto' in value ? value.auto : value.value;
    const kind = 'kind' in value ? (value.kind as QuantityKind) : path.endsWith('.count') ? 'count' : 'length';
    found.push({ path, value: typeof number === 'number' ? number : Number.NaN, kind, why: value.why });
    return;
  }
  for (const [key, inner] of Object.entries(value)) collect(inner, `${path}.${key}`, found);
}

function isWhy(why: unknown): why is Found['why'] {
  return typeof why === 'object' && why !== null && 'rule' in why;
}

function getFigures(plan: Plan, shop: Shop): Found[] {
  const found: Found[] = [];
  collect(evaluate(plan, shop), '', found);
  return found;
}

const isSum = ({ why }: Found): boolean => why.formula !== '' && !NO_SUMS.some((one) => one.test(why.formula));

/** Works a formula out afresh from the inputs shown with it, in SI units; what does not agree, in words. */
function findFaults({ path, value, kind, why }: Found): string[] {
  const given = toSi(value, kind);
  const equations = getEquations(why.formula);
  const inputs = getInputsBySymbol(why.inputs);
  const faults: string[] = [];
  const compare = (name: string, found: number, shown: number): void => {
    if (Math.abs(found - shown) > 1e-9 * Math.max(1e-6, Math.abs(shown))) {
      faults.push(`${path}: ${name} of ${why.formula} comes to ${found}, shown is ${shown}`);
    }
  };
  try {
    // What stands behind the first equation makes what the first takes, or is made from its result.
    const later = new Map([...inputs, [equations[0]?.name ?? '', given] as const]);
    for (const { name, right } of equations.slice(1).reverse()) {
      const shown = inputs.get(name) ?? inputs.get(name.split(' ').at(-1) ?? name);
      const found = evaluateFormula(right, later);
      if (shown === undefined) inputs.set(name, found);
      else compare(name, found, shown);
    }
    const first = equations[0];
    const limit = / <= (.*)$/u.exec(why.formula)?.[1];
    if (first !== undefined) compare(first.name, evaluateFormula(first.right, inputs), given);
    else if (limit === undefined) faults.push(`${path}: ${why.formula} is no sum`);
    else if (given > evaluateFormula(limit, inputs) + 1e-9) faults.push(`${path}: ${given} is over ${why.formula}`);
  } catch (error) {
    faults.push(`${path}: ${error instanceof Error ? error.message : ''}`);
  }
  return faults;
}

describe('every figure opens to its formula, its numbers and its source', () => {
  it.each(PLANS)('%s: says rule, formula and source', (_name, plan, shop) => {
    const figures = getFigures(plan, shop);
    expect(figures.length).toBeGreaterThan(40);
    for (const { path, why } of figures) {
      expect(why.rule, path).not.toBe('');
      expect(why.source, path).not.toBe('');
      if (why.formula !== '') expect(why.inputs, path).not.toEqual([]);
    }
    // A rule that stands alone: what a jaw holds well, a jaw that is not milled, a cut that does not lift.
    const bare = figures.filter(({ why }) => why.formula === '').map(({ path }) => path.replace(/\d+/gu, 'n'));
    const known = [
      '.seat.targetGrip',
      '.seat.deepestLegalShelf',
      '.blanks.n.hold.rows.n.liftFactor',
      '.blanks.n.hold.weakest.factor',
    ];
    expect(bare.filter((path) => !known.includes(path))).toEqual([]);
  });

  it.each(PLANS)('%s: the formula with its numbers gives the figure', (_name, plan, shop) => {
    const sums = getFigures(plan, shop).filter(isSum);
    expect(sums.length).toBeGreaterThan(30);
    expect(sums.flatMap(findFaults)).toEqual([]);
  });

  it.each(PLANS)('%s: the workings fill in every number that the formula names', (_name, plan, shop) => {
    const look = { units: plan.units, currency: shop.currency };
    const all = getWorkings(plan, evaluate(plan, shop), look).flatMap(({ workings }) => workings);
    for (const { id, why } of all) {
      if (why.formula === '' || NO_SUMS.some((one) => one.test(why.formula))) continue;
      const text = getWorkingText(why, look);
      expect(text.filled, `${id}: ${why.formula}`).toMatch(/\d/);
      const shown = new Map(text.inputs);
      for (const { name, right } of getEquations(why.formula)) {
        for (const input of why.inputs.filter((one) => one.kind !== 'text' && isNamedIn(right, one.name))) {
          const figure = shown.get(input.name)?.replace(/^× ?/u, '') ?? 'nothing';
          expect(text.filled, `${id}: ${name} = ${right}, ${input.name}`).toContain(figure);
        }
      }
    }
  });
});

/** Whether a name stands in a sum as a name of its own, no longer name being meant. */
function isNamedIn(right: string, name: string): boolean {
  const escaped = name.replace(/[.*+?^${}()|[\]\\]/gu, '\\$&');
  return new RegExp(`(?<![\\p{L}0-9 ])${escaped}(?![\\p{L}0-9 ])`, 'u').test(right);
}
