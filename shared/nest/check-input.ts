import type { BarEnds, BlankChoice, NestDemand, NestInput, NestProblem, NestProblemCode, NestStock } from './types';

/** Longest length and largest number of parts that are taken seriously: 1 km and a thousand million. */
const MAX_LENGTH_NM = 1e12;
const MAX_PARTS = 1e9;
const MAX_MONEY = 1e12;

/** A bar that can be cut, with what its ends leave of it. */
export interface UsableStock {
  readonly stock: NestStock;
  /** Cost and worth together, minor units (mm of bar when no bar has a price). */
  readonly priceMinor: number;
  readonly quantity: number;
  /** Length of what the head cut removes, without its kerf. */
  readonly headNm: number;
  /** Length behind the last cut that no kerf may touch. */
  readonly tailNm: number;
  /** What blanks with a kerf each may use up together. Where nothing is kept at the tail, the last kerf need not fit. */
  readonly capacityNm: number;
  readonly longestBlankNm: number;
  /** Drop of a bar with no blank in it: decides which of two equal bars leaves more. */
  readonly longestDropNm: number;
}

export function formatMm(lengthNm: number): string {
  const mm = lengthNm / 1e6;
  return `${Number.isInteger(mm) ? mm : Number(mm.toFixed(6))} mm`;
}

function makeProblem(
  code: NestProblemCode,
  kind: 'demand' | 'stock' | 'job',
  id: string,
  message: string,
  extra: { field?: string; partsMissing?: number } = {},
): NestProblem {
  const about = extra.field === undefined ? { kind, id } : { kind, id, field: extra.field };
  return extra.partsMissing === undefined
    ? { code, about, message }
    : { code, about, message, partsMissing: extra.partsMissing };
}

function isLength(value: number, least: number): boolean {
  return Number.isInteger(value) && value >= least && value <= MAX_LENGTH_NM;
}

const END_FIELDS = ['squaringTrimNm', 'badEndLeftNm', 'badEndRightNm', 'stubNm'] as const;

/** Problems with the values that hold for the whole job. */
export function checkJob(input: NestInput): NestProblem[] {
  const problems: NestProblem[] = [];
  const refuse = (field: string, value: number): void => {
    const message = `${field} must be a whole number of nanometres from 0 to 1 km, not ${value}; nothing can be nested until it is.`;
    problems.push(makeProblem('bad-job-value', 'job', 'job', message, { field }));
  };
  if (!isLength(input.kerfNm, 0)) refuse('kerfNm', input.kerfNm);
  for (const field of END_FIELDS) if (!isLength(input.ends[field], 0)) refuse(field, input.ends[field]);
  if (!isLength(input.remnantMinNm, 0)) refuse('remnantMinNm', input.remnantMinNm);
  if (input.maxPatterns !== undefined && !(Number.isInteger(input.maxPatterns) && input.maxPatterns >= 1)) {
    const message = `The limit on patterns must be a whole number of at least 1, not ${input.maxPatterns}.`;
    problems.push(makeProblem('bad-job-value', 'job', 'job', message, { field: 'maxPatterns' }));
  }
  return problems;
}

/** Bars that can be cut, and what is wrong with the others. */
export function checkStocks(input: NestInput): { usable: UsableStock[]; problems: NestProblem[]; isPriced: boolean } {
  const problems: NestProblem[] = [];
  const usable: UsableStock[] = [];
  if (checkJob(input).length > 0) return { usable, problems, isPriced: true };
  const ids = new Set<string>();
  const sound = input.stocks.filter((stock) => {
    const problem = findStockProblem(stock, ids);
    ids.add(stock.id);
    if (problem) problems.push(problem);
    return !problem && stock.quantity !== 0;
  });
  const isMissingPrice = (stock: NestStock): boolean => stock.costMinor === null && stock.kind === 'new';
  const isPriced =
    sound.length === 0 ||
    sound.some((stock) => !isMissingPrice(stock) && stock.kind === 'new') ||
    !sound.some(isMissingPrice);
  for (const stock of sound) {
    if (isMissingPrice(stock)) {
      const then = isPriced ? 'it is left out.' : 'bars are weighed by their length instead.';
      const message = `Bar ${stock.id} has no price: ${then}`;
      problems.push(makeProblem('price-missing', 'stock', stock.id, message, { field: 'costMinor' }));
      if (isPriced) continue;
    }
    const prepared = prepareStock(input, stock, isPriced);
    if (prepared.longestBlankNm > 0) usable.push(prepared);
    else {
      const message = `Bar ${stock.id} (${formatMm(stock.lengthNm)}) is used up by its trim, bad ends and stub.`;
      problems.push(makeProblem('ends-use-up-bar', 'stock', stock.id, message));
    }
  }
  return { usable, problems, isPriced };
}

function findStockProblem(stock: NestStock, ids: ReadonlySet<string>): NestProblem | undefined {
  if (ids.has(stock.id)) {
    return makeProblem('duplicate-id', 'stock', stock.id, `Bar ${stock.id} is listed twice; the first stands.`);
  }
  if (!isLength(stock.lengthNm, 1)) {
    const message = `The length of bar ${stock.id} must be over 0 and at most 1 km, in whole nanometres.`;
    return makeProblem('bad-stock-length', 'stock', stock.id, message, { field: 'lengthNm' });
  }
  if (stock.quantity !== null && !(Number.isSafeInteger(stock.quantity) && stock.quantity >= 0)) {
    const message = `The number of bars ${stock.id} at hand must be a whole number, 0 or more.`;
    return makeProblem('bad-quantity', 'stock', stock.id, message, { field: 'quantity' });
  }
  const isMoney = (amount: number): boolean => Number.isInteger(amount) && amount >= 0 && amount <= MAX_MONEY;
  if (!isMoney(stock.costMinor ?? 0) || !isMoney(stock.worthMinor)) {
    const field = isMoney(stock.worthMinor) ? 'costMinor' : 'worthMinor';
    const message = `The price of bar ${stock.id} must be a whole number of minor units, 0 or more.`;
    return makeProblem('bad-price', 'stock', stock.id, message, { field });
  }
  for (const field of END_FIELDS) {
    const value = stock.ends?.[field];
    if (value === undefined || isLength(value, 0)) continue;
    const message = `${field} of bar ${stock.id} must be a whole number of nanometres, 0 or more.`;
    return makeProblem('bad-stock-length', 'stock', stock.id, message, { field });
  }
  return undefined;
}

/** Ends of one bar: its own where given; the job's bad mill ends are not a remnant's. */
export function getBarEnds(input: NestInput, stock: NestStock): BarEnds {
  const job = stock.kind === 'remnant' ? { ...input.ends, badEndLeftNm: 0, badEndRightNm: 0 } : input.ends;
  return { ...job, ...stock.ends };
}

function prepareStock(input: NestInput, stock: NestStock, isPriced: boolean): UsableStock {
  const ends = getBarEnds(input, stock);
  const headNm = Math.max(ends.squaringTrimNm, ends.badEndLeftNm);
  const tailNm = Math.max(ends.stubNm, ends.badEndRightNm);
  const longestDropNm = stock.lengthNm - (headNm > 0 ? headNm + input.kerfNm : 0);
  const capacityNm = longestDropNm - tailNm + (tailNm === 0 ? input.kerfNm : 0);
  const priceMinor = isPriced ? (stock.costMinor ?? 0) + stock.worthMinor : Math.ceil(stock.lengthNm / 1e6);
  return {
    stock,
    priceMinor,
    quantity: stock.quantity ?? Number.POSITIVE_INFINITY,
    headNm,
    tailNm,
    capacityNm,
    longestBlankNm: capacityNm - input.kerfNm,
    longestDropNm,
  };
}

/** Demands that can be met, and what is wrong with the others. */
export function checkDemands(
  input: NestInput,
  stocks: readonly UsableStock[],
): { usable: NestDemand[]; problems: NestProblem[] } {
  const problems: NestProblem[] = [];
  const usable: NestDemand[] = [];
  const ids = new Set<string>();
  const longest = Math.max(0, ...stocks.map((stock) => stock.longestBlankNm));
  if (stocks.length === 0 && checkJob(input).length === 0 && input.demands.length > 0) {
    const partsMissing = input.demands.reduce(
      (sum, { parts }) => sum + (parts > 0 && Number.isInteger(parts) ? parts : 0),
      0,
    );
    problems.push(makeProblem('no-stock', 'job', 'job', 'There is no bar to cut from.', { partsMissing }));
  }
  for (const demand of input.demands) {
    if (ids.has(demand.id)) {
      const message = `Part ${demand.id} is listed twice; the first stands.`;
      problems.push(makeProblem('duplicate-id', 'demand', demand.id, message));
      continue;
    }
    ids.add(demand.id);
    if (!(Number.isInteger(demand.parts) && demand.parts >= 1 && demand.parts <= MAX_PARTS)) {
      const message = `The number of parts ${demand.id} must be a whole number from 1 to a thousand million, not ${demand.parts}.`;
      problems.push(makeProblem('bad-parts', 'demand', demand.id, message, { field: 'parts', partsMissing: 0 }));
      continue;
    }
    const choices = demand.choices.filter(isChoiceSound);
    if (choices.length < demand.choices.length || choices.length === 0) {
      const message = `A blank for ${demand.id} needs a length over 0 in whole nanometres and a whole number of parts.`;
      const extra = choices.length === 0 ? { field: 'choices', partsMissing: demand.parts } : { field: 'choices' };
      problems.push(makeProblem('bad-choice', 'demand', demand.id, message, extra));
    }
    if (choices.length === 0 || stocks.length === 0) continue;
    const shortest = Math.min(...choices.map((choice) => choice.lengthNm));
    if (shortest > longest) {
      const message = `The blank for ${demand.id} is ${formatMm(shortest)} long; the longest blank any bar gives is ${formatMm(longest)}.`;
      problems.push(makeProblem('longer-than-every-bar', 'demand', demand.id, message, { partsMissing: demand.parts }));
      continue;
    }
    usable.push({ ...demand, choices });
  }
  return { usable, problems };
}

function isChoiceSound(choice: BlankChoice): boolean {
  return (
    isLength(choice.lengthNm, 1) &&
    Number.isInteger(choice.partsPerBlank) &&
    choice.partsPerBlank >= 1 &&
    choice.partsPerBlank <= MAX_PARTS
  );
}
