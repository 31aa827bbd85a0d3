import { describe, expect, it, vi } from 'vitest';
import type { TextMark } from '../../../shared/drawing/marks';
import { buildSheet } from '../../../shared/drawing/sheet/build-sheet';
import { FOOT, PAGE_MARGIN } from '../../../shared/drawing/sheet/flow';
import type { SheetPage } from '../../../shared/drawing/sheet/page';
import { PAPERS } from '../../../shared/drawing/sheet/papers';
import { getScaleText, parseScale, SCALE_SERIES } from '../../../shared/drawing/sheet/scales';
import { computePaper, computeScales } from '../../../shared/drawing/sheet/sheet-choice';
import { getPlanStamp } from '../../../shared/drawing/sheet/stamp';
import { toPageSvg, toSheetSvg } from '../../../shared/drawing/sinks/sheet-svg';
import { getWorkings } from '../../../shared/evaluate/workings';
import { getWorkingText, type TextLook } from '../../../shared/evaluate/workings-text';
import { CAUTION_LINE, CAUTIONS } from '../../../shared/findings/cautions';
import type { PaperSize, Plan } from '../../../shared/model/plan';
import { formatLength } from '../../../shared/units/format';
import { type Drawn, getDrawn, getDrawnOnShelf, getDrawnWithParts } from '../support/sample-sheets';
import { findTextOverlaps, findTextsOutside } from '../support/text-overlaps';

const PAPER_SIZES = Object.keys(PAPERS) as PaperSize[];

const build = ({ plan, evaluation, shop }: Drawn, paper: PaperSize): SheetPage[] =>
  buildSheet(plan, evaluation, shop, { paper, fileName: 'job.kgplan' });

const getTexts = (page: SheetPage): string[] =>
  page.marks.filter((mark): mark is TextMark => mark.kind === 'text').map((mark) => mark.text);

/** All text of a sheet as running text, so that wrapped lines can be found. */
const getWords = (pages: readonly SheetPage[]): string => pages.flatMap(getTexts).join(' ');

function expectOrderly(pages: readonly SheetPage[]): void {
  for (const [index, page] of pages.entries()) {
    const where = `page ${index + 1}`;
    expect([where, findTextOverlaps(page.marks, 0.05)]).toEqual([where, []]);
    const area = {
      left: PAGE_MARGIN,
      right: page.width - PAGE_MARGIN,
      bottom: PAGE_MARGIN,
      top: page.height - PAGE_MARGIN + 0.6,
    };
    expect([where, findTextsOutside(page.marks, area)]).toEqual([where, []]);
  }
}

const LONG = 'Sluice-gate hoist pawl, upstream side, second from the weir, spare for the volunteers of the north bank';

// Many whole sheets are laid out here; nothing measures how long it takes.
vi.setConfig({ testTimeout: 60_000 });

describe('The sheet sets no text over another and keeps its margins', () => {
  for (const paper of PAPER_SIZES) {
    it(`with the samples on ${paper}`, () => {
      expectOrderly(build(getDrawn('hoist-arms'), paper));
      expectOrderly(build(getDrawn('keeper-links'), paper));
      expectOrderly(build(getDrawnOnShelf(), paper));
    });
  }

  it('and cuts nothing short on the page that stands at the machine but names on small pieces', () => {
    for (const paper of PAPER_SIZES) {
      for (const drawn of [getDrawn('hoist-arms'), getDrawn('keeper-links'), getDrawnOnShelf()]) {
        const [first] = build(drawn, paper);
        const names = drawn.plan.parts.map(({ name }) => name);
        const cut = (first === undefined ? ['no page…'] : getTexts(first)).filter(
          (text) => text.endsWith('…') && !names.some((name) => name.startsWith(text.slice(0, -1))),
        );
        expect([paper, cut]).toEqual([paper, []]);
      }
    }
  });

  for (const count of [1, 3, 10, 25, 60]) {
    it(`with ${count} kinds of part`, () => {
      expectOrderly(build(getDrawnWithParts(count), 'letter'));
    });
  }

  it('with twelve parts on one blank', () => {
    const drawn = getDrawn('keeper-links', (plan) => {
      plan.partsPerBlank = { pinned: 12 };
      plan.layout = 'auto';
    });
    expectOrderly(build(drawn, 'a4'));
  });

  it('with long names, other scripts and signs that mean something to a file format', () => {
    const names = [
      LONG,
      LONG.replaceAll(' ', ''),
      '水门提升机棘爪'.repeat(12),
      'храповик подъёмника '.repeat(8),
      '<b>&"%%c\\n'.repeat(20),
    ];
    const drawn = getDrawnWithParts(5, (index) => names[index] ?? '');
    drawn.plan.name = LONG.repeat(3);
    drawn.plan.author = LONG;
    drawn.plan.number = LONG;
    drawn.plan.marking.text = LONG.repeat(4);
    drawn.plan.holding.alignmentNote = LONG.repeat(3);
    for (const paper of PAPER_SIZES) {
      expectOrderly(build(drawn, paper));
    }
  });

  it('when nothing fits and there is nothing to draw', () => {
    const drawn = getDrawn('keeper-links', (plan) => {
      plan.parts = [];
      plan.layout = 'auto';
    });
    expectOrderly(build(drawn, 'letter'));
  });
});

describe('Every page', () => {
  const pages = build(getDrawn('hoist-arms'), 'a4');

  it('carries the caution, the stamp and its number of so many', () => {
    const stamp = getPlanStamp(getDrawn('hoist-arms').plan);
    for (const [index, page] of pages.entries()) {
      const words = getTexts(page).join(' ');
      expect(words).toContain(CAUTION_LINE);
      expect(words).toContain(`plan stamp ${stamp}`);
      expect(words).toContain(`page ${index + 1} of ${pages.length}`);
    }
  });

  it('says its unit large', () => {
    for (const page of pages) {
      const units = page.marks.find((mark): mark is TextMark => mark.kind === 'text' && mark.text === 'INCH');
      expect(units?.size).toBeGreaterThanOrEqual(2.5);
    }
  });

  it('leaves the foot to the foot', () => {
    for (const page of pages) {
      const low = page.marks.filter(
        (mark): mark is TextMark => mark.kind === 'text' && mark.at.y < PAGE_MARGIN + FOOT - 3,
      );
      expect(low).toHaveLength(3);
    }
  });
});

describe('Page one', () => {
  it.each(PAPER_SIZES)('is the setup, on %s: section, stack, elevation, zero and seat', (paper) => {
    for (const drawn of [getDrawn('hoist-arms'), getDrawn('keeper-links'), getDrawnOnShelf()]) {
      const words = getTexts(build(drawn, paper)[0] ?? { name: '', sections: [], width: 0, height: 0, marks: [] }).join(
        ' ',
      );
      expect(words).toMatch(/Section A–A {3}\d+:\d+/u);
      expect(words).toMatch(/Height stack {3}\d+:\d+/u);
      expect(words).toMatch(/Elevation along X {3}\d+:\d+/u);
      expect(words).toContain('X0 at the stop, Y0 at the');
      expect(words).toMatch(/Shelf \d|parallels? \d/u);
    }
  });

  it('takes its scales from the standard series', () => {
    for (const [drawn, paper] of [
      [getDrawn('hoist-arms'), 'letter'],
      [getDrawn('keeper-links'), 'a3'],
    ] as const) {
      const words = getWords(build(drawn, paper));
      const allowed = SCALE_SERIES[drawn.plan.units].map(getScaleText);
      for (const [, scale] of words.matchAll(/ {3}(\d+:\d+)/gu)) {
        expect(allowed).toContain(scale);
      }
    }
  });

  it('takes the scale it is told', () => {
    const { plan, evaluation, shop } = getDrawn('keeper-links');
    const pages = buildSheet(plan, evaluation, shop, { paper: 'a3', scale: { elevation: 10, section: 2 } });
    const words = getWords(pages.slice(0, 1));
    expect(words).toContain('Elevation along X   1:10');
    expect(words).toContain('Section A–A   1:2');
  });
});

describe('Paper and scales', () => {
  const pinned: Plan['sheet'] = {
    paper: { pinned: 'a3' },
    sectionScale: { pinned: 5 },
    elevationScale: { pinned: 10 },
  };
  const { plan, evaluation, shop } = getDrawn('keeper-links', (changed) => {
    changed.sheet = pinned;
  });

  it('are those pinned in the plan', () => {
    const pages = buildSheet(plan, evaluation, shop);
    expect([pages[0]?.width, pages[0]?.height]).toEqual([PAPERS.a3.width, PAPERS.a3.height]);
    const words = getWords(pages.slice(0, 1));
    expect(words).toContain('Section A–A   1:5');
    expect(words).toContain('Elevation along X   1:10');
  });

  it('are others for once where they are asked for', () => {
    const pages = buildSheet(plan, evaluation, shop, { paper: 'a4', scale: { section: 10 } });
    expect(pages[0]?.width).toBe(PAPERS.a4.width);
    expect(getWords(pages.slice(0, 1))).toContain('Section A–A   1:10');
  });

  it('left to auto are the usual paper of the units and what the sheet takes, with why', () => {
    for (const sample of ['hoist-arms', 'keeper-links'] as const) {
      const drawn = getDrawn(sample);
      const paper = computePaper(drawn.plan);
      expect(paper).toMatchObject({ value: drawn.plan.units === 'in' ? 'letter' : 'a4', pinned: false });
      const scales = computeScales(drawn.plan, drawn.evaluation, drawn.shop);
      const words = getWords(buildSheet(drawn.plan, drawn.evaluation, drawn.shop));
      expect(words).toContain(`Section A–A   ${getScaleText(scales?.section.value ?? 0)}`);
      expect(words).toContain(`Elevation along X   ${getScaleText(scales?.elevation.value ?? 0)}`);
      expect(scales?.section.why.rule).toContain(`one page of ${PAPERS[paper.value].name}`);
    }
  });

  it('pinned keep telling what auto would take', () => {
    const auto = computeScales({ ...plan, sheet: { ...pinned, sectionScale: 'auto' } }, evaluation, shop)?.section;
    expect(computeScales(plan, evaluation, shop)?.section).toEqual({ ...auto, value: 5, pinned: true });
  });
});

describe('A scale that is asked for', () => {
  const { plan, evaluation, shop } = getDrawn('hoist-arms');
  const getSheet = (paper: PaperSize, section: number | null, elevation: number | null): SheetPage[] =>
    buildSheet(plan, evaluation, shop, { paper, scale: { section, elevation } });

  it('is kept to, with the elevation on a page of its own when both do not fit on one', () => {
    for (const paper of ['a3', 'tabloid'] as const) {
      const pages = getSheet(paper, 1, 2);
      expect(getWords(pages.slice(0, 1))).toContain('Section A–A   1:1');
      expect(getWords(pages.slice(1, 2))).toContain('Elevation along X   1:2');
      expectOrderly(pages.slice(0, 2));
    }
  });

  it('makes room for one that the paper holds, and says so', () => {
    const pages = getSheet('a4', null, 1);
    expect(getWords(pages)).toContain('too large for A4: elevation 1:1');
    expectOrderly(pages.slice(0, 2));
    expect(getWords(getSheet('a4', null, null).slice(0, 1))).not.toContain('too large for');
  });

  it('is read as it is written, from the series of the units alone', () => {
    expect(parseScale('1 : 2', 'mm')).toBe(2);
    expect(parseScale('2:1', 'mm')).toBe(0.5);
    expect(parseScale('1:3', 'mm')).toBeNull();
    expect(parseScale('1:5', 'in')).toBeNull();
  });
});

describe('The sheet carries', () => {
  const drawn = getDrawn('hoist-arms', (plan) => {
    plan.accepted = [
      {
        code: 'grip-close',
        by: 'Night shift',
        date: '2025-03-14',
        sentence: 'Grip 0.298 in is close; the jaws want 0.375 in.',
      },
    ];
    plan.stock.heatMark = 'H-2231';
    plan.parts[0] = { ...(plan.parts[0] ?? ({} as never)), hand: 'left' };
  });
  const words = getWords(build(drawn, 'a4'));

  it.each([
    ['part number and hand', /SG-11.*left/u],
    ['revision and file', /rev\. A.*job\.kgplan/u],
    ['smallest accepted size', /smallest accepted \d/u],
    ['blanks for measured size and bow', /Measured: height _+ {3}thickness _+ {3}bow _+/u],
    ['heat mark', /H-2231/u],
    ['every cut with kerf, trim or bad end, stub and drop', /kerf .*stub under .*drop, to the rack/u],
    ['which face goes where', /Bar faces/u],
    ['vise centres and alignment', /centres [\d., ]+ from the stop\. Alignment:/u],
    ['tool sizes and stick-out', /⌀ measured.*set stick-out/u],
    ['cut-off last', /The cut-off comes last/u],
    ['rib narrowest and widest', /narrowest rib.*widest rib/u],
    ['allowance by face with its later operation', /fixed side.*draw-filed to size/u],
    ['boxes to check', /supports? .*|Bar pulled straight by the vises\?/u],
    ['marking', /Never on a seated or gripped face/u],
    ['accepted findings with numbers and name', /Grip 0\.298 in is close.*Night shift 2025-03-14/u],
    ['sources', /common practice, no source/u],
    ['test squares', /100\.00 mm.*4\.000 in/u],
    ['not to scale until measured', /NOT TO SCALE until/u],
    ['paper size', /A4 lying, print at 100 %/u],
  ])('%s', (_what, pattern) => {
    expect(words).toMatch(pattern);
  });

  it('all cautions in full', () => {
    for (const caution of CAUTIONS) {
      expect(words).toContain(caution);
    }
  });

  it('every finding', () => {
    for (const finding of drawn.evaluation.findings.filter((each) => !each.accepted)) {
      expect(words).toContain(finding.sentence.slice(0, 60));
    }
  });
});

describe('What a setup sheet must carry, item by item', () => {
  const onShelf = getDrawn('hoist-arms', (plan) => {
    plan.holding.seat = { pinned: { kind: 'shelf' } };
    plan.date = '2025-03-14';
    plan.stock.heatMark = 'H-2231';
    plan.parts[0] = { ...(plan.parts[0] ?? ({} as never)), hand: 'left' };
    plan.accepted = [
      { code: 'grip-close', by: 'Night shift', date: '2025-03-14', sentence: 'Grip 0.298 in is close to 0.375 in.' },
    ];
  });
  const words = getWords(build(onShelf, 'letter'));
  const onParallels = getWords(build(getDrawn('hoist-arms'), 'letter'));

  it.each<[number, string, RegExp[]]>([
    [1, 'name, number, revision, hand', [/Pawl arm, left/u, /SG-11/u, /no\. SG-10/u, /rev\. A/u]],
    [1, 'quantity and spares', [/ordered spares made/u, /6 × Pawl arm/u]],
    [
      1,
      'date, author, file and stamp',
      [/2025-03-14/u, /by Mill workshop/u, /job\.kgplan/u, /plan stamp [\dA-F]{4}-/u],
    ],
    [2, 'units large, both for bar and jaws', [/INCH/u, /bar 2\.250 \[57\.15\]/u, /jaw 2\.250 \[57\.15\]/u]],
    [3, 'material, form, grade and heat mark', [/4140/u, /Cold-finished flat/u, /H-2231/u]],
    [
      3,
      'nominal and smallest size, room for the measured',
      [/smallest accepted 2\.244/u, /height _+ {3}thickness _+ {3}bow _+/u],
    ],
    [
      4,
      'cut list: blank, kerf, tolerance, cuts',
      [/kerf 0\.063/u, /blanks \+0\.039/u, /7 cuts/u, /stub under 1\.575/u],
    ],
    [4, 'trim and the drop that goes back', [/bad end|squaring/u, /drop, to the rack/u]],
    [
      5,
      'faces and ends of the bar',
      [
        /Bar faces To the fixed jaw: straighter wide face/u,
        /Left end as drawn to the stop/u,
        /Bar drawn; friction as on machined faces/u,
        /Blank against the stop; which face is at the fixed jaw/u,
      ],
    ],
    [
      6,
      'every slice of the stack and its sum',
      [/Cleanup/u, /Top allowance/u, /Bottom allowance/u, /Cut-off kerf/u, /Clearance/u, /sum 2\.250 = bar 2\.250/u],
    ],
    [
      7,
      'plan view with vises on the table',
      [/Plan view, vises on the table/u, /Machine .*travel X × Y \d/u, /jaws 6\.000/u, /0\.550 \[13\.97\] to/u],
    ],
    [
      8,
      'alignment, jaw height, soft jaws and how seated',
      [/Alignment: fixed jaws indicated/u, /Aluminium soft jaws/u, /above the bed/u, /not hung on its screws/u],
    ],
    [
      9,
      'recipe of the step',
      [
        /Shelf .* deep, ledge .* each jaw/u,
        /spacer .* thick and .* high/u,
        /tightened as in use/u,
        /Relieve the corner/u,
        /Deepest legal/u,
        /counterbore|bolt/iu,
      ],
    ],
    [11, 'zero point', [/X0 at the stop, Y0 at the fixed jaw, Z0 at the jaw tops/u]],
    [
      12,
      'tools',
      [/⌀ measured width flutes long neck ⌀ × length shank ⌀ set stick-out over ⌀, limit holder/u, /nose ⌀ 1\.654/u],
    ],
    [
      13,
      'order, cut-off last, rib and how it is broken',
      [/The cut-off comes last/u, /narrowest rib at widest rib at/u, /Breaking and dressing/u],
    ],
    [
      14,
      'allowance by face and what removes it',
      [
        /part top bottom fixed side moving side left end right end .*0\.030 ≥ 0\.016/u,
        /taken off later .*draw-filed to size after release/u,
      ],
    ],
    [
      15,
      'checks',
      [
        /tight under it|tight on the blank/u,
        /Jaw tops clear/u,
        /Holder nose and shank clear/u,
        /pulled straight by the vises\? {3}yes ____ {3}no ____/u,
        /bow after release/u,
      ],
    ],
    [16, 'marking', [/Text: .*Place: .*Method: .*When: /u, /marked or bagged/u]],
    [
      17,
      'warnings accepted, by whom, the numbers then',
      [/Grip 0\.298 in is close to 0\.375 in.*Night shift 2025-03-14/u],
    ],
    [
      18,
      'true-scale page',
      [/100\.00 mm/u, /4\.000 in/u, /measured across, mm/u, /page 1 of \d+/u, /Letter lying, print at 100 %/u],
    ],
    [19, 'source of every rule', [/set by rule source/u, /common practice, no source/u, /Shigley/u]],
  ])('%i: %s', (_item, _what, patterns) => {
    for (const pattern of patterns) expect(words).toMatch(pattern);
  });

  it('10: parallels by height, thickness and number, or that there is a step instead', () => {
    expect(onParallels).toMatch(/A pair of parallels 1\.750 \[44\.45\] high, 0\.250 \[6\.35\] thick\..*No shelf\./u);
    expect(words).not.toMatch(/A pair of parallels/u);
  });
});

describe('A sheet of a plan with nothing to draw', () => {
  it('says so, and sets what can be said over the whole width', () => {
    const drawn = getDrawn('keeper-links', (plan) => {
      plan.parts = [];
      plan.layout = 'auto';
    });
    const words = getTexts(build(drawn, 'letter')[0] as SheetPage);
    expect(words.join(' ')).toContain('Nothing to draw yet');
    expect(words).toContain('X0 at the stop, Y0 at the fixed jaw, Z0 at the jaw tops.');
    expect(words.filter((text) => text.endsWith('…'))).toEqual([]);
  });
});

it('A part’s name beside the section line goes onto two lines before it is cut', () => {
  const words = getTexts(build(getDrawn('keeper-links'), 'a3')[0] as SheetPage);
  expect(words).toEqual(expect.arrayContaining(['Keeper', 'link', 'Keeper link']));
});

describe('The workings', () => {
  const drawn = getDrawn('hoist-arms');
  const look: TextLook = { units: drawn.plan.units, currency: drawn.shop.currency };
  const getSheet = (workings: boolean): SheetPage[] =>
    buildSheet(drawn.plan, drawn.evaluation, drawn.shop, { paper: 'a4', workings });

  it('are on pages of their own when asked for, and not otherwise', () => {
    const pages = getSheet(true);
    expect(getSheet(false).some((page) => page.name.startsWith('Workings'))).toBe(false);
    expect(pages.some((page) => page.name.startsWith('Workings'))).toBe(true);
    expectOrderly(pages.filter((page) => page.name.startsWith('Workings')));
  });

  it('say of every figure what the page says: its formula with the numbers in it, and its source', () => {
    const letters = (text: string): string => text.replace(/\s+/gu, '');
    const pages = getSheet(true).filter((page) => page.name.includes('Workings'));
    const words = letters(getWords(pages));
    for (const { workings } of getWorkings(drawn.plan, drawn.evaluation, look)) {
      for (const { title, why } of workings) {
        const text = getWorkingText(why, look);
        for (const line of [title, text.rule, text.filled, text.source]) expect(words).toContain(letters(line));
      }
    }
  });
});

describe('The print check', () => {
  const { plan, evaluation, shop } = getDrawn('keeper-links');
  const getVerdict = (measuredSquare: number | null): string =>
    getWords(buildSheet(plan, evaluation, shop, { paper: 'a4', printCheck: { measuredSquare } }));

  it('gives the correction: 97.0 of 100 means print at 103.09 %', () => {
    expect(getVerdict(97)).toContain('the page is at 97.0 %. Print at 103.09 %');
  });

  it('says to scale only when the square measures 100', () => {
    expect(getVerdict(100.1)).toContain('Measured 100.10 mm: to scale');
    expect(getVerdict(99.5)).toContain('NOT TO SCALE: the square measured 99.50 mm');
    expect(getVerdict(null)).not.toContain('to scale on the printer');
  });
});

describe('A sheet of forty kinds of part', () => {
  const drawn = getDrawnWithParts(40);
  const { plan, evaluation } = drawn;
  const pages = build(drawn, 'letter');
  const words = getWords(pages);

  it('has fewer pages than kinds, since what kinds share is said once', () => {
    expect(pages.length).toBeLessThan(40);
  });

  it('says of every blank its length and where its parts stand', () => {
    const show = (mm: number): string => formatLength(mm, plan.units);
    for (const [index, blank] of evaluation.blanks.entries()) {
      if (index === evaluation.governingBlank) continue;
      const places = blank.parts.map(({ x }) => show(blank.x + x)).join(', ');
      expect(words).toContain(`${blank.label} ${blank.count} ${show(blank.length)} [`);
      expect(words).toContain(` ${show(blank.x)} ${places}`);
    }
  });

  it('has every part in true size', () => {
    const true1to1 = getWords(pages.filter(({ name }) => name.includes('true size')));
    expect(pages.filter(({ sections }) => sections.includes('Parts in true size'))).toHaveLength(1);
    for (const part of plan.parts) expect(true1to1).toContain(`${part.name} 1:1, allowances dotted, NOT TO SCALE`);
  });

  it('says of every part and face what is left and what is needed', () => {
    for (const row of evaluation.allowance) {
      const [left, worst] = [row.left, row.worstCase].map((mm) => formatLength(mm, plan.units));
      if (!row.finishedHere) expect(words).toContain(`${left} ${row.ok ? '≥' : '<'} ${worst}`);
    }
  });
});

describe('Parts that the paper does not hold in true size', () => {
  it('are named, with the paper that holds them', () => {
    const words = getWords(build(getDrawn('hoist-arms'), 'letter'));
    expect(words).toContain('Left out, too large for Letter in true size: Hoist lever (fits on A3 or Tabloid).');
    expect(words).toContain('One view…');
    const long = getDrawn('hoist-arms', ({ parts }) => void Object.assign(parts[1] ?? {}, { length: 500 }));
    expect(getWords(build(long, 'a3'))).toContain('Hoist lever (for any paper here)');
  });
});

describe('The true-scale page', () => {
  it('says beside every part whether it may be measured', () => {
    const { plan, evaluation, shop } = getDrawn('keeper-links');
    const getCaption = (measuredSquare: number | null): string =>
      getWords(buildSheet(plan, evaluation, shop, { printCheck: { measuredSquare } }).slice(-1));
    expect(getCaption(null)).toContain('1:1, allowances dotted, NOT TO SCALE until the test square has been measured');
    expect(getCaption(97)).toContain('1:1, allowances dotted, NOT TO SCALE: printed at 97.0 %');
    expect(getCaption(100)).toContain('1:1, allowances dotted, to scale where the test square measured 100.00 mm');
  });

  it.each(PAPER_SIZES)('has boxes for what was measured on %s', (paper) => {
    const page = build(getDrawn('hoist-arms'), paper).find(({ name }) => name.includes('True-scale test'));
    const words = page === undefined ? [] : getTexts(page);
    for (const box of [
      'measured across, mm',
      'measured up, mm',
      'measured across, in',
      'measured up, in',
      'to scale',
    ]) {
      expect(words).toContain(box);
    }
  });
});

describe('The plan stamp', () => {
  const { plan } = getDrawn('keeper-links');

  it('is the same for the same plan, whatever the order of its keys', () => {
    const turned = Object.fromEntries(Object.entries(plan).toReversed()) as typeof plan;
    expect(getPlanStamp(turned)).toBe(getPlanStamp(structuredClone(plan)));
  });

  it('changes with any change', () => {
    expect(getPlanStamp({ ...plan, revision: 'B' })).not.toBe(getPlanStamp(plan));
  });

  it('is the same on other paper', () => {
    const sheet = { ...plan.sheet, paper: { pinned: 'a3' as const } };
    expect(getPlanStamp({ ...plan, sheet })).toBe(getPlanStamp(plan));
  });
});

describe('The sheet as SVG', () => {
  const pages = build(getDrawn('keeper-links'), 'letter');

  it('has every page in true size', () => {
    const text = toSheetSvg(pages);
    expect(text.match(/<g id="page-/gu)).toHaveLength(pages.length);
    expect(text).toContain('width="279.4mm"');
    expect(toPageSvg(pages[0] as SheetPage)).toContain('width="279.4mm" height="215.9mm"');
  });
});

describe('Open findings on page one', () => {
  const getHead = (drawn: Drawn): string => getWords(build(drawn, 'letter').slice(0, 1));

  it('a stop is said in a box', () => {
    const drawn = getDrawn('hoist-arms', (plan) => {
      plan.holding.seat = { pinned: { kind: 'bed' } };
    });
    const stops = drawn.evaluation.findings.filter(
      (finding) => finding.severity === 'stop' && !finding.accepted,
    ).length;
    expect(stops).toBeGreaterThan(0);
    expect(getHead(drawn)).toMatch(new RegExp(`STOP ${stops} stops?`, 'u'));
  });

  it('is silent when all are accepted or mere notes', () => {
    const drawn = getDrawn('keeper-links');
    const findings = drawn.evaluation.findings.map((finding) => ({ ...finding, accepted: true }));
    expect(getHead({ ...drawn, evaluation: { ...drawn.evaluation, findings } })).not.toMatch(/STOP|CHECK/u);
  });
});
