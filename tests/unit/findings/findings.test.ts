import { describe, expect, it } from 'vitest';
import { evaluate } from '../../../shared/evaluate';
import { applyFix } from '../../../shared/findings/apply-fix';
import type { Finding, Severity } from '../../../shared/findings/finding';
import { defaultShop } from '../../../shared/model/catalogue/default-shop';
import { setAtPath } from '../../../shared/model/edit';
import type { Plan } from '../../../shared/model/plan';
import { inchesToMm } from '../../../shared/units/exact';
import { buildLeverPlan } from '../support/lever-plan';
import { readSamplePlan } from '../support/sample-plans';

const arms = readSamplePlan('hoist-arms');
const links = readSamplePlan('keeper-links');

type Edit = [path: (string | number)[], value: unknown];

function edit(plan: Plan, ...edits: Edit[]): Plan {
  return edits.reduce((edited, [path, value]) => setAtPath(edited, path, value), plan);
}

function getFindings(plan: Plan, shop = defaultShop): Finding[] {
  return evaluate(plan, shop).findings;
}

function findCode(plan: Plan, code: string, shop = defaultShop): Finding | undefined {
  return getFindings(plan, shop).find((finding) => finding.code === code);
}

const barOf = (width: number): string => {
  const bar = arms.library.bars
    .concat(defaultShop.bars)
    .find(
      (candidate) =>
        candidate.materialId === arms.stock.materialId &&
        Math.abs(candidate.width - inchesToMm(width)) < 1e-6 &&
        Math.abs(candidate.thickness - inchesToMm(0.75)) < 1e-6,
    );
  if (bar === undefined) throw new Error(`no ${width} in bar`);
  return bar.id;
};
const takeBar = (width: number): Edit => [['stock', 'barId'], { pinned: barOf(width) }];
const onShelf: Edit = [['holding', 'seat'], { pinned: { kind: 'shelf' } }];

function getPlacesOfTabs(places: number[]): { partId: string; x: number }[] {
  return places.map((x) => ({ partId: arms.parts[0]?.id ?? '', x }));
}

/** A bore in the first part, on a bar so low that little metal is left below it. */
function withBore(diameter: number, seat: Plan['holding']['seat'] = { pinned: { kind: 'bed' } }): Plan {
  const bore = { id: 'big', axis: 'z', x: 80, z: 0, diameter, slotLength: 0, through: true, beforeCutOff: true };
  return edit(
    arms,
    takeBar(1.75),
    [['parts', 0, 'holes'], [bore]],
    [['parts', 0, 'stations'], []],
    [['holding', 'seat'], seat],
    [['holding', 'jawSetId'], 'jaws-low'],
    [
      ['library', 'jawSets'],
      [...arms.library.jawSets, { ...arms.library.jawSets[0], id: 'jaws-low', height: 8 }],
    ],
  );
}

/** What provokes each rule, how grave it is then, and whether one of its fixes must settle it. */
const CASES: { code: string; severity: Severity; plan: Plan; fixed: boolean; says?: RegExp }[] = [
  { code: 'no-parts', severity: 'stop', plan: edit(arms, [['parts'], []], [['layout'], 'auto']), fixed: false },
  {
    code: 'entry-missing',
    severity: 'stop',
    plan: edit(arms, [['holding', 'viseId'], 'gone']),
    fixed: false,
    says: /vise/,
  },
  {
    code: 'no-bars-on-offer',
    severity: 'stop',
    plan: edit(
      arms,
      [['stock', 'materialId'], 'none'],
      [
        ['library', 'materials'],
        [...arms.library.materials, { ...arms.library.materials[0], id: 'none', name: 'Unobtainable' }],
      ],
    ),
    fixed: false,
    says: /Unobtainable/,
  },
  {
    code: 'nothing-fits',
    severity: 'stop',
    plan: edit(arms, [['parts', 0, 'height'], 500]),
    fixed: false,
    says: /Pawl arm/,
  },
  {
    code: 'nothing-fits',
    severity: 'stop',
    plan: edit(arms, [['parts', 1, 'thickness'], inchesToMm(0.98)]),
    fixed: false,
    says: /the nearest, 1 × \S+ in 4140, cold finished, is .*too thin across the jaws/,
  },
  { code: 'bar-too-low', severity: 'stop', plan: edit(arms, takeBar(1.5)), fixed: true },
  {
    code: 'bar-too-thin',
    severity: 'stop',
    plan: edit(arms, takeBar(2.25), [['parts', 0, 'thickness'], inchesToMm(0.74)]),
    fixed: true,
    says: /Pawl arm/,
  },
  { code: 'grip-close', severity: 'check', plan: edit(arms, takeBar(2)), fixed: true },
  {
    code: 'shelf-too-deep',
    severity: 'stop',
    plan: edit(arms, takeBar(3), onShelf, [['holding', 'shelfDepth'], { pinned: inchesToMm(1.2) }]),
    fixed: true,
  },
  {
    code: 'cut-off-below-jaws',
    severity: 'stop',
    plan: edit(arms, takeBar(2), onShelf, [['holding', 'shelfDepth'], { pinned: inchesToMm(0.4) }]),
    fixed: true,
  },
  {
    code: 'clamp-over-limit',
    severity: 'stop',
    plan: edit(arms, [['holding', 'clamp'], { kind: 'force', clampForceN: 1e6 }]),
    fixed: true,
  },
  {
    code: 'hold-weak',
    severity: 'stop',
    plan: edit(arms, [['holding', 'clamp'], { kind: 'force', clampForceN: 1500 }]),
    fixed: false,
  },
  {
    code: 'jaw-pressure',
    severity: 'check',
    plan: edit(arms, takeBar(2), onShelf, [['holding', 'clamp'], { kind: 'force', clampForceN: 400000 }]),
    fixed: false,
  },
  {
    code: 'vises-clash',
    severity: 'stop',
    plan: edit(arms, [['holding', 'viseCount'], { pinned: 2 }], [['holding', 'vises'], { pinned: [0, 10] }]),
    fixed: true,
  },
  {
    code: 'not-in-a-vise',
    severity: 'stop',
    plan: edit(arms, [['holding', 'vises'], { pinned: [100, 350, 600] }], [['holding', 'blankX'], { pinned: 3000 }]),
    fixed: true,
  },
  {
    code: 'overhang-bends',
    severity: 'check',
    plan: edit(arms, [['holding', 'viseCount'], { pinned: 1 }], [['holding', 'vises'], 'auto']),
    fixed: true,
  },
  {
    code: 'rib-too-thick',
    severity: 'stop',
    plan: edit(arms, [['release', 'ribTarget'], { pinned: inchesToMm(0.2) }]),
    fixed: false,
  },
  {
    code: 'cut-through',
    severity: 'stop',
    plan: edit(
      links,
      [['parts', 0, 'stations'], []],
      [['parts', 0, 'thickness'], 7],
      [['release', 'ribTarget'], { pinned: 0 }],
      [['release', 'keep'], { pinned: 'rib' }],
    ),
    fixed: true,
    says: /thrown/,
  },
  {
    code: 'clearance-small',
    severity: 'check',
    plan: edit(arms, takeBar(2), [['release', 'clearance'], { pinned: inchesToMm(0.005) }], onShelf),
    fixed: true,
  },
  {
    code: 'cut-after-cut-off',
    severity: 'check',
    plan: edit(arms, [['cuts'], [arms.cuts[2], arms.cuts[0], arms.cuts[1]]]),
    fixed: true,
  },
  {
    code: 'tabs-out-of-limits',
    severity: 'check',
    plan: edit(
      arms,
      [['release', 'keep'], { pinned: 'tabs' }],
      [['release', 'tabs'], { pinned: [{ partId: arms.parts[0]?.id ?? '', x: 100 }] }],
    ),
    fixed: true,
    says: /Pawl arm: the tabs as placed leave an end of/,
  },
  {
    code: 'tabs-out-of-limits',
    severity: 'check',
    plan: edit(
      arms,
      [['release', 'keep'], { pinned: 'tabs' }],
      [['release', 'tabs'], { pinned: getPlacesOfTabs([20, 60, 100, 140, 170]) }],
      [['parts', 0, 'keepOuts'], [{ from: 90, to: 110 }]],
    ),
    fixed: true,
    says: /Pawl arm: the tabs as placed .*stand in a keep-out \(1 of 5\)/,
  },
  {
    code: 'tabs-out-of-limits',
    severity: 'check',
    plan: edit(arms, [['release', 'keep'], { pinned: 'tabs' }], [['parts', 0, 'keepOuts'], [{ from: 0, to: 60 }]]),
    fixed: true,
    says: /Pawl arm: the best tabs there are leave an end of/,
  },
  {
    code: 'no-tab-fits',
    severity: 'stop',
    plan: edit(arms, [['release', 'keep'], { pinned: 'tabs' }], [['parts', 0, 'keepOuts'], [{ from: 0, to: 1000 }]]),
    fixed: true,
    says: /Pawl arm: keep-outs and holes/,
  },
  {
    code: 'bore-reaches-seat',
    severity: 'check',
    plan: withBore(40),
    fixed: false,
    says: /Pawl arm: the point of a 1\.575 in drill .* the vise bed is/,
  },
  { code: 'no-cut-off', severity: 'check', plan: edit(arms, [['cuts'], arms.cuts.slice(0, 2)]), fixed: false },
  {
    code: 'stick-out-short',
    severity: 'stop',
    plan: edit(arms, [['cuts', 0, 'stickOut'], { pinned: 10 }]),
    fixed: true,
  },
  {
    code: 'sticks-out-far',
    severity: 'check',
    plan: edit(arms, [['cuts', 0, 'stickOut'], { pinned: 150 }]),
    fixed: true,
  },
  { code: 'step-down-deep', severity: 'check', plan: edit(arms, [['cuts', 0, 'stepDown'], 30]), fixed: true },
  {
    code: 'allowance-short',
    severity: 'stop',
    plan: edit(arms, [
      ['parts', 0, 'allowance'],
      { top: 0.1, bottom: 0.1, fixedSide: 0.1, movingSide: 0.1, leftEnd: 0.1, rightEnd: 0.1 },
    ]),
    fixed: true,
    says: /Pawl arm/,
  },
  {
    code: 'one-sided-removal',
    severity: 'check',
    plan: edit(arms, [['cleanup', 'fromFixedJaw'], { pinned: inchesToMm(0.01) }]),
    fixed: true,
  },
  {
    code: 'station-outside-part',
    severity: 'check',
    plan: edit(arms, [['parts', 0, 'stations'], [{ kind: 'shank', from: -5, to: 20, width: 5, widthEnd: 5 }]]),
    fixed: false,
  },
  {
    code: 'hole-outside-part',
    severity: 'check',
    plan: edit(arms, [
      ['parts', 0, 'holes'],
      [{ id: 'h', axis: 'z', x: 5000, z: 0, diameter: 5, slotLength: 0, through: true, beforeCutOff: true }],
    ]),
    fixed: false,
  },
  {
    code: 'no-spares',
    severity: 'note',
    plan: edit(
      links,
      [['order', 'spares'], { kind: 'none' }],
      [['parts', 0, 'quantity'], 4],
      [['partsPerBlank'], { pinned: 4 }],
    ),
    fixed: false,
  },
  {
    code: 'order-not-proven',
    severity: 'note',
    plan: buildLeverPlan(),
    fixed: false,
    says: /best cut found, not yet proven/,
  },
  { code: 'tighten-every-vise', severity: 'note', plan: arms, fixed: false },
  { code: 'bow-assumed', severity: 'note', plan: arms, fixed: false },
];

describe('findings', () => {
  it.each(CASES)('$code is a $severity', ({ code, severity, plan, says }) => {
    const found = getFindings(plan).filter((finding) => finding.code === code);
    expect(getFindings(plan).map((finding) => finding.code)).toContain(code);
    expect(found.map((finding) => finding.severity)).toContain(severity);
    if (says !== undefined) expect(found.map((finding) => finding.sentence).join(' ')).toMatch(says);
  });

  it.each(CASES.filter((one) => one.fixed))('a fix of $code settles it', ({ code, plan, severity }) => {
    const finding = getFindings(plan).find((one) => one.code === code && one.severity === severity);
    const settled = (finding?.fixes ?? []).filter(
      (fix) => !getFindings(applyFix(plan, fix)).some((one) => one.key === finding?.key),
    );
    expect(settled).not.toEqual([]);
  });

  it('says every sentence once, whole, and without a number that is not one', () => {
    for (const { plan } of CASES) {
      const findings = getFindings(plan);
      expect(new Set(findings.map((finding) => finding.key)).size).toBe(findings.length);
      for (const finding of findings) {
        expect(finding.sentence).toMatch(/^["\p{Lu}\d][\s\S]*[.!?]$/u);
        expect(`${finding.sentence} ${finding.detail}`).not.toMatch(/NaN|undefined|Infinity|null|—/);
      }
    }
  });

  it('has no stop in either sample', () => {
    for (const plan of [arms, links]) {
      expect(getFindings(plan).filter((finding) => finding.severity === 'stop')).toEqual([]);
    }
  });

  it('speaks in the units of the plan', () => {
    const inch = findCode(edit(arms, takeBar(2)), 'grip-close');
    const metric = findCode(edit(arms, takeBar(2), [['units'], 'mm']), 'grip-close');
    expect(inch?.sentence).toContain(' in;');
    expect(metric?.sentence).toContain(' mm;');
  });

  it('keeps a check accepted while its numbers stand, and asks again when they change', () => {
    const plan = edit(arms, takeBar(2));
    const finding = findCode(plan, 'grip-close');
    if (finding === undefined) throw new Error('grip-close expected');
    const accepted = edit(plan, [
      ['accepted'],
      [{ code: finding.key, by: 'A.', date: '', sentence: finding.sentence }],
    ]);
    expect(findCode(accepted, 'grip-close')?.accepted).toBe(true);
    const changed = edit(accepted, onShelf, [['holding', 'shelfDepth'], { pinned: inchesToMm(0.25) }]);
    expect(findCode(changed, 'grip-close')?.accepted).toBe(false);
  });

  it('never lets a stop be accepted away', () => {
    const plan = edit(arms, takeBar(1.5));
    const finding = findCode(plan, 'bar-too-low');
    if (finding === undefined) throw new Error('bar-too-low expected');
    const accepted = edit(plan, [
      ['accepted'],
      [{ code: finding.key, by: 'A.', date: '', sentence: finding.sentence }],
    ]);
    expect(findCode(accepted, 'bar-too-low')?.accepted).toBe(false);
  });
});

describe('a bore and what carries the bar', () => {
  const code = 'bore-reaches-seat';

  it('meets only what lies under it: a narrow bore drops between two parallels, a wide one meets them', () => {
    const parallels: Plan['holding']['seat'] = {
      pinned: { kind: 'parallels', parallelId: defaultShop.parallels[0]?.id ?? '', count: 2 },
    };
    for (const [diameter, seat] of [
      [40, { pinned: { kind: 'bed' } }],
      [3, parallels],
    ] as const) {
      const plan = withBore(diameter, seat);
      const over = evaluate(plan, defaultShop).seat?.holesOverSupport ?? [];
      expect(findCode(plan, code) !== undefined).toBe(over.some(({ holeId }) => holeId === 'big'));
    }
    expect(findCode(withBore(3, parallels), code)).toBeUndefined();
  });

  it('meets nothing where no vise stands under it', () => {
    const plan = edit(
      withBore(40),
      [['holding', 'viseCount'], { pinned: 1 }],
      [['holding', 'vises'], { pinned: [450] }],
      [['holding', 'blankX'], { pinned: 0 }],
    );
    const [contact] = evaluate(plan, defaultShop).blanks[0]?.contacts ?? [];
    expect(contact?.from).toBeGreaterThan(200);
    const parts = evaluate(plan, defaultShop).blanks[0]?.parts.filter(({ partId }) => partId === arms.parts[0]?.id);
    const near = parts?.some((placed) => placed.x + 80 + 20 > (contact?.from ?? 0)) ?? false;
    expect(findCode(plan, code) !== undefined).toBe(near);
  });
});

describe('what helps a weak hold', () => {
  const clamped = (plan: Plan, clampForceN: number): Plan =>
    edit(plan, [['holding', 'clamp'], { kind: 'force', clampForceN }]);
  const getLeast = (plan: Plan): number =>
    Math.min(...evaluate(plan, defaultShop).blanks.map(({ hold }) => hold.weakest?.factor.value ?? 1000));

  it.each([
    ['arms, far too little clamp force', clamped(arms, 1500)],
    ['arms, too little', clamped(arms, 5000)],
    ['arms, on a shelf', edit(clamped(arms, 5000), onShelf)],
    ['arms, a shallow shelf', edit(clamped(arms, 5000), onShelf, [['holding', 'shelfDepth'], { pinned: 8 }])],
    ['arms in a low bar', edit(clamped(arms, 5000), takeBar(2))],
    ['links, too little', edit(clamped(links, 3000), [['holding', 'viseCount'], { pinned: 2 }])],
    ['links, far too little', clamped(links, 1500)],
  ])('every fix offered truly raises the factor: %s', (_name, plan) => {
    const before = getLeast(plan);
    const finding = findCode(plan, 'hold-weak');
    expect(finding?.fixes.length).toBeGreaterThan(0);
    expect(finding?.fixes.length).toBeLessThanOrEqual(4);
    for (const fix of finding?.fixes ?? []) {
      expect([fix.label, getLeast(applyFix(plan, fix)) > before * 1.01]).toEqual([fix.label, true]);
    }
  });
});

describe('common practice of the trade (no source)', () => {
  it('a 1-1/2 in bar with about a quarter inch in the vise is close, a 1-3/4 or 2 in bar is comfortable', () => {
    const lever = { ...arms.parts[0], height: inchesToMm(0.93), stations: [], holes: [] };
    const plan = edit(arms, [['parts'], [lever]], [['layout'], 'auto']);
    const at = (width: number) =>
      getFindings(edit(plan, takeBar(width)))
        .filter((finding) => finding.code.startsWith('grip-'))
        .map((finding) => finding.code);
    const seated = (width: number) => evaluate(edit(plan, takeBar(width)), defaultShop).seat?.grip ?? 0;
    expect(seated(1.5) / 25.4).toBeCloseTo(0.25, 1);
    expect(at(1.5)).toContain('grip-close');
    expect(at(1.5)).not.toContain('grip-too-thin');
    expect(at(1.75)).not.toContain('grip-close');
    expect(at(2)).not.toContain('grip-close');
  });

  it('several vises on one bar all have to be tight', () => {
    expect(findCode(arms, 'tighten-every-vise')).toBeDefined();
  });
});
