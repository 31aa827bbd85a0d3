import type { BarEnds, NestInput, NestPattern, NestResult, NestStock } from '../../../shared/nest/types';

/**
 * Recounts an answer from nothing but the input: every pattern, cut, kerf, trim, drop, quantity and cost.
 * Written apart from the solver and sharing only its types. Returns what is wrong, empty when all is right.
 */
export function checkAnswer(input: NestInput, result: NestResult): string[] {
  const faults: string[] = [];
  const expect = (isRight: boolean, fault: string): void => {
    if (!isRight) faults.push(fault);
  };
  const stocks = new Map<string, NestStock>();
  for (const stock of input.stocks) if (!stocks.has(stock.id)) stocks.set(stock.id, stock);
  const used = new Map<string, number>();
  const made = new Map<string, number>();
  let bars = 0;
  let cuts = 0;
  let longestDrop = 0;

  for (const pattern of result.patterns) {
    const stock = stocks.get(pattern.stockId);
    if (!stock) {
      faults.push(`pattern on unknown bar ${pattern.stockId}`);
      continue;
    }
    expect(Number.isInteger(pattern.count) && pattern.count >= 1, 'pattern count');
    bars += pattern.count;
    cuts += pattern.count * pattern.cuts.length;
    used.set(stock.id, (used.get(stock.id) ?? 0) + pattern.count);
    faults.push(...checkBar(input, stock, pattern));
    longestDrop = Math.max(longestDrop, pattern.dropNm);
    for (const part of pattern.stretches) {
      if (part.kind !== 'blank') continue;
      const demand = input.demands.find((its) => its.id === part.demandId);
      const length = part.endNm - part.startNm;
      const isOffered = demand?.choices.some(
        (choice) => choice.lengthNm === length && choice.partsPerBlank === part.partsPerBlank,
      );
      expect(isOffered === true, `blank of ${length} nm for ${part.demandId} was not offered`);
      made.set(part.demandId ?? '', (made.get(part.demandId ?? '') ?? 0) + (part.partsPerBlank ?? 0) * pattern.count);
    }
  }

  let cost = 0;
  let worth = 0;
  for (const [id, count] of used) {
    const stock = stocks.get(id) as NestStock;
    expect(
      stock.quantity === null || count <= stock.quantity,
      `${count} bars of ${id} used, ${stock.quantity} at hand`,
    );
    cost += count * (result.isPriced ? (stock.costMinor ?? 0) : Math.ceil(stock.lengthNm / 1e6));
    worth += count * (result.isPriced ? stock.worthMinor : 0);
    const listed = result.stockUse.find((use) => use.stockId === id);
    expect(listed?.count === count, `use of ${id} listed as ${listed?.count}, is ${count}`);
  }
  expect(result.stockUse.length === used.size, 'a bar listed that is not used');
  expect(result.costMinor === cost, `cost ${result.costMinor}, recounted ${cost}`);
  expect(result.worthMinor === worth, `worth ${result.worthMinor}, recounted ${worth}`);
  expect(result.totalMinor === cost + worth, 'total is not cost plus worth');
  expect(result.barCount === bars, `bars ${result.barCount}, recounted ${bars}`);
  expect(result.cutCount === cuts, `cuts ${result.cutCount}, recounted ${cuts}`);
  expect(result.longestDropNm === longestDrop, 'longest drop');
  expect(result.boundMinor <= result.totalMinor, 'bound above the total');
  expect(result.isProven === (result.boundMinor === result.totalMinor), 'proven without bound, or the other way');

  const seen = new Set<string>();
  for (const demand of input.demands) {
    if (seen.has(demand.id)) continue;
    seen.add(demand.id);
    const outcome = result.outcomes.find((its) => its.demandId === demand.id);
    const parts = made.get(demand.id) ?? 0;
    const wanted = Number.isInteger(demand.parts) && demand.parts > 0 ? demand.parts : 0;
    expect(outcome?.partsMade === parts, `${demand.id}: ${outcome?.partsMade} parts listed, ${parts} made`);
    expect(outcome?.partsMissing === Math.max(0, wanted - parts), `${demand.id}: parts missing`);
    expect(outcome?.partsOver === Math.max(0, parts - wanted), `${demand.id}: parts over`);
    const isExplained = result.problems.some(
      (problem) =>
        problem.partsMissing !== undefined || problem.code === 'bad-job-value' || problem.code === 'no-stock',
    );
    expect(parts >= wanted || isExplained, `${demand.id}: ${wanted - parts} parts missing without a reason`);
  }
  return faults;
}

function checkBar(input: NestInput, stock: NestStock, pattern: NestPattern): string[] {
  const faults: string[] = [];
  const expect = (isRight: boolean, fault: string): void => {
    if (!isRight) faults.push(`${stock.id}: ${fault}`);
  };
  const mill = stock.kind === 'remnant' ? { badEndLeftNm: 0, badEndRightNm: 0 } : {};
  const ends: BarEnds = { ...input.ends, ...mill, ...stock.ends };
  const head = Math.max(ends.squaringTrimNm, ends.badEndLeftNm);
  const tail = Math.max(ends.stubNm, ends.badEndRightNm);
  const kinds = pattern.stretches.map((part) => part.kind);
  let at = 0;
  for (const part of pattern.stretches) {
    expect(part.startNm === at && part.endNm > at, `stretch ${part.kind} does not start where the last ended`);
    at = part.endNm;
  }
  expect(at === stock.lengthNm && pattern.barLengthNm === stock.lengthNm, 'stretches do not fill the bar');
  const head0 = pattern.stretches[0];
  if (head > 0) {
    expect(head0?.kind === 'head' && head0.endNm === head, 'head is not trimmed as it should be');
    expect(pattern.cuts[0]?.frees === 'head' && pattern.cuts[0].positionNm === head, 'head cut');
  } else expect(!kinds.includes('head'), 'head trimmed without need');

  const blanks = pattern.stretches.filter((part) => part.kind === 'blank');
  expect(blanks.length > 0, 'bar without a blank');
  for (let k = 1; k < blanks.length; k++) {
    const [before, after] = [blanks[k - 1], blanks[k]];
    if (!before || !after) continue;
    expect(before.endNm - before.startNm >= after.endNm - after.startNm, 'blanks are not longest first');
    expect(after.startNm - before.endNm === input.kerfNm, 'no kerf between two blanks');
  }
  const last = blanks.at(-1)?.endNm ?? 0;
  const rest = stock.lengthNm - last;
  const isCutOff = tail > 0 || rest >= input.kerfNm;
  const needed = tail > 0 ? input.kerfNm + tail : 0;
  expect(rest >= needed, 'last blank reaches into what must stay behind');
  const isLastCutFree = tail === 0 && (rest === 0 || rest < input.kerfNm);
  const cutsNeeded = (head > 0 ? 1 : 0) + blanks.length - (isLastCutFree ? 1 : 0);
  expect(pattern.cuts.length === cutsNeeded, `${pattern.cuts.length} cuts, ${cutsNeeded} needed`);
  const drop = isCutOff && !isLastCutFree ? rest - input.kerfNm : 0;
  expect(pattern.dropNm === drop, `drop ${pattern.dropNm}, recounted ${drop}`);
  expect(pattern.isDropKept === (drop > 0 && drop >= input.remnantMinNm), 'drop kept or not');
  const margin = tail > 0 ? rest - needed : rest;
  expect(pattern.marginNm === margin, `margin ${pattern.marginNm}, recounted ${margin}`);
  const fit = margin === 0 ? 'exact' : isLastCutFree ? 'under-a-kerf' : 'clear';
  expect(pattern.fit === fit, `fit ${pattern.fit}, should be ${fit}`);
  if (input.kerfNm > 0) {
    const kerfs = pattern.stretches.filter((part) => part.kind === 'kerf');
    expect(kerfs.length === pattern.cuts.length, 'a kerf for every cut');
    kerfs.forEach((kerf, k) => {
      expect(kerf.startNm === pattern.cuts[k]?.positionNm, 'cut is not where its kerf is');
      expect(kerf.endNm - kerf.startNm === input.kerfNm && pattern.cuts[k]?.widthNm === input.kerfNm, 'kerf width');
    });
  }
  return faults;
}
