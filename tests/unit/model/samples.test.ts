import { describe, expect, it } from 'vitest';
import { defaultShop } from '../../../shared/model/catalogue/default-shop';
import { SAMPLES } from '../../../shared/model/catalogue/samples';
import { parsePlanText } from '../../../shared/model/parse-plan';
import type { Part, Plan } from '../../../shared/model/plan';
import { getLibraryDifferences } from '../../../shared/model/plan-library';
import { serializePlan } from '../../../shared/model/serialize';
import { readSampleText, SAMPLE_NAMES } from '../support/sample-plans';

const inch = 25.4;

describe.each(SAMPLE_NAMES.map((name) => [name, SAMPLES[name]] as const))('the sample %s', (name, build) => {
  it('is the file its builder writes (npx tsx tests/data/write-samples.ts)', () => {
    expect(readSampleText(name)).toBe(serializePlan(build()));
  });

  it('opens without remarks and agrees with the shop everyone starts with', () => {
    const read = parsePlanText(readSampleText(name));
    if (!read.ok) throw new Error(read.problem.sentence);
    expect(read.remarks).toEqual([]);
    expect(getLibraryDifferences(read.plan, defaultShop)).toEqual([]);
  });

  it('says that its prices are invented', () => {
    const plan = build();
    expect(plan.notes).toContain('invented');
    for (const bar of plan.library.bars) expect(bar.source).toContain('invented');
  });
});

/** Grip a bar leaves, by the arithmetic of the height stack. */
function getGrip(plan: Plan, part: Part, barId: string, kerf: number): number {
  const bar = plan.library.bars.find(({ id }) => id === barId);
  if (bar === undefined) throw new Error(`There is no ${barId}.`);
  const allowance = part.allowance ?? plan.allowance;
  return (
    bar.width - (plan.cleanup.top + allowance.top + part.height + allowance.bottom + kerf + defaultShop.rules.clearance)
  );
}

function getPrice(plan: Plan, barId: string): number {
  return plan.library.bars.find(({ id }) => id === barId)?.lengths[0]?.price ?? 0;
}

function getPart(plan: Plan, id: string): Part {
  const part = plan.parts.find((candidate) => candidate.id === id);
  if (part === undefined) throw new Error(`There is no ${id}.`);
  return part;
}

function getCutterWidth(plan: Plan): number {
  const cutter = plan.library.tools.find((tool) => tool.kind === 'keySeat');
  return cutter?.kind === 'keySeat' ? cutter.width : 0;
}

describe('the choice the hoist arms turn on', () => {
  const plan = SAMPLES['hoist-arms']();
  const bars = ['bar-4140-0750x2000', 'bar-4140-0750x2250', 'bar-4140-0750x2500'];
  const grips = bars.map((id) => getGrip(plan, getPart(plan, 'part-2'), id, getCutterWidth(plan)) / inch);

  it('a 2 in bar leaves about 0.3 in of grip, 2-1/4 and 2-1/2 in bars leave more', () => {
    expect(grips[0]).toBeCloseTo(0.2975, 6);
    expect(grips[1]).toBeCloseTo(0.5475, 6);
    expect(grips[2]).toBeCloseTo(0.7975, 6);
  });

  it('and cost more', () => {
    const prices = bars.map((id) => getPrice(plan, id));
    expect(prices).toEqual(prices.toSorted((a, b) => a - b));
    expect(new Set(prices).size).toBe(3);
  });

  it('in soft jaws the first is close, the others comfortable', () => {
    const jaws = plan.library.jawSets[0];
    expect((grips[0] ?? 0) * inch).toBeGreaterThan(jaws?.leastFlatGrip ?? 0);
    expect((grips[0] ?? 0) * inch).toBeLessThan(jaws?.comfortableGrip ?? 0);
    expect((grips[1] ?? 0) * inch).toBeGreaterThan(jaws?.comfortableGrip ?? 0);
  });
});

describe('the choice the keeper links turn on', () => {
  const plan = SAMPLES['keeper-links']();
  const bars = ['bar-6082-15x30', 'bar-6082-15x35', 'bar-6082-15x40'];
  const grips = bars.map((id) => getGrip(plan, getPart(plan, 'part-1'), id, getCutterWidth(plan)));

  it('a 30 mm bar leaves less than 6 mm of grip, 35 and 40 mm bars leave more', () => {
    expect(grips.map((grip) => Math.round(grip * 100) / 100)).toEqual([5.73, 10.73, 15.73]);
  });

  it('and cost more', () => {
    const prices = bars.map((id) => getPrice(plan, id));
    expect(prices).toEqual(prices.toSorted((a, b) => a - b));
    expect(new Set(prices).size).toBe(3);
  });
});
