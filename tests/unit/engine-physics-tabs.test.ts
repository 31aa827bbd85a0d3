import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { computeTabRow, computeTabs, type TabRequest } from '../../shared/engine/tabs';

const INCH = 25.4;

function request(values: Partial<TabRequest>): TabRequest {
  return { length: 200, tabLength: 6, span: 75, endOverhang: 25, blocked: [], leastCount: 1, ...values };
}

function mirror(one: TabRequest): TabRequest {
  const blocked = one.blocked.map((span) => ({ from: one.length - span.to, to: one.length - span.from }));
  return { ...one, blocked };
}

/** True when the places where a tab's centre may stand are symmetric: then left and right may be equals. */
function isSymmetric(one: TabRequest): boolean {
  const half = one.tabLength / 2;
  const isFree = (x: number) =>
    x >= half && x <= one.length - half && !one.blocked.some((span) => x + half > span.from && x - half < span.to);
  return Array.from({ length: 2 * one.length + 1 }, (_, step) => step / 2).every(
    (x) => isFree(x) === isFree(one.length - x),
  );
}

/** Whole millimetres, so that the search below tries every place. */
const requests = fc
  .record({
    length: fc.integer({ min: 20, max: 90 }),
    tabHalf: fc.integer({ min: 1, max: 3 }),
    span: fc.integer({ min: 8, max: 40 }),
    endOverhang: fc.integer({ min: 2, max: 20 }),
    blocked: fc.array(fc.record({ from: fc.integer({ min: 0, max: 80 }), size: fc.integer({ min: 1, max: 12 }) }), {
      maxLength: 3,
    }),
  })
  .map(({ length, tabHalf, span, endOverhang, blocked }) =>
    request({
      length,
      tabLength: 2 * tabHalf,
      span,
      endOverhang,
      blocked: blocked.map(({ from, size }) => ({ from, to: Math.min(length, from + size) })),
    }),
  );

/** Fewest tabs over every whole-millimetre row, by breadth-first search; null when there is none. */
function searchFewest(one: TabRequest): number | null {
  const half = one.tabLength / 2;
  const places: number[] = [];
  for (let x = half; x <= one.length - half; x += 1) {
    if (!one.blocked.some((span) => x + half > span.from && x - half < span.to && span.to > span.from)) places.push(x);
  }
  let reached = new Set(places.filter((x) => x - half <= one.endOverhang));
  for (let count = 1; count <= 60 && reached.size > 0; count += 1) {
    if ([...reached].some((x) => one.length - x - half <= one.endOverhang)) return count;
    const next = new Set<number>();
    for (const from of reached) {
      for (const x of places) {
        const gap = x - from - one.tabLength;
        if (gap >= 0 && gap <= one.span) next.add(x);
      }
    }
    reached = next;
  }
  return null;
}

describe('the fewest tabs that keep every limit', () => {
  it('matches a search over every place on whole millimetres', () => {
    fc.assert(
      fc.property(requests, (one) => {
        const fewest = searchFewest(one);
        const row = computeTabs(one);
        // Off the millimetre grid fewer may do, never more.
        if (fewest !== null) {
          expect(row.ok).toBe(true);
          expect(row.centres.length).toBeLessThanOrEqual(fewest);
        }
        if (row.ok && fewest !== null && one.blocked.length === 0) expect(row.centres.length).toBe(fewest);
      }),
      { numRuns: 1000 },
    );
  });

  it('every row that is called well keeps spans, ends and keep-outs', () => {
    fc.assert(
      fc.property(requests, (one) => {
        const row = computeTabs(one);
        expect(computeTabRow(one, row.centres).ok).toBe(row.ok);
        expect(
          row.centres.every((x, index) => index === 0 || x - (row.centres[index - 1] ?? 0) >= one.tabLength - 1e-4),
        ).toBe(true);
      }),
      { numRuns: 1000 },
    );
  });

  it('more tabs come only where the force asks for them', () => {
    expect(computeTabs(request({ leastCount: 1 })).centres).toHaveLength(3);
    expect(computeTabs(request({ leastCount: 5 })).centres).toHaveLength(5);
  });
});

describe('symmetry', () => {
  it('a mirrored part gets the mirrored row', () => {
    fc.assert(
      fc.property(requests, (one) => {
        const row = computeTabs(one).centres;
        const other = computeTabs(mirror(one))
          .centres.map((x) => one.length - x)
          .reverse();
        expect(other.length).toBe(row.length);
        // One tab beside a keep-out in the very middle: left and right are equal, and nothing decides between them.
        if (isSymmetric(one)) return;
        row.forEach((x, index) => {
          expect(Math.abs(x - (other[index] ?? Number.NaN))).toBeLessThan(1e-3);
        });
      }),
      { numRuns: 1000 },
    );
  });

  it('a plain part gets a symmetric row', () => {
    fc.assert(
      fc.property(fc.integer({ min: 20, max: 400 }), fc.integer({ min: 5, max: 60 }), (length, span) => {
        const { centres } = computeTabs(request({ length, span, endOverhang: span / 3 }));
        centres.forEach((x, index) => {
          expect(x + (centres[centres.length - 1 - index] ?? 0)).toBeCloseTo(length, 4);
        });
      }),
    );
  });

  it('a 7.250 in arm with 1/4 in tabs, 3 in spans and 1 in ends stands on three', () => {
    const { centres, largestSpan, largestEnd, ok } = computeTabs(
      request({ length: 7.25 * INCH, tabLength: 0.25 * INCH, span: 3 * INCH, endOverhang: INCH }),
    );
    expect(ok).toBe(true);
    expect(centres).toHaveLength(3);
    expect(centres[1]).toBeCloseTo(3.625 * INCH, 6);
    expect(largestSpan).toBeLessThanOrEqual(3 * INCH);
    expect(largestEnd).toBeLessThanOrEqual(INCH);
  });
});

describe('limits that cannot be kept', () => {
  it('gives the best row there is and says so', () => {
    const row = computeTabs(request({ length: 100, endOverhang: 5, blocked: [{ from: 0, to: 40 }] }));
    expect(row.ok).toBe(false);
    expect(row.centres.length).toBeGreaterThan(0);
    expect(row.largestEnd).toBeCloseTo(40, 3);
  });

  it('gives no tabs where everything is blocked', () => {
    expect(computeTabs(request({ blocked: [{ from: -10, to: 300 }] }))).toMatchObject({ centres: [], ok: false });
  });

  it.each([Number.NaN, Number.POSITIVE_INFINITY, -5, 0])('a length of %f gives an empty or finite row', (length) => {
    const row = computeTabs(request({ length }));
    expect(row.centres.every(Number.isFinite)).toBe(true);
  });
});
