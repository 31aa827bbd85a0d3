import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import {
  computeRib,
  computeRibProfile,
  computeTabProfile,
  getOpenSpans,
  getRibPieces,
  type RibCut,
} from '../../shared/engine/rib-profile';
import { computeRibSection } from '../../shared/engine/rib-strength';
import {
  computeNarrowestWidth,
  computeWidth,
  computeWidthProfile,
  getWidestWidth,
} from '../../shared/engine/width-profile';
import { buildHole, buildPart, buildStation } from '../../shared/model/build-part';
import type { Part } from '../../shared/model/plan';

const band = { low: -3, high: 0 };

const lever: Part = buildPart({
  id: 'lever',
  name: 'Lever',
  length: 100,
  height: 30,
  thickness: 16,
  stations: [
    buildStation({ kind: 'boss', from: 0, to: 20, width: 16 }),
    buildStation({ kind: 'shank', from: 20, to: 60, width: 8 }),
    buildStation({ kind: 'taper', from: 60, to: 80, width: 8, widthEnd: 12 }),
  ],
});

function mirrorPart(part: Part): Part {
  return {
    ...part,
    stations: part.stations.map((one) => ({
      ...one,
      from: part.length - one.to,
      to: part.length - one.from,
      width: one.widthEnd,
      widthEnd: one.width,
    })),
    holes: part.holes.map((hole) => ({ ...hole, x: part.length - hole.x })),
  };
}

describe('width of a part along its length', () => {
  it('follows its stations, and its full thickness where none is given', () => {
    expect(computeWidth(lever, 10)).toEqual({ least: 16, most: 16 });
    expect(computeWidth(lever, 40)).toEqual({ least: 8, most: 8 });
    expect(computeWidth(lever, 70).least).toBeCloseTo(10, 6);
    expect(computeWidth(lever, 90)).toEqual({ least: 16, most: 16 });
  });

  it('shows both widths where it steps', () => {
    expect(computeWidth(lever, 20)).toEqual({ least: 8, most: 16 });
    expect(
      computeWidthProfile(lever, null)
        .filter((at) => at.x === 20)
        .map((at) => at.width),
    ).toEqual([16, 8]);
  });

  it('knows the widest and the narrowest', () => {
    expect(getWidestWidth(lever)).toBe(16);
    expect(computeNarrowestWidth(lever)).toBe(8);
  });

  it('opens by a bore through it, by its chord', () => {
    const bored = { ...lever, holes: [buildHole({ id: 'bore', x: 10, diameter: 10 })] };
    const profile = computeWidthProfile(bored, band);
    expect(profile.find((at) => Math.abs(at.x - 10) < 1e-9)?.opening).toBeCloseTo(10, 9);
    expect(profile.find((at) => Math.abs(at.x - 5) < 1e-9)?.opening).toBeCloseTo(0, 9);
    expect(Math.max(...profile.filter((at) => at.x > 15).map((at) => at.opening))).toBe(0);
  });

  it('is open no further than its bore, wherever that stands', () => {
    fc.assert(
      fc.property(
        fc.double({ min: 1, max: 99, noNaN: true }),
        fc.double({ min: 0.5, max: 20, noNaN: true }),
        fc.double({ min: 0, max: 10, noNaN: true }),
        (x, diameter, slotLength) => {
          const bored = buildPart({
            ...{ id: 'bored', name: 'Bored', length: 100, height: 20, thickness: 12 },
            holes: [buildHole({ id: 'bore', x, diameter, slotLength })],
          });
          const half = (diameter + slotLength) / 2;
          for (const { from, to } of getOpenSpans(computeWidthProfile(bored, { low: -3, high: 0 }))) {
            expect(from).toBeGreaterThanOrEqual(x - half - 1e-6);
            expect(to).toBeLessThanOrEqual(x + half + 1e-6);
          }
        },
      ),
      { numRuns: 300 },
    );
  });

  it('leaves out a blind bore and one made after the cut-off', () => {
    for (const change of [{ through: false }, { beforeCutOff: false }]) {
      const part = { ...lever, holes: [buildHole({ id: 'bore', x: 10, diameter: 10, ...change })] };
      expect(Math.max(...computeWidthProfile(part, band).map((at) => at.opening))).toBe(0);
    }
  });

  it('opens by a cross hole only where it meets the slot', () => {
    const at = (z: number) =>
      computeWidthProfile({ ...lever, holes: [buildHole({ id: 'cross', axis: 'y', x: 40, z, diameter: 6 })] }, band);
    expect(Math.max(...at(10).map((one) => one.opening))).toBe(0);
    expect(Math.max(...at(2).map((one) => one.opening))).toBe(8);
  });

  it('takes the narrower where stations overlap, and survives nonsense', () => {
    const overlapping = { ...lever, stations: [...lever.stations, buildStation({ from: 10, to: 30, width: 5 })] };
    expect(computeWidth(overlapping, 15)).toEqual({ least: 5, most: 5 });
    const nonsense = { ...lever, stations: [buildStation({ from: Number.NaN, to: -5, width: Number.NaN })] };
    expect(computeWidthProfile(nonsense, band).every((at) => Number.isFinite(at.width))).toBe(true);
  });
});

describe('rib that the cut-off leaves', () => {
  const cut: RibCut = { sides: 'both', ribTarget: 0.75, reach: 10, sideAllowance: 1 };

  it('is the one aimed at where the cutter reaches, at a boss as at a shank', () => {
    expect(computeRibProfile(cut, computeWidthProfile(lever, band)).every((at) => Math.abs(at.rib - 0.75) < 1e-9)).toBe(
      true,
    );
  });

  it('is thicker at a boss that the cutter does not reach into', () => {
    const profile = computeRibProfile({ ...cut, reach: 6 }, computeWidthProfile(lever, band));
    expect(Math.max(...profile.map((at) => at.rib))).toBeCloseTo(17 - 12, 9);
    expect(Math.min(...profile.map((at) => at.rib))).toBeCloseTo(0.75, 9);
  });

  it('at full reach from both sides would meet: the depth is held to the rib', () => {
    expect(computeRib({ ...cut, reach: 50 }, { width: 16, opening: 0 })).toBeCloseTo(0.75, 9);
    expect(computeRib({ ...cut, reach: 50, ribTarget: 0 }, { width: 16, opening: 0 })).toBe(0);
  });

  it('a bored boss leaves its ring wall only: nothing where the bore is wider than the rib', () => {
    expect(computeRib(cut, { width: 16, opening: 10 })).toBe(0);
    // Reach 3: 17 - 6 = 11 would stand, the bore takes 8 of it.
    expect(computeRib({ ...cut, reach: 3 }, { width: 16, opening: 8 })).toBeCloseTo(3, 9);
  });

  it('cut from one side only, it stands along the other, clear of a bore in the middle', () => {
    const oneSided: RibCut = { ...cut, sides: 'fixedSide', reach: 20 };
    expect(computeRib(oneSided, { width: 16, opening: 10 })).toBeCloseTo(0.75, 9);
    expect(computeRib({ ...oneSided, reach: 9 }, { width: 16, opening: 10 })).toBeCloseTo(8 - 4.5, 9);
  });

  it('on tabs it stands only where a tab does', () => {
    const widths = computeWidthProfile(lever, band);
    const tabs = [
      { from: 5, to: 11 },
      { from: 50, to: 56 },
    ];
    const profile = computeTabProfile(
      computeRibProfile(cut, widths),
      computeRibProfile({ ...cut, ribTarget: 0 }, widths),
      tabs,
    );
    const section = computeRibSection(getRibPieces(profile));
    expect(section.length).toBeCloseTo(12, 9);
    expect(section.areaMm2).toBeCloseTo(12 * 0.75, 9);
  });

  it('a mirrored part has the mirrored rib', () => {
    fc.assert(
      fc.property(
        fc.array(
          fc.record({
            from: fc.integer({ min: 0, max: 90 }),
            size: fc.integer({ min: 1, max: 40 }),
            width: fc.integer({ min: 1, max: 20 }),
            widthEnd: fc.integer({ min: 1, max: 20 }),
          }),
          { maxLength: 4 },
        ),
        fc.integer({ min: 5, max: 95 }),
        fc.integer({ min: 1, max: 9 }),
        (stations, boreX, reach) => {
          const part: Part = {
            ...lever,
            stations: stations.map(({ from, size, width, widthEnd }) =>
              buildStation({ from, to: Math.min(100, from + size), width, widthEnd }),
            ),
            holes: [buildHole({ id: 'bore', x: boreX, diameter: 6 })],
          };
          const reached = { ...cut, reach };
          const rib = computeRibProfile(reached, computeWidthProfile(part, band));
          const other = computeRibProfile(reached, computeWidthProfile(mirrorPart(part), band));
          const a = computeRibSection(getRibPieces(rib));
          const b = computeRibSection(getRibPieces(other));
          expect(a.areaMm2).toBeCloseTo(b.areaMm2, 6);
          expect(a.squareMm3).toBeCloseTo(b.squareMm3, 6);
        },
      ),
      { numRuns: 300 },
    );
  });
});
