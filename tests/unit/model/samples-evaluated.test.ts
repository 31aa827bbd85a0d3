import { describe, expect, it } from 'vitest';
import { evaluate } from '../../../shared/evaluate';
import { defaultShop } from '../../../shared/model/catalogue/default-shop';
import { SAMPLES } from '../../../shared/model/catalogue/samples';

const inch = 25.4;

function getRows(name: keyof typeof SAMPLES, barIds: readonly string[]) {
  const { sections } = evaluate(SAMPLES[name](), defaultShop);
  return barIds.map((barId) => {
    const row = sections.find((section) => section.barId === barId && section.wayUp === 'onEdge');
    if (row === undefined) throw new Error(`${barId} is not compared.`);
    return row;
  });
}

describe('the samples, evaluated, show the choice the job turns on', () => {
  it('hoist arms: the 2 in bar is close, the 2-1/4 in bar is taken, the 2-1/2 in bar grips more and costs more', () => {
    const rows = getRows('hoist-arms', ['bar-4140-0750x2000', 'bar-4140-0750x2250', 'bar-4140-0750x2500']);
    expect(rows.map(({ verdict, chosen }) => [verdict, chosen])).toEqual([
      ['check', false],
      ['good', true],
      ['good', false],
    ]);
    const [first, second, third] = rows.map(({ gripLeast }) => gripLeast / inch);
    expect(first).toBeCloseTo(0.2915, 4);
    expect(second).toBeCloseTo(0.5415, 4);
    expect(third).toBeCloseTo(0.7915, 4);
    const costs = rows.map(({ cost }) => cost ?? 0);
    expect(costs).toEqual(costs.toSorted((a, b) => a - b));
  });

  it('keeper links: the 30 mm bar is close, the 35 mm bar is taken, the 40 mm bar grips more and costs more', () => {
    const rows = getRows('keeper-links', ['bar-6082-15x30', 'bar-6082-15x35', 'bar-6082-15x40']);
    expect(rows.map(({ verdict, chosen }) => [verdict, chosen])).toEqual([
      ['check', false],
      ['good', true],
      ['good', false],
    ]);
    expect(rows.map(({ grip }) => grip)).toEqual(rows.map(({ grip }) => grip).toSorted((a, b) => a - b));
    const costs = rows.map(({ cost }) => cost ?? 0);
    expect(costs).toEqual(costs.toSorted((a, b) => a - b));
  });

  it.each(Object.entries(SAMPLES))('%s opens without a stop, with several parts to a blank', (_name, build) => {
    const { findings, blanks, order } = evaluate(build(), defaultShop);
    expect(findings.filter(({ severity }) => severity === 'stop')).toEqual([]);
    for (const { parts } of blanks) expect(parts.length).toBeGreaterThan(1);
    expect(order?.proven).toBe(true);
    expect(order?.unplaced).toEqual([]);
  });

  it.each(Object.entries(SAMPLES))('%s comes out the same where the shop is bare', (_name, build) => {
    const plan = build();
    const bare = {
      ...defaultShop,
      ...{ materials: [], sizeClasses: [], bars: [], vises: [], jawSets: [] },
      ...{ parallels: [], tools: [], holders: [], saws: [] },
    };
    const [here, there] = [evaluate(plan, defaultShop), evaluate(plan, bare)];
    expect(there.section?.barId.value).toBe(here.section?.barId.value);
    expect(there.seat?.grip).toBe(here.seat?.grip);
    expect(there.order?.cost?.value).toBe(here.order?.cost?.value);
  });
});
