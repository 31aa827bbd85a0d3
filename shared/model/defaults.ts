import { inchesToMm } from '../units/exact';
import { buildDefaultCuts } from './default-cuts';
import type { PerFace } from './faces';
import type { Holding, OrderChoice, Plan, PlanLibrary, Release, StockChoice } from './plan';
import type { Shop } from './shop';
import { PLAN_VERSION } from './versions';

export interface EmptyPlanStart {
  units: Plan['units'];
  /** ISO date of the day, from the host's clock, or ''. */
  date: string;
  author: string;
  /** Where material, vise, jaws, tools and saw are picked from. */
  shop: Shop;
}

type Units = Plan['units'];

/** Left on every face for later operations. Common practice, no source. */
const USUAL_ALLOWANCE: Readonly<Record<Units, number>> = { in: inchesToMm(0.03), mm: 0.75 };
/** Taken off the raw top. Common practice, no source. */
const USUAL_TOP_CLEANUP: Readonly<Record<Units, number>> = { in: inchesToMm(0.03), mm: 0.75 };
/** Taken off each sawn end. Common practice, no source. */
const USUAL_END_CLEANUP: Readonly<Record<Units, number>> = { in: inchesToMm(0.06), mm: 1.5 };

/** The vise a plan starts with, if the shop has it. */
const USUAL_VISE: Readonly<Record<Units, string>> = { in: 'vise-6in', mm: 'vise-125mm' };
const USUAL_HANDLE_TORQUE_NM = 80;

/** The same value for all six faces. */
export function getEveryFace<T>(value: T): PerFace<T> {
  return { top: value, bottom: value, fixedSide: value, movingSide: value, leftEnd: value, rightEnd: value };
}

/** A library with nothing in it yet. */
export function buildEmptyLibrary(): PlanLibrary {
  return {
    materials: [],
    sizeClasses: [],
    bars: [],
    vises: [],
    jawSets: [],
    parallels: [],
    tools: [],
    holders: [],
    saws: [],
  };
}

/**
 * A new plan: no parts yet, every decision left to the engine, usual values for the rest.
 *
 * @returns a valid plan; ids of the shop that are missing stay '' until the user picks
 */
export function buildEmptyPlan({ units, date, author, shop }: EmptyPlanStart): Plan {
  return {
    format: 'kerfgrip-plan',
    version: PLAN_VERSION,
    name: 'New plan',
    number: '',
    revision: '',
    author,
    date,
    notes: '',
    units,
    parts: [],
    stock: buildStock(shop),
    allowance: getEveryFace(USUAL_ALLOWANCE[units]),
    laterOperation: getEveryFace('finished after release'),
    cleanup: {
      top: USUAL_TOP_CLEANUP[units],
      leftEnd: USUAL_END_CLEANUP[units],
      rightEnd: USUAL_END_CLEANUP[units],
      skinPerSide: 'auto',
      fromFixedJaw: 'auto',
    },
    layout: 'auto',
    partsPerBlank: 'auto',
    holding: buildHolding(shop, units),
    release: buildRelease(),
    cuts: buildDefaultCuts(shop, units),
    order: buildOrder(shop),
    zero: { x: 'stop', y: 'fixedJaw', z: 'jawTop' },
    marking: { text: '', place: '', method: '', when: 'tag' },
    sheet: { paper: 'auto', sectionScale: 'auto', elevationScale: 'auto' },
    accepted: [],
    recorded: [],
    library: buildEmptyLibrary(),
  };
}

function buildStock(shop: Shop): StockChoice {
  return {
    materialId: shop.materials[0]?.id ?? '',
    barId: 'auto',
    wayUp: 'auto',
    measuredHeight: null,
    measuredThickness: null,
    measuredBow: null,
    heatMark: '',
  };
}

function buildHolding(shop: Shop, units: Units): Holding {
  const vise = shop.vises.find(({ id }) => id === USUAL_VISE[units]) ?? shop.vises[0];
  return {
    viseId: vise?.id ?? '',
    jawSetId: vise === undefined ? '' : findSoftJawsId(shop, vise.id),
    viseCount: 'auto',
    vises: 'auto',
    seat: 'auto',
    shelfDepth: 'auto',
    spacer: 'auto',
    spacerHeight: 'auto',
    blankX: 'auto',
    targetGrip: 'auto',
    clamp: { kind: 'torque', handleTorqueNm: USUAL_HANDLE_TORQUE_NM, nutFactor: null },
    grippedSurface: 'auto',
    faceToFixedJaw: '',
    alignmentNote: '',
  };
}

/** Soft jaws named after the vise, as the catalogue does; else the first jaws there are. */
function findSoftJawsId(shop: Shop, viseId: string): string {
  const wanted = `${viseId.replace('vise-', 'jaws-')}-soft`;
  return (shop.jawSets.find(({ id }) => id === wanted) ?? shop.jawSets[0])?.id ?? '';
}

function buildRelease(): Release {
  return {
    cutterId: 'auto',
    clearance: 'auto',
    sides: 'both',
    keep: 'auto',
    ribTarget: 'auto',
    tabs: 'auto',
    tabLength: 'auto',
    dressNote: '',
  };
}

function buildOrder(shop: Shop): OrderChoice {
  return {
    sawId: shop.saws[0]?.id ?? '',
    squaringTrim: 'auto',
    badEnd: 'auto',
    stub: 'auto',
    leastRemnant: 'auto',
    useRack: true,
    spares: { kind: 'byLength', setupPieces: 0 },
    maxPatterns: null,
  };
}
