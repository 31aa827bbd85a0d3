import { type EvaluateOptions, type Evaluation, evaluate } from '../../../shared/evaluate';
import { buildPart, type PartStart } from '../../../shared/model/build-part';
import { defaultShop } from '../../../shared/model/catalogue/default-shop';
import { buildEmptyPlan, getEveryFace } from '../../../shared/model/defaults';
import type { Plan } from '../../../shared/model/plan';
import type { BarOffer, JawSet, KeySeatCutter, Shop, SizeClass, Vise } from '../../../shared/model/shop';
import { inchesToMm } from '../../../shared/units/exact';

export const inch = inchesToMm;

/** mm as inches, for comparing with a scenario that is told in inches. */
export const toInches = (mm: number | undefined): number => (mm ?? Number.NaN) / 25.4;

/** A size class whose only deviation is the one told: minus by size, square corners, straight, no skin. */
export function buildSizeClass(change: Partial<SizeClass> = {}): SizeClass {
  return {
    id: 'class-test',
    name: 'Test class',
    standard: 'test',
    form: 'coldFinished',
    surface: 'drawn',
    widthBands: [],
    thicknessBands: [],
    bandBy: 'each',
    skinBands: [],
    cornerBands: [],
    straightness: { perLength: 0, bow: 0, overLength: 0, source: 'test' },
    source: 'test',
    ...change,
  };
}

export const LOW_CARBON = 'material-low-carbon-steel';

/** A bar in one length and price, sizes in mm. */
export function buildBar(change: Partial<BarOffer> & Pick<BarOffer, 'id' | 'width' | 'thickness'>): BarOffer {
  return {
    name: change.id,
    materialId: LOW_CARBON,
    sizeClassId: 'class-test',
    priceBasis: 'piece',
    lengths: [{ id: 'length-144in', length: inch(144), price: 50, stocked: true, quantity: null }],
    measured: null,
    source: 'test',
    ...change,
  };
}

/** A cut-off cutter of one width, mm, that reaches far. */
export function buildCutter(width: number, change: Partial<KeySeatCutter> = {}): KeySeatCutter {
  const cutter = defaultShop.tools.find((tool) => tool.kind === 'keySeat');
  if (cutter === undefined || cutter.kind !== 'keySeat') throw new Error('the shop has no key-seat cutter');
  return {
    ...cutter,
    id: 'cutter-test',
    width,
    diameter: inch(1),
    neckDiameter: inch(0.25),
    neckLength: inch(3),
    overallLength: inch(5),
    ...change,
  };
}

const firstVise = defaultShop.vises[0];
const firstJaws = defaultShop.jawSets[0];

/** The six inch vise with what is told changed, lengths in mm. */
export function buildVise(change: Partial<Vise> = {}): Vise {
  const vise = defaultShop.vises.find(({ id }) => id === 'vise-6in') ?? firstVise;
  if (vise === undefined) throw new Error('the shop has no vise');
  return { ...vise, ...change, id: 'vise-test' };
}

/** Smooth jaws without limits but those told, lengths in mm. */
export function buildJaws(change: Partial<JawSet> = {}): JawSet {
  if (firstJaws === undefined) throw new Error('the shop has no jaws');
  return {
    ...firstJaws,
    name: 'Test jaws',
    face: 'soft',
    thickness: inch(1),
    height: null,
    millable: true,
    bolts: null,
    leastFlatGrip: 0,
    comfortableGrip: 0,
    maxProudToGrip: 100,
    maxProudToThickness: 100,
    ...change,
    id: 'jaws-test',
  };
}

export interface Scenario {
  units?: 'in' | 'mm';
  parts?: PartStart[];
  bars?: BarOffer[];
  sizeClass?: SizeClass;
  vise?: Vise;
  jaws?: JawSet;
  kerf?: number;
  shop?: Partial<Shop>;
  rules?: Partial<Shop['rules']>;
  plan?: (plan: Plan) => Plan;
}

/** A shop and a plan with nothing in it but what a scenario tells; allowances, cleanup and clearance are 0 until told. */
export function buildScenario(scenario: Scenario): { plan: Plan; shop: Shop } {
  const shop: Shop = {
    ...defaultShop,
    sizeClasses: [scenario.sizeClass ?? buildSizeClass()],
    bars: scenario.bars ?? [],
    rack: [],
    vises: [scenario.vise ?? buildVise()],
    jawSets: [scenario.jaws ?? buildJaws()],
    parallels: [],
    tools: [buildCutter(scenario.kerf ?? inch(0.125))],
    ...scenario.shop,
    rules: { ...defaultShop.rules, clearance: 0, ...scenario.rules },
  };
  const units = scenario.units ?? 'in';
  const start = buildEmptyPlan({ units, date: '', author: '', shop });
  const plan: Plan = {
    ...start,
    parts: (scenario.parts ?? []).map(buildPart),
    stock: { ...start.stock, materialId: LOW_CARBON },
    allowance: getEveryFace(0),
    cleanup: { ...start.cleanup, top: 0, leftEnd: 0, rightEnd: 0 },
    holding: { ...start.holding, viseId: 'vise-test', jawSetId: 'jaws-test' },
    cuts: [],
    order: {
      ...start.order,
      squaringTrim: { pinned: 0 },
      badEnd: { pinned: 0 },
      stub: { pinned: 0 },
      spares: { kind: 'none' },
    },
  };
  return { plan: scenario.plan === undefined ? plan : scenario.plan(plan), shop };
}

/** {@link evaluate} of a scenario. */
export function evaluateScenario(scenario: Scenario, options: EvaluateOptions = {}): Evaluation {
  const { plan, shop } = buildScenario(scenario);
  return evaluate(plan, shop, options);
}
