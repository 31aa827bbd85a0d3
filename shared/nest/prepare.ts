import { checkDemands, checkJob, checkStocks, type UsableStock } from './check-input';
import type { CoreProblem, CoreStock } from './core-model';
import { getGcd } from './integers';
import type { BlankChoice, NestDemand, NestInput, NestProblem } from './types';

/** One row of the core problem: demands that the same blanks serve. */
export interface PreparedRow {
  readonly demands: readonly NestDemand[];
  /** Blank sizes offered, none of them pointless beside another. */
  readonly choices: readonly BlankChoice[];
}

/** A job turned into bare arithmetic, with the way back. */
export interface PreparedJob {
  readonly core: CoreProblem;
  readonly rows: readonly PreparedRow[];
  /** Choice behind each core item. */
  readonly itemChoices: readonly BlankChoice[];
  /** Stock behind each core stock. */
  readonly stocks: readonly UsableStock[];
  readonly scale: WeightScale;
  /** Length that one unit of the core problem stands for, nm. */
  readonly unitNm: number;
  readonly problems: readonly NestProblem[];
  readonly isPriced: boolean;
}

/** How weights hold cost and number of bars: `weight = cost / costUnit * perCost + 1`. */
export interface WeightScale {
  /** Minor units that one step of cost stands for. */
  readonly costUnit: number;
  /** Weight of one step of cost; 0 when all bars cost the same and weights just count them. */
  readonly perCost: number;
  /** No answer worth having uses more bars. */
  readonly maxBars: number;
  /** False when the numbers are too large to hold cost and number of bars at once: then cost alone is weighed. */
  readonly holdsBars: boolean;
}

export function prepareJob(input: NestInput): PreparedJob {
  const jobProblems = checkJob(input);
  const stocks = checkStocks(input);
  const demands = checkDemands(input, stocks.usable);
  const problems = [...jobProblems, ...stocks.problems, ...demands.problems];
  const rows = mergeRows(demands.usable, stocks.usable);
  const blankCount = rows.reduce((sum, row) => sum + countMostBlanks(row), 0);
  const shortest = Math.min(...rows.flatMap((row) => row.choices.map((choice) => choice.lengthNm)));
  const holding = stocks.usable.filter((stock) => stock.longestBlankNm >= shortest);
  const useful = dropPointlessStocks(holding, blankCount);
  const scale = chooseWeightScale(useful, blankCount);
  const items = rows
    .flatMap((row, index) => row.choices.map((choice) => ({ choice, index, isSingle: row.choices.length === 1 })))
    .sort((a, b) => b.choice.lengthNm - a.choice.lengthNm || a.index - b.index);
  const unit = items.reduce((gcd, item) => getGcd(gcd, item.choice.lengthNm + input.kerfNm), 0) || 1;
  const core: CoreProblem = {
    sizes: items.map((item) => (item.choice.lengthNm + input.kerfNm) / unit),
    rows: items.map((item) => item.index),
    values: items.map((item) => (item.isSingle ? 1 : item.choice.partsPerBlank)),
    demands: rows.map((row) => countRowDemand(row)),
    stocks: useful.map((stock): CoreStock => {
      return {
        capacity: Math.floor(stock.capacityNm / unit),
        weight: getWeight(scale, stock.priceMinor),
        quantity: stock.quantity >= blankCount ? Number.POSITIVE_INFINITY : stock.quantity,
      };
    }),
  };
  return {
    core,
    rows,
    itemChoices: items.map((item) => item.choice),
    stocks: useful,
    scale,
    unitNm: unit,
    problems,
    isPriced: stocks.isPriced,
  };
}

/** Demand of a row: blanks where there is one choice, parts where there are several. */
function countRowDemand(row: PreparedRow): number {
  const [only] = row.choices;
  if (row.choices.length > 1 || !only) return row.demands.reduce((sum, demand) => sum + demand.parts, 0);
  return row.demands.reduce((sum, demand) => sum + countBlanks(demand, row), 0);
}

/** Blanks a demand takes where its row has one choice. */
export function countBlanks(demand: NestDemand, row: PreparedRow): number {
  return Math.ceil(demand.parts / getPartsPerBlank(demand, row));
}

/** Parts that a blank of a row with one choice carries for a demand. */
export function getPartsPerBlank(demand: NestDemand, row: PreparedRow): number {
  const lengthNm = row.choices[0]?.lengthNm;
  return Math.max(1, ...demand.choices.filter((its) => its.lengthNm === lengthNm).map((its) => its.partsPerBlank));
}

function countMostBlanks(row: PreparedRow): number {
  if (row.choices.length === 1) return countRowDemand(row);
  const fewest = Math.min(...row.choices.map((choice) => choice.partsPerBlank));
  return Math.ceil(countRowDemand(row) / fewest);
}

/** Drops choices no bar holds and choices beside which another carries as much in less; puts equal single choices together. */
function mergeRows(demands: readonly NestDemand[], stocks: readonly UsableStock[]): PreparedRow[] {
  const rows: { demands: NestDemand[]; choices: BlankChoice[] }[] = [];
  const singles = new Map<number, { demands: NestDemand[]; choices: BlankChoice[] }>();
  const longest = Math.max(...stocks.map((stock) => stock.longestBlankNm));
  for (const demand of demands) {
    const choices = keepUsefulChoices(demand.choices.filter((choice) => choice.lengthNm <= longest));
    const [first] = choices;
    if (!first) continue;
    if (choices.length > 1) {
      rows.push({ demands: [demand], choices });
      continue;
    }
    const single = singles.get(first.lengthNm);
    if (single) single.demands.push(demand);
    else {
      const row = { demands: [demand], choices };
      singles.set(first.lengthNm, row);
      rows.push(row);
    }
  }
  return rows;
}

function keepUsefulChoices(choices: readonly BlankChoice[]): BlankChoice[] {
  return choices.filter((choice, at) => {
    return !choices.some((other, otherAt) => {
      if (other === choice) return false;
      const isAsGood = other.partsPerBlank >= choice.partsPerBlank && other.lengthNm <= choice.lengthNm;
      const isSame = other.partsPerBlank === choice.partsPerBlank && other.lengthNm === choice.lengthNm;
      return isAsGood && (!isSame || otherAt < at);
    });
  });
}

/** Leaves out bars beside which an unlimited one is as long and costs no more, so that fewer remain to choose from. */
function dropPointlessStocks(stocks: readonly UsableStock[], blankCount: number): UsableStock[] {
  return stocks.filter((stock, at) => {
    return !stocks.some((other, otherAt) => {
      if (other === stock || other.quantity < blankCount) return false;
      const isAsGood =
        other.capacityNm >= stock.capacityNm &&
        other.priceMinor <= stock.priceMinor &&
        other.longestDropNm >= stock.longestDropNm;
      const isSame =
        other.capacityNm === stock.capacityNm &&
        other.priceMinor === stock.priceMinor &&
        other.longestDropNm === stock.longestDropNm &&
        stock.quantity >= blankCount;
      return isAsGood && (!isSame || otherAt < at);
    });
  });
}

const LARGEST_TOTAL = 2 ** 52;

function chooseWeightScale(stocks: readonly UsableStock[], blankCount: number): WeightScale {
  const prices = stocks.map((stock) => stock.priceMinor);
  const costUnit = prices.reduce(getGcd, 0) || 1;
  const steps = prices.map((price) => price / costUnit);
  const most = Math.max(...steps, 0);
  if (steps.every((step) => step === most)) {
    return { costUnit: most === 0 ? 0 : costUnit * most, perCost: 0, maxBars: blankCount, holdsBars: true };
  }
  for (const spread of [1024, 64, 2]) {
    const perCost = spread * (blankCount + 1);
    if ((perCost * most + 1) * blankCount < LARGEST_TOTAL)
      return { costUnit, perCost, maxBars: blankCount, holdsBars: true };
  }
  return { costUnit, perCost: 1, maxBars: blankCount, holdsBars: false };
}

function getWeight(scale: WeightScale, priceMinor: number): number {
  if (scale.perCost === 0) return 1;
  const steps = priceMinor / scale.costUnit;
  return scale.holdsBars ? steps * scale.perCost + 1 : Math.max(1, steps);
}

/** Least weight that an answer can have which weighs at least this much. */
export function roundUpWeight(scale: WeightScale, weight: number): number {
  if (scale.perCost <= 1 || weight <= 0) return weight;
  const cost = Math.floor(weight / scale.perCost);
  const bars = weight - cost * scale.perCost;
  return bars > scale.maxBars ? (cost + 1) * scale.perCost + 1 : Math.max(weight, cost * scale.perCost + 1);
}

/** Total cost, minor units, that an answer of at least this weight must have. */
export function getCostOfBound(scale: WeightScale, bound: number): number {
  if (scale.perCost === 0) return bound * scale.costUnit;
  if (!scale.holdsBars) return bound * scale.costUnit;
  return Math.floor(roundUpWeight(scale, bound) / scale.perCost) * scale.costUnit;
}
