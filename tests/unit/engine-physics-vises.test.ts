import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { computeBeamDeflection, type Stiffness } from '../../shared/engine/beam';
import { getMostVises, getSupport, getVisePositions, type ViseRoom } from '../../shared/engine/vise-plan';

const stiffness: Stiffness = { youngsModulusMPa: 207_000, secondMomentMm4: 5000 };

/** Worst deflection of a blank in vises at their automatic places, under 500 N. */
function getWorst(room: ViseRoom, length: number, count: number): number {
  const support = getSupport(room, getVisePositions(room, length, 0, count), 0, length);
  const overhang = Math.max(support.overhangLeft, support.overhangRight);
  return Math.max(
    computeBeamDeflection('cantileverEnd', 500, overhang, stiffness),
    computeBeamDeflection('fixedCentre', 500, support.largestGap, stiffness),
  );
}

const rooms: fc.Arbitrary<ViseRoom> = fc
  .record({
    jawWidth: fc.double({ min: 50, max: 200, noNaN: true }),
    bodyExtra: fc.double({ min: 0, max: 60, noNaN: true }),
    bodyGap: fc.double({ min: 0, max: 20, noNaN: true }),
  })
  .map(({ jawWidth, bodyExtra, bodyGap }) => ({
    jawWidth,
    bodyLength: jawWidth + bodyExtra,
    bodyGap,
    tableLength: 2000,
    overhangLimit: 50,
    gapLimit: 200,
  }));

const lengths = fc.double({ min: 60, max: 1500, noNaN: true });

describe('vises at their automatic places', () => {
  it('one more never worsens the worst deflection', () => {
    fc.assert(
      fc.property(rooms, lengths, fc.integer({ min: 1, max: 6 }), (room, length, count) => {
        fc.pre(count + 1 <= getMostVises(room));
        expect(getWorst(room, length, count + 1)).toBeLessThanOrEqual(getWorst(room, length, count) * (1 + 1e-9));
      }),
      { numRuns: 1000 },
    );
  });

  it('no other even spacing bends less', () => {
    fc.assert(
      fc.property(
        rooms,
        lengths,
        fc.integer({ min: 2, max: 5 }),
        fc.double({ min: 0, max: 400, noNaN: true }),
        (room, length, count, more) => {
          const pitch = room.bodyLength + room.bodyGap + more;
          const centres = Array.from({ length: count }, (_, index) => length / 2 + (index - (count - 1) / 2) * pitch);
          const support = getSupport(room, centres, 0, length);
          fc.pre(support.contacts.length === count);
          const worst = Math.max(
            computeBeamDeflection(
              'cantileverEnd',
              500,
              Math.max(support.overhangLeft, support.overhangRight),
              stiffness,
            ),
            computeBeamDeflection('fixedCentre', 500, support.largestGap, stiffness),
          );
          expect(getWorst(room, length, count)).toBeLessThanOrEqual(worst * (1 + 1e-9));
        },
      ),
      { numRuns: 1000 },
    );
  });
});
