import { describe, expect, it } from 'vitest';
import { evaluate } from '../../shared/evaluate';
import { applyFix } from '../../shared/findings/apply-fix';
import type { Severity } from '../../shared/findings/finding';
import { defaultShop } from '../../shared/model/catalogue/default-shop';
import type { Cut, Plan } from '../../shared/model/plan';
import {
  buildBar,
  buildCutter,
  buildJaws,
  buildScenario,
  buildSizeClass,
  evaluateScenario,
  inch,
  LOW_CARBON,
  type Scenario,
} from './engine-geometry/scenario';

// Mistakes of the trade, each made on purpose on one small job: common practice, no source.

const MILL = 'tool-em-carbide-0500';
const mill = defaultShop.tools.filter(({ id }) => id === MILL);
const LEVER = { id: 'lever', name: 'Lever', length: 100, height: 20, thickness: 8 };

function buildCut(change: Partial<Cut>): Cut {
  return {
    id: 'sides',
    name: 'Sides',
    kind: 'side',
    toolId: MILL,
    holderId: '',
    stepDown: 3,
    sideEngagement: 0.5,
    feedPerTooth: 0.03,
    cuttingSpeedMPerMin: 60,
    stickOut: 'auto',
    ...change,
  };
}
const cutOff = (change: Partial<Cut> = {}): Cut =>
  buildCut({ id: 'off', name: 'Cut off', kind: 'cutOff', toolId: '', sideEngagement: 1, ...change });

/** The job done well, changed as told. */
function job(change: Scenario = {}, edit: (plan: Plan) => Plan = (plan) => plan): Scenario {
  const { shop, rules, ...others } = change;
  return {
    units: 'mm',
    parts: [LEVER],
    bars: [buildBar({ id: 'bar', width: 40, thickness: 12 })],
    shop: { tools: [buildCutter(3), ...mill], ...shop },
    rules: { clearance: 0.6, toolDeflectionLimit: 5, ...rules },
    ...others,
    plan: (plan) => edit({ ...plan, cuts: [buildCut({}), cutOff()] }),
  };
}
const holding =
  (change: Partial<Plan['holding']>) =>
  (plan: Plan): Plan => ({
    ...plan,
    holding: { ...plan.holding, ...change },
  });
const onShelf = holding({ seat: { pinned: { kind: 'shelf' } } });
const withCuts =
  (...cuts: Cut[]) =>
  (plan: Plan): Plan => ({ ...plan, cuts });

const blankLength = evaluateScenario(job()).blanks[0]?.length ?? 0;
const buildLength = (length: number, price = 50) => [{ id: 'one', length, price, stocked: true, quantity: null }];

/** What is done wrong, what is said of it, how gravely, and whether a fix of it must settle it. */
const MISTAKES: [mistake: string, code: string, severity: Severity, scenario: Scenario, isFixed?: boolean][] = [
  [
    'cold-finished bar left as supplied on a part that may not be under size',
    'as-supplied-out-of-size',
    'check',
    job({
      parts: [
        {
          ...LEVER,
          thickness: 12,
          asSupplied: ['fixedSide', 'movingSide'],
          thicknessTolerance: { plus: 0, minus: 0.02 },
        },
      ],
      sizeClass: buildSizeClass({ thicknessBands: [{ over: 0, upTo: 100, minus: 0.1, plus: 0 }] }),
    }),
  ],
  [
    'a blank longer than the machine travels',
    'beyond-travel',
    'stop',
    job({ shop: { machine: { ...defaultShop.machine, travelX: 60 } } }),
  ],
  [
    'round corners of rolled bar in a shallow grip',
    'corner-eats-grip',
    'note',
    job({ sizeClass: buildSizeClass({ cornerBands: [{ upTo: 100, radius: 2 }] }) }, onShelf),
  ],
  [
    'work at one end of the jaw',
    'held-at-jaw-end',
    'check',
    job({}, holding({ vises: { pinned: [110] }, viseCount: { pinned: 1 }, blankX: { pinned: 0 } })),
  ],
  [
    'a shelf that leaves too thin a wall of jaw',
    'jaw-wall-thin',
    'check',
    job({ jaws: buildJaws({ thickness: 4 }) }, onShelf),
  ],
  [
    'a bar cut with nothing to spare',
    'no-margin-in-bar',
    'check',
    job({ bars: [buildBar({ id: 'bar', width: 40, thickness: 12, lengths: buildLength(blankLength + 0.2) })] }),
  ],
  [
    'parallels that stand above the jaws',
    'no-parallel-fits',
    'check',
    job(
      { shop: { parallels: [{ id: 'tall', height: 80, thickness: 3, length: 150, count: 2 }] } },
      holding({ seat: { pinned: { kind: 'parallels', parallelId: 'tall', count: 2 } } }),
    ),
    true,
  ],
  [
    'parts laid into each other',
    'parts-clash',
    'stop',
    job({ parts: [{ ...LEVER, quantity: 2 }] }, (plan) => ({
      ...plan,
      layout: {
        pinned: [
          {
            id: 'blank',
            length: 'auto',
            count: 'auto',
            slots: [
              { id: 'a', partId: 'lever', x: 5, mirrored: false },
              { id: 'b', partId: 'lever', x: 60, mirrored: false },
            ],
          },
        ],
      },
    })),
    true,
  ],
  [
    'a drop of unknown grade',
    'remnant-unmarked',
    'check',
    job(
      {
        shop: {
          rack: [
            {
              id: 'drop',
              materialId: LOW_CARBON,
              sizeClassId: 'class-test',
              width: 40,
              thickness: 12,
              length: 400,
              quantity: 1,
              worth: 0,
              heatMark: '',
              note: '',
            },
          ],
        },
      },
      (plan) => ({ ...plan, order: { ...plan.order, useRack: true } }),
    ),
  ],
  [
    'a rib too thin to last the cut',
    'rib-thin',
    'check',
    job({}, (plan) => ({ ...plan, release: { ...plan.release, ribTarget: { pinned: 0.1 } } })),
  ],
  [
    'a cut-off so heavy that it breaks the rib',
    'rib-breaks-in-cut',
    'check',
    job({}, (plan) => ({
      ...withCuts(cutOff({ sideEngagement: 3, feedPerTooth: 0.2 }))(plan),
      release: { ...plan.release, ribTarget: { pinned: 0.3 } },
    })),
  ],
  [
    'rolled faces in smooth jaws',
    'rough-in-smooth-jaws',
    'check',
    job({ sizeClass: buildSizeClass({ surface: 'rolled', form: 'hotRolled' }), jaws: buildJaws({ face: 'smooth' }) }),
  ],
  [
    'skin left on one face',
    'skin-left-on',
    'stop',
    job({ sizeClass: buildSizeClass({ skinBands: [{ upTo: 100, skin: 0.8 }] }) }, (plan) => ({
      ...plan,
      cleanup: { ...plan.cleanup, fromFixedJaw: { pinned: 0.2 } },
    })),
    true,
  ],
  [
    'a long bar bridging two vises',
    'span-bends',
    'check',
    job({ parts: [{ ...LEVER, length: 900 }], bars: [buildBar({ id: 'bar', width: 40, thickness: 12 })] }, (plan) =>
      withCuts(buildCut({ stepDown: 8, sideEngagement: 3 }))(
        holding({ vises: { pinned: [80, 820] }, viseCount: { pinned: 2 }, blankX: { pinned: 0 } })(plan),
      ),
    ),
  ],
  [
    'a bar that stands far out of its grip',
    'stands-tall',
    'check',
    job({ jaws: buildJaws({ maxProudToGrip: 0.2 }) }, onShelf),
  ],
  ['a spindle asked to turn too fast', 'too-fast', 'check', job({}, withCuts(buildCut({ cuttingSpeedMPerMin: 5000 })))],
  [
    'a spindle without the power',
    'too-little-power',
    'check',
    job({ shop: { machine: { ...defaultShop.machine, spindlePowerKw: 0.001 } } }),
  ],
  ['a cutter that is too long and slender', 'tool-bends', 'check', job({ rules: { toolDeflectionLimit: 0.0005 } })],
  ['a tool clamped by its flutes', 'tool-collides', 'stop', job({}, withCuts(buildCut({ stickOut: { pinned: 6 } })))],
  ['a wall that bends under the cut', 'wall-bends', 'check', job({ rules: { deflectionLimit: 0.0001 } })],
  [
    'a bar dearer than a deeper one',
    'cheaper-and-deeper',
    'note',
    job(
      {
        bars: [
          buildBar({ id: 'dear', width: 40, thickness: 12, lengths: buildLength(1000, 90) }),
          buildBar({ id: 'deep', width: 45, thickness: 12, lengths: buildLength(1000, 40) }),
        ],
      },
      (plan) => ({ ...plan, stock: { ...plan.stock, barId: { pinned: 'dear' }, wayUp: { pinned: 'onEdge' } } }),
    ),
    true,
  ],
  [
    'a step that the spacer stands above',
    'spacer-too-tall',
    'stop',
    job({}, (plan) => holding({ spacerHeight: { pinned: 200 } })(onShelf(plan))),
    true,
  ],
  [
    'a spacer that leaves next to no ledge',
    'ledge-narrow',
    'check',
    job({}, (plan) => holding({ spacer: { pinned: 11.5 } })(onShelf(plan))),
    true,
  ],
  [
    'a piece cut through',
    'cut-through',
    'stop',
    job({}, (plan) => ({ ...plan, release: { ...plan.release, keep: { pinned: 'rib' }, ribTarget: { pinned: 0 } } })),
    true,
  ],
  [
    'grip thinner than the jaw face holds',
    'grip-too-thin',
    'stop',
    job({ jaws: buildJaws({ leastFlatGrip: 30, comfortableGrip: 30 }) }),
  ],
  [
    'an inside corner tighter than the neck of the cutter',
    'inside-corner-tight',
    'check',
    job({ parts: [{ ...LEVER, insideCorner: buildCutter(3).neckDiameter / 2 - 0.1 }] }),
  ],
  [
    'a cutter set lower than the jaw tops',
    'cutter-in-jaws',
    'stop',
    job({}, (plan) => ({ ...plan, release: { ...plan.release, clearance: { pinned: -0.2 } } })),
    true,
  ],
  [
    'a bar thicker than the vise opens',
    'opening-too-small',
    'stop',
    job({ parts: [{ ...LEVER, thickness: inch(8) }], bars: [buildBar({ id: 'bar', width: 250, thickness: inch(9) })] }),
  ],
];

describe('a mistake made on purpose is found', () => {
  it('none of them where it is not made', () => {
    const codes = evaluateScenario(job()).findings.map(({ code }) => code);
    const made = MISTAKES.map(([, code]) => code);
    expect(codes.filter((code) => made.includes(code))).toEqual([]);
  });

  it.each(MISTAKES)('%s: %s', (_mistake, code, severity, scenario, isFixed = false) => {
    const { plan, shop } = buildScenario(scenario);
    const { findings } = evaluate(plan, shop);
    const found = findings.find((finding) => finding.code === code);
    expect(findings.map((finding) => finding.code)).toContain(code);
    expect(found?.severity).toBe(severity);
    if (!isFixed) return;
    const settled = (found?.fixes ?? []).filter(
      (fix) => !evaluate(applyFix(plan, fix), shop).findings.some(({ key }) => key === found?.key),
    );
    expect(settled).not.toEqual([]);
  });

  it('a grip that opens long before it rolls out', () => {
    const rough = buildJaws({ friction: { ground: 0.6, machined: 0.6, asSupplied: 0.6 } });
    const clamped = (clampForceN: number): Scenario =>
      job({ rules: { holdFactorStop: 1, holdFactorCheck: 1 }, jaws: rough }, (plan) =>
        holding({ clamp: { kind: 'force', clampForceN }, viseCount: { pinned: 1 } })(withCuts(buildCut({}))(plan)),
      );
    const { weakest } = evaluateScenario(clamped(10_000)).blanks[0]?.hold ?? {};
    expect(weakest?.by).toBe('tip');
    // Rolls out at three times the moment at which it opens: a factor of 2 is between the two.
    const half = evaluateScenario(clamped((10_000 * 2) / (weakest?.factor.value ?? 1)));
    expect(half.findings.find(({ code }) => code === 'grip-opens')?.severity).toBe('note');
  });
});
