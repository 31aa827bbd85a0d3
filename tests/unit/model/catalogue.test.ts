import { describe, expect, it } from 'vitest';
import { defaultShop } from '../../../shared/model/catalogue/default-shop';
import { getScrewHead } from '../../../shared/model/catalogue/socket-screws';
import { parseShop } from '../../../shared/model/parse-shop';
import { LIBRARY_KEYS } from '../../../shared/model/plan-library';
import type { SizeBand } from '../../../shared/model/shop';

const inch = 25.4;

function findById<T extends { id: string }>(entries: readonly T[], id: string): T {
  const found = entries.find((entry) => entry.id === id);
  if (found === undefined) throw new Error(`There is no ${id}.`);
  return found;
}

describe('the shop everyone starts with', () => {
  it('is a valid shop file with no id used twice', () => {
    const read = parseShop(defaultShop);
    expect(read.ok ? read.remarks : read.problem).toEqual([]);
  });

  it('has something of every kind', () => {
    for (const key of LIBRARY_KEYS) expect(defaultShop[key].length, key).toBeGreaterThan(0);
  });

  it('says of every figure where it comes from', () => {
    const entries = [
      defaultShop.machine,
      ...defaultShop.materials,
      ...defaultShop.materials.map(({ kienzle }) => kienzle),
      ...defaultShop.sizeClasses,
      ...defaultShop.sizeClasses.map(({ straightness }) => straightness),
      ...defaultShop.bars,
      ...defaultShop.vises,
      ...defaultShop.vises.map(({ screw }) => screw),
      ...defaultShop.jawSets,
      ...defaultShop.tools,
      ...defaultShop.holders,
      ...defaultShop.saws,
    ];
    for (const entry of entries) expect(entry.source.trim(), JSON.stringify(entry)).not.toBe('');
  });

  it('names only materials and size classes that it has', () => {
    for (const bar of defaultShop.bars) {
      findById(defaultShop.materials, bar.materialId);
      findById(defaultShop.sizeClasses, bar.sizeClassId);
    }
  });

  it('begins with an empty rack and no measured bow', () => {
    expect(defaultShop.rack).toEqual([]);
    expect(defaultShop.bowMeasurements).toEqual([]);
  });
});

describe('size classes', () => {
  const bandLists = defaultShop.sizeClasses.flatMap((sizeClass) => [
    { name: `${sizeClass.id} width`, bands: sizeClass.widthBands },
    { name: `${sizeClass.id} thickness`, bands: sizeClass.thicknessBands },
  ]);

  it.each(bandLists)('$name: bands follow on without a gap and never get finer with size', ({ bands }) => {
    expect(bands[0]?.over).toBe(0);
    for (const [index, band] of bands.entries()) {
      const before: SizeBand | undefined = bands[index - 1];
      expect(band.upTo).toBeGreaterThan(band.over);
      if (before === undefined) continue;
      expect(band.over).toBe(before.upTo);
      expect(band.minus + band.plus).toBeGreaterThanOrEqual(before.minus + before.plus);
    }
  });

  it.each(defaultShop.sizeClasses)('$id: skins and corner radii grow with size', ({ skinBands, cornerBands }) => {
    for (const values of [skinBands.map(({ skin }) => skin), cornerBands.map(({ radius }) => radius)]) {
      expect(values).toEqual(values.toSorted((a, b) => a - b));
    }
  });

  it('cover every bar on offer, in width and thickness', () => {
    for (const bar of defaultShop.bars) {
      const sizeClass = findById(defaultShop.sizeClasses, bar.sizeClassId);
      const largest = (bands: readonly SizeBand[]): number => bands.at(-1)?.upTo ?? 0;
      expect(largest(sizeClass.widthBands), bar.id).toBeGreaterThanOrEqual(bar.width);
      expect(largest(sizeClass.thicknessBands), bar.id).toBeGreaterThanOrEqual(bar.thickness);
    }
  });

  it('ask for skin only where metal is rolled, cast or sawn', () => {
    const withSkin = defaultShop.sizeClasses.filter(({ skinBands }) => skinBands.length > 0);
    expect(withSkin.map(({ form }) => form)).toEqual(['hotRolled', 'hotRolled']);
  });
});

describe('bars on offer', () => {
  it('are wider than thick, with lengths and a price that says it is invented', () => {
    for (const bar of defaultShop.bars) {
      expect(bar.width, bar.id).toBeGreaterThan(bar.thickness);
      expect(bar.lengths.length).toBeGreaterThan(0);
      expect(bar.lengths.length).toBeLessThanOrEqual(3);
      expect(bar.source).toContain('invented');
    }
  });

  it('cost more the longer they are', () => {
    for (const { id, lengths } of defaultShop.bars) {
      const byLength = lengths.toSorted((a, b) => a.length - b.length).map(({ price }) => price ?? 0);
      expect(byLength, id).toEqual(byLength.toSorted((a, b) => a - b));
    }
  });

  it('are named as they are asked for at the counter', () => {
    expect(findById(defaultShop.bars, 'bar-4140-0750x2250').name).toBe('3/4 × 2-1/4 in 4140, cold finished');
    expect(findById(defaultShop.bars, 'bar-6082-15x35').name).toBe('15 × 35 mm 6082-T6, extruded');
  });

  it('show a size that is run to order dearer than the next stocked one', () => {
    const getPrice = (id: string): number => findById(defaultShop.bars, id).lengths[0]?.price ?? 0;
    expect(getPrice('bar-1018-0500x1750')).toBeGreaterThan(getPrice('bar-1018-0500x2000'));
    expect(findById(defaultShop.bars, 'bar-1018-0500x1750').lengths[0]?.stocked).toBe(false);
  });
});

// Common practice, no source: about 1/4 in left in plain jaws is close, 1/2 in and more is comfortable.
describe('jaws', () => {
  it.each(['jaws-4in-smooth', 'jaws-6in-smooth', 'jaws-6in-soft', 'jaws-125mm-soft'])(
    '%s: 1/4 in of grip is close, 1/2 and 3/4 in comfortable',
    (id) => {
      const jaws = findById(defaultShop.jawSets, id);
      expect(jaws.leastFlatGrip).toBeLessThan(0.25 * inch);
      expect(jaws.comfortableGrip).toBeGreaterThan(0.25 * inch);
      expect(jaws.comfortableGrip).toBeLessThan(0.5 * inch);
    },
  );

  it('with teeth hold a tenth of an inch', () => {
    expect(findById(defaultShop.jawSets, 'jaws-6in-toothed').leastFlatGrip).toBeCloseTo(0.1 * inch, 9);
  });

  it('that are rougher need less grip and slip less', () => {
    for (const vise of ['4in', '6in', '125mm']) {
      const [smooth, serrated, toothed] = ['smooth', 'serrated', 'toothed'].map((face) =>
        findById(defaultShop.jawSets, `jaws-${vise}-${face}`),
      );
      if (smooth === undefined || serrated === undefined || toothed === undefined) throw new Error('Jaws are missing.');
      expect(smooth.leastFlatGrip).toBeGreaterThan(serrated.leastFlatGrip);
      expect(serrated.leastFlatGrip).toBeGreaterThan(toothed.leastFlatGrip);
      expect(smooth.friction.machined).toBeLessThan(serrated.friction.machined);
      expect(serrated.friction.machined).toBeLessThan(toothed.friction.machined);
    }
  });

  it('can be milled only when soft, and then leave room for a shelf above their screws', () => {
    for (const jaws of defaultShop.jawSets) {
      expect(jaws.millable).toBe(jaws.face === 'soft');
      if (jaws.bolts === null || jaws.height === null) continue;
      const screwTop = jaws.bolts.centreHeight + jaws.bolts.counterboreDiameter / 2;
      expect(jaws.height - screwTop, jaws.id).toBeGreaterThan(jaws.comfortableGrip);
      expect(jaws.bolts.counterboreDepth, jaws.id).toBeLessThan(jaws.thickness);
      expect(getScrewHead(jaws.bolts.thread)?.counterboreDiameter).toBe(jaws.bolts.counterboreDiameter);
    }
  });
});

describe('vises', () => {
  it.each(defaultShop.vises)('$id: a firm pull stays within what it may be driven to', ({ screw, maxClampForceN }) => {
    // Screw of V form: Shigley's Mechanical Engineering Design, 9th ed., eqs. 8-5 and 8-6.
    const radians = (screw.threadHalfAngleDeg * Math.PI) / 180;
    const friction = screw.threadFriction / Math.cos(radians);
    const perTurn = Math.PI * screw.meanDiameter;
    const thread = ((screw.meanDiameter / 2) * (screw.lead + friction * perTurn)) / (perTurn - friction * screw.lead);
    const collar = (screw.collarFriction * screw.collarMeanDiameter) / 2;
    const clampForceN = 60_000 / (thread + collar);
    expect(clampForceN).toBeGreaterThan(8_000);
    expect(clampForceN).toBeLessThan(maxClampForceN * 1.1);
  });

  it.each(defaultShop.vises)('$id: the body is at least as wide as its jaws', (vise) => {
    expect(vise.bodyLength).toBeGreaterThanOrEqual(vise.jawWidth);
    expect(vise.bodyWidth).toBeGreaterThan(vise.fixedJawSetback + vise.maxOpening);
  });
});

describe('tools', () => {
  it('are no longer fluted or necked than they are long', () => {
    for (const tool of defaultShop.tools) {
      if (tool.kind === 'endMill') {
        expect(tool.fluteLength + (tool.neck?.length ?? 0), tool.id).toBeLessThan(tool.overallLength);
      }
      if (tool.kind === 'keySeat') {
        expect(tool.width + tool.neckLength, tool.id).toBeLessThan(tool.overallLength);
        expect(tool.neckDiameter, tool.id).toBeLessThan(tool.diameter);
      }
      if (tool.kind === 'slittingSaw') expect(tool.flangeDiameter, tool.id).toBeLessThan(tool.diameter);
    }
  });
});
