import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { computeChanceOfEnough, computePiecesForConfidence } from '../../shared/engine/spares';

describe('spares by the binomial distribution', () => {
  // Montgomery & Runger, Applied Statistics and Probability for Engineers, exercise: 100 orders, 2 % defective
  // (0.133, 0.666, 0.981; the book's answers from memory, the figures computed exactly).
  it.each([
    [100, 100, 0.02, 0.1326],
    [100, 102, 0.02, 0.6657],
    [100, 105, 0.02, 0.9808],
    // Variants of the same exercise with 3 %.
    [120, 120, 0.03, 0.02586],
    [120, 122, 0.03, 0.2879],
    [100, 102, 0.03, 0.40634],
    [100, 105, 0.03, 0.9034],
    [90, 90, 0.03, 0.0645],
  ])('%i good of %i at %f: %f', (needed, made, scrapRate, chance) => {
    // The printed answers are cut or rounded: one unit of their last place.
    expect(Math.abs(computeChanceOfEnough(needed, made, scrapRate) - chance)).toBeLessThan(1e-4);
  });

  // Acceptance sampling, n = 30, p = 0.05: P(0) = 0.2146, P(<= 2) = 0.8122 (Reliability Analytics toolkit, cumulative binomial).
  it.each([
    [30, 0.2146],
    [28, 0.8122],
  ])('at least %i good of 30 at 5 %%: %f', (needed, chance) => {
    expect(computeChanceOfEnough(needed, 30, 0.05)).toBeCloseTo(chance, 4);
  });

  // Exact values of the binomial sum, computed in rational arithmetic.
  it.each([
    [10, 0.05, 0.95, 12, 0.980432, 0.898105],
    [20, 0.03, 0.95, 22, 0.972848, 0.870071],
    [50, 0.02, 0.95, 53, 0.978451, 0.914066],
    [50, 0.05, 0.99, 57, 0.992789, 0.978848],
    [100, 0.02, 0.95, 105, 0.980759, 0.941732],
    [12, 0.08, 0.9, 14, 0.904165, 0.720626],
    [1, 0.1, 0.99, 2, 0.99, 0.9],
    [1, 0.5, 0.95, 5, 0.96875, 0.9375],
  ])('%i at scrap %f, confidence %f: make %i', (needed, scrapRate, confidence, pieces, chance, chanceBefore) => {
    expect(computePiecesForConfidence(needed, scrapRate, confidence)).toBe(pieces);
    expect(computeChanceOfEnough(needed, pieces, scrapRate)).toBeCloseTo(chance, 6);
    expect(computeChanceOfEnough(needed, pieces - 1, scrapRate)).toBeCloseTo(chanceBefore, 6);
  });

  it('has no answer for a sure thing or for nothing but scrap', () => {
    expect(computePiecesForConfidence(5, 0.1, 1)).toBeNull();
    expect(computePiecesForConfidence(5, 1, 0.9)).toBeNull();
    expect(computePiecesForConfidence(5, 0, 0.99)).toBe(5);
    expect(computePiecesForConfidence(0, 0.1, 0.99)).toBe(0);
  });

  it('never asks for fewer pieces with more scrap or more confidence', () => {
    fc.assert(
      fc.property(
        fc.integer({ min: 1, max: 300 }),
        fc.double({ min: 0.001, max: 0.4, noNaN: true }),
        fc.double({ min: 0.5, max: 0.99, noNaN: true }),
        (needed, scrapRate, confidence) => {
          const pieces = computePiecesForConfidence(needed, scrapRate, confidence) ?? Number.NaN;
          expect(computePiecesForConfidence(needed, scrapRate * 1.2, confidence)).toBeGreaterThanOrEqual(pieces);
          expect(computePiecesForConfidence(needed, scrapRate, confidence + 0.005)).toBeGreaterThanOrEqual(pieces);
        },
      ),
      { numRuns: 60, seed: 4 },
    );
  });
});
