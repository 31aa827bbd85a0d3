import type { BarEnds, NestDemand, NestInput, NestStock } from '../../../shared/nest/types';

/** Small linear congruential generator (Numerical Recipes constants), so that every run sees the same cases. */
export function makeRandom(seed: number): (below: number) => number {
  let state = seed >>> 0;
  return (below) => {
    state = (Math.imul(state, 1664525) + 1013904223) >>> 0;
    return Math.floor((state / 2 ** 32) * below);
  };
}

const NO_ENDS: BarEnds = { squaringTrimNm: 0, badEndLeftNm: 0, badEndRightNm: 0, stubNm: 0 };

/**
 * A job of a few blanks, small enough to try everything; lengths in whole units of 1 nm to 1 mm.
 *
 * @param ganged how many of the demands may go several to a blank, which then takes more or less bar than singles do
 */
export function makeSmallJob(seed: number, ganged: 'few' | 'all' = 'few'): NestInput {
  const random = makeRandom(seed * 7919 + 17);
  const unit = [1, 1000, 1_000_000][random(3)] as number;
  const barBase = 20 + random(60);
  const kinds = 1 + random(3);
  let blanks = 3 + random(5);
  const demands: NestDemand[] = [];
  for (let k = 0; k < kinds && blanks > 0; k++) {
    const parts = k === kinds - 1 ? blanks : 1 + random(blanks);
    blanks -= parts;
    const single = 3 + random(Math.floor(barBase / 2));
    const isGanged = random(4) === 0 || ganged === 'all';
    const most = isGanged ? 1 + random(3) + (ganged === 'all' ? 1 : 0) : 1;
    const choices = Array.from({ length: most }, (_, n) => ({
      partsPerBlank: n + 1,
      lengthNm: (single * (n + 1) + n * random(3)) * unit,
    }));
    demands.push({ id: `p${k}`, parts, choices });
  }
  const stockKinds = 1 + random(3);
  const stocks = Array.from({ length: stockKinds }, (_, k): NestStock => {
    const isRemnant = k > 0 && random(3) === 0;
    const price = 5 + random(40);
    return {
      id: `s${k}`,
      kind: isRemnant ? 'remnant' : 'new',
      lengthNm: (barBase + random(barBase)) * unit,
      costMinor: isRemnant ? 0 : price,
      worthMinor: isRemnant ? random(15) : 0,
      quantity: isRemnant || random(3) === 0 ? 1 + random(4) : null,
    };
  });
  const hasEnds = random(2) === 0;
  const ends = hasEnds
    ? {
        squaringTrimNm: random(3) * unit,
        badEndLeftNm: random(3) * unit,
        badEndRightNm: random(2) * random(4) * unit,
        stubNm: random(2) * random(5) * unit,
      }
    : NO_ENDS;
  return { demands, stocks, kerfNm: random(3) * unit, ends, remnantMinNm: random(10) * unit };
}

/** A job as a small shop has it: lengths to 0.5 mm or 1/32 in, new bars of two to five lengths, remnants, a kerf. */
export function makeShopJob(seed: number): NestInput {
  const random = makeRandom(seed * 104729 + 5);
  const isInch = random(2) === 0;
  const step = isInch ? 793_750 : 500_000;
  const demandCount = 3 + random(58);
  const lengths = new Set<number>();
  while (lengths.size < demandCount) lengths.add((40 + random(isInch ? 1000 : 1600)) * step);
  const demands = [...lengths].map((lengthNm, k): NestDemand => {
    const parts = 1 + random([5, 30, 120, 500][random(4)] as number);
    const isGanged = random(8) === 0;
    const most = isGanged ? 2 + random(3) : 1;
    const choices = Array.from({ length: most }, (_, n) => ({
      partsPerBlank: n + 1,
      lengthNm: lengthNm * (n + 1) - n * 6_000_000,
    }));
    return { id: `part-${k}`, parts, choices };
  });
  const barLengths = (isInch ? [1828.8, 2438.4, 3048, 3657.6, 6096] : [1000, 2000, 3000, 4000, 6000]).map((mm) =>
    Math.round(mm * 1e6),
  );
  const barCount = 2 + random(4);
  const bars = [...barLengths].sort(() => random(3) - 1).slice(0, barCount);
  const stocks = bars.map((lengthNm, k): NestStock => {
    const perMetre = 900 + random(400);
    return {
      id: `bar-${k}`,
      kind: 'new',
      lengthNm,
      costMinor: Math.round((lengthNm / 1e9) * perMetre) + random(200),
      worthMinor: 0,
      quantity: k > 0 && random(4) === 0 ? 1 + random(20) : null,
    };
  });
  const remnants = Array.from({ length: random(5) }, (_, k): NestStock => {
    const lengthNm = (600 + random(2400)) * step;
    return {
      id: `rack-${k}`,
      kind: 'remnant',
      lengthNm,
      costMinor: 0,
      worthMinor: Math.round((lengthNm / 1e9) * 500),
      quantity: 1 + random(3),
    };
  });
  return {
    demands,
    stocks: [...stocks, ...remnants],
    kerfNm: isInch ? 1_587_500 : 2_500_000,
    ends: { ...NO_ENDS, squaringTrimNm: random(2) * 3 * step, badEndRightNm: random(2) * 10 * step },
    remnantMinNm: 200_000_000,
  };
}
