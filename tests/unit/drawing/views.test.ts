import { describe, expect, it } from 'vitest';
import { loadPdfFonts } from '../../../main/services/pdf/load-fonts';
import { renderPdf } from '../../../main/services/pdf/render-pdf';
import type { PathMark, TextMark, View } from '../../../shared/drawing/marks';
import { getPaperSize, placeView } from '../../../shared/drawing/place-view';
import { measureBounds } from '../../../shared/drawing/sinks/bounds';
import { toDxf } from '../../../shared/drawing/sinks/dxf';
import { hitTest } from '../../../shared/drawing/sinks/hit-test';
import { toSvg } from '../../../shared/drawing/sinks/svg';
import { buildBarCuts } from '../../../shared/drawing/views/bar-cuts';
import { buildDrawingSet } from '../../../shared/drawing/views/drawing-set';
import { buildElevation } from '../../../shared/drawing/views/elevation';
import { buildEndSection, getSectionX } from '../../../shared/drawing/views/end-section';
import { buildPart } from '../../../shared/drawing/views/part-view';
import { buildPlanView } from '../../../shared/drawing/views/plan-view';
import { buildShelfPocket } from '../../../shared/drawing/views/shelf-pocket';
import { buildStack } from '../../../shared/drawing/views/stack-view';
import { evaluate } from '../../../shared/evaluate';
import { formatLength } from '../../../shared/units/format';
import { buildLargePlan } from '../../bench/ui/large-plan';
import { readDxf } from '../support/read-dxf';
import { SAMPLE_NAMES } from '../support/sample-plans';
import { type Drawn, getDrawn, getDrawnOnShelf, getDrawnWithParts } from '../support/sample-sheets';
import { findFiguresCrossed, findTextOverlaps } from '../support/text-overlaps';

const golden: [string, Drawn][] = [
  ...SAMPLE_NAMES.map((name): [string, Drawn] => [name, getDrawn(name)]),
  ['hoist-arms on a shelf', getDrawnOnShelf()],
  ['one part', getDrawnWithParts(1)],
];

function buildAll({ plan, evaluation, shop }: Drawn, mmPerPaperMm: number): View[] {
  const options = { mmPerPaperMm };
  const sectionX = getSectionX(plan, evaluation, shop);
  return [
    ...evaluation.blanks.flatMap((_blank, blankIndex) => [
      buildElevation(plan, evaluation, shop, { ...options, blankIndex }),
      buildStack(plan, evaluation, shop, { ...options, blankIndex }),
    ]),
    buildElevation(plan, evaluation, shop, { ...options, base: 'bed', sectionX }),
    buildEndSection(plan, evaluation, shop, options),
    buildEndSection(plan, evaluation, shop, { ...options, extent: 'table' }),
    buildEndSection(plan, evaluation, shop, { ...options, pass: 'endMill' }),
    buildPlanView(plan, evaluation, shop, options),
    buildPlanView(plan, evaluation, shop, { ...options, extent: 'jaws' }),
    buildShelfPocket(plan, evaluation, shop, options),
    ...(evaluation.order?.bars ?? []).map((bar) =>
      buildBarCuts(bar, { mmPerPaperMm: mmPerPaperMm * 5, units: plan.units }),
    ),
    ...plan.parts.map((part) => buildPart(plan, part.id, options)),
  ];
}

const getTexts = (view: View): string[] =>
  view.marks.filter((mark): mark is TextMark => mark.kind === 'text').map((mark) => mark.text);

const getPaths = (view: View, layer: PathMark['layer']): PathMark[] =>
  view.marks.filter((mark): mark is PathMark => mark.kind === 'path' && mark.layer === layer);

describe.each(golden)('Views of %s', (_name, drawn) => {
  for (const mmPerPaperMm of [1, 2, 5]) {
    it(`set no text over another at 1:${mmPerPaperMm}`, () => {
      const meeting = buildAll(drawn, mmPerPaperMm).map((view) => [
        view.name,
        findTextOverlaps(view.marks, 0.1 * mmPerPaperMm),
      ]);
      expect(meeting.filter(([, pairs]) => pairs?.length)).toEqual([]);
    });
  }

  it('hold only finite numbers, inside the bounds they state', () => {
    for (const view of buildAll(drawn, 2)) {
      const measured = measureBounds(view.marks, 2);
      for (const value of Object.values(measured)) {
        expect(Number.isFinite(value)).toBe(true);
      }
      expect(measured.left).toBeGreaterThanOrEqual(view.bounds.left);
      expect(measured.right).toBeLessThanOrEqual(view.bounds.right);
      expect(measured.bottom).toBeGreaterThanOrEqual(view.bounds.bottom);
      expect(measured.top).toBeLessThanOrEqual(view.bounds.top);
    }
  });

  it('go through every sink', async () => {
    const views = buildAll(drawn, 2);
    for (const view of views) {
      expect(toSvg(view)).not.toMatch(/NaN|Infinity|undefined/u);
      expect(toDxf(view)).not.toMatch(/NaN|Infinity|undefined/u);
    }
    const pages = views.map((view) => ({
      name: view.title,
      sections: [view.title],
      ...getPaperSize(view),
      marks: placeView(view, 0, 0),
    }));
    const bytes = await renderPdf(pages, { title: '', author: '', subject: '', date: '' }, await loadPdfFonts());
    expect(new TextDecoder('latin1').decode(bytes)).not.toMatch(/NaN|Infinity/u);
  });

  it('say the same with and without dimensions about what can be touched', () => {
    const { plan, evaluation, shop } = drawn;
    const features = (dimensions: boolean): Set<string> =>
      new Set(
        buildElevation(plan, evaluation, shop, { mmPerPaperMm: 2, dimensions }).marks.flatMap((mark) =>
          mark.feature && mark.kind === 'path' && mark.layer !== 'dimension' && mark.layer !== 'note'
            ? [`${mark.feature.kind}:${mark.feature.id}`]
            : [],
        ),
      );
    expect(features(false)).toEqual(features(true));
  });
});

describe('Elevation', () => {
  const drawn = getDrawn('hoist-arms');
  const { plan, evaluation, shop } = drawn;
  const blank = evaluation.blanks[evaluation.governingBlank];
  const view = buildElevation(plan, evaluation, shop, { mmPerPaperMm: 4 });

  it('dimensions blank, grip and proud height in both units', () => {
    const grip = blank?.stack.grip.nominal ?? 0;
    const proud = blank?.stack.proudHeight.nominal ?? 0;
    const both = (mm: number): string => `${formatLength(mm, 'in')} [${formatLength(mm, 'mm', { decimals: 2 })}]`;
    expect(getTexts(view)).toContain(`grip ${both(grip)}`);
    expect(getTexts(view)).toContain(`proud ${both(proud)}`);
    expect(getTexts(view)).toContain(`blank ${both(blank?.length ?? 0)}`);
  });

  it('draws the bar from the grip below the jaw tops to the proud height above', () => {
    const outline = getPaths(view, 'bar').find((mark) => mark.pen === 'wide');
    const bounds = measureBounds(outline ? [outline] : []);
    expect(bounds.bottom).toBeCloseTo(-(blank?.stack.grip.nominal ?? 0), 9);
    expect(bounds.top).toBeCloseTo(blank?.stack.proudHeight.nominal ?? 0, 9);
    expect(bounds.right - bounds.left).toBeCloseTo(blank?.length ?? 0, 9);
  });

  it('is found by hit test: a part, the bar in a gap, a jaw, the table', () => {
    const piece = blank?.parts[0];
    const at = (x: number, y: number): string | undefined => hitTest(view, { x, y }, 0.1)?.feature?.kind;
    expect(at((blank?.x ?? 0) + (piece?.x ?? 0) + 40, (blank?.stack.partBottomZ ?? 0) + 5)).toBe('part');
    const centre = evaluation.vises?.centres.value[0] ?? 0;
    expect(at(centre + 5, -(evaluation.seat?.jawHeight ?? 0) + 20)).toBe('jaw');
  });

  it('draws the cut-off slot above the jaw tops by the clearance and as high as the cutter is wide', () => {
    const slots = getPaths(view, 'kerf').map((mark) => measureBounds([mark]));
    expect(slots.length).toBe(blank?.parts.length);
    for (const slot of slots) {
      expect(slot.bottom).toBeCloseTo(blank?.stack.clearance ?? 0, 6);
    }
  });
});

describe('End section', () => {
  it('shows a shelf with its ledge in both jaws', () => {
    const { plan, evaluation, shop } = getDrawnOnShelf();
    const view = buildEndSection(plan, evaluation, shop, { mmPerPaperMm: 1 });
    const jaws = getPaths(view, 'jaw').map((mark) => measureBounds([mark]));
    const ledge = evaluation.seat?.ledge.value ?? 0;
    const bar = evaluation.section?.thickness.nominal ?? 0;
    expect(jaws[0]?.right).toBeCloseTo(ledge, 9);
    expect(jaws[1]?.left).toBeCloseTo(bar - ledge, 9);
    expect(getTexts(view)).toContain(`ledge ${formatLength(ledge, 'in')}`);
  });

  it('shows a pair of parallels at both jaws, as high as the drawer has them', () => {
    const { plan, evaluation, shop } = getDrawn('hoist-arms');
    const view = buildEndSection(plan, evaluation, shop, { mmPerPaperMm: 1 });
    const choice = evaluation.seat?.choice.value;
    const id = choice?.kind === 'parallels' ? choice.parallelId : '';
    const row = evaluation.seat?.parallels.find((each) => each.parallelId === id);
    const parallels = getPaths(view, 'seat').map((mark) => measureBounds([mark]));
    expect(parallels).toHaveLength(2);
    for (const bounds of parallels) {
      expect(bounds.top - bounds.bottom).toBeCloseTo(row?.height ?? 0, 9);
      expect(bounds.top).toBeCloseTo(-(evaluation.blanks[0]?.stack.grip.nominal ?? 0), 9);
    }
  });

  it('shows the end mill at its deepest pass: tip and holder nose where the reach says, clear of the work beside it', () => {
    for (const name of SAMPLE_NAMES) {
      const { plan, evaluation, shop } = getDrawn(name);
      const view = buildEndSection(plan, evaluation, shop, { mmPerPaperMm: 1, pass: 'endMill' });
      const cutter = getPaths(view, 'cutter').map((mark) => measureBounds([mark]));
      const [holder] = getPaths(view, 'holder').map((mark) => measureBounds([mark]));
      const bottom = Math.min(...cutter.map((bounds) => bounds.bottom));
      const row = evaluation.reach.find((each) => Math.abs(each.tipZ - bottom) < 1e-9);
      expect(row).toBeDefined();
      expect(bottom).toBeCloseTo(Math.min(...evaluation.reach.map((each) => each.tipZ)), 6);
      expect(holder?.bottom).toBeCloseTo(row?.noseZ ?? 0, 6);
      expect(getTexts(view)).not.toContain('does not clear');
      const part = measureBounds(getPaths(view, 'allowance'));
      const head = cutter.find((bounds) => Math.abs(bounds.bottom - bottom) < 1e-9);
      expect(head?.left).toBeGreaterThanOrEqual(part.right - 1e-6);
    }
  });

  it('shows a holder that runs into the work, and says so', () => {
    const { plan, evaluation, shop } = getDrawn('hoist-arms', (changed) => {
      for (const cut of changed.cuts) cut.stickOut = { pinned: 20 };
    });
    const view = buildEndSection(plan, evaluation, shop, { mmPerPaperMm: 1, pass: 'endMill' });
    const [holder] = getPaths(view, 'holder').map((mark) => measureBounds([mark]));
    const bar = measureBounds(getPaths(view, 'bar'));
    expect(holder?.bottom).toBeLessThan(bar.top);
    expect(holder?.left).toBeLessThan(bar.right);
    expect(getTexts(view)).toContain('does not clear');
  });

  it('cuts where the rib is widest and no hole is in the way', () => {
    for (const name of SAMPLE_NAMES) {
      const { plan, evaluation, shop } = getDrawn(name);
      const x = getSectionX(plan, evaluation, shop);
      const blank = evaluation.blanks[evaluation.governingBlank];
      const placed = blank?.parts.find((part) => x >= blank.x + part.x && x <= blank.x + part.xEnd);
      const part = plan.parts.find((each) => each.id === placed?.partId);
      const along = x - (blank?.x ?? 0) - (placed?.x ?? 0);
      const own = placed?.mirrored ? (part?.length ?? 0) - along : along;
      expect(part?.holes.some((hole) => Math.abs(hole.x - own) < hole.diameter / 2)).toBe(false);
    }
  });
});

describe('Height stack', () => {
  it('adds up to the bar and says so', () => {
    const { plan, evaluation, shop } = getDrawn('keeper-links');
    const view = buildStack(plan, evaluation, shop, { mmPerPaperMm: 1 });
    const height = evaluation.section?.height.nominal ?? 0;
    const sum = `sum ${formatLength(height, 'mm')} = bar ${formatLength(height, 'mm')} [${formatLength(height, 'in', { decimals: 3 })}]`;
    expect(getTexts(view)).toContain(sum);
  });

  it('keeps its labels apart however thin the slices are on paper', () => {
    const { plan, evaluation, shop } = getDrawn('keeper-links');
    for (const mmPerPaperMm of [1, 5, 20, 100]) {
      const view = buildStack(plan, evaluation, shop, { mmPerPaperMm });
      expect(findTextOverlaps(view.marks, 0.01 * mmPerPaperMm)).toEqual([]);
    }
  });
});

describe('A bar with its cuts', () => {
  it('draws every stretch to scale from end to end', () => {
    const { evaluation } = getDrawn('hoist-arms');
    const bar = evaluation.order?.bars[0];
    if (!bar) {
      throw new Error('The sample has no order.');
    }
    const view = buildBarCuts(bar, { mmPerPaperMm: 10, units: 'in', dimensions: false });
    const blanks = getPaths(view, 'bar').filter((mark) => mark.fill === 'barFace');
    const lengths = blanks.map((mark) => measureBounds([mark])).map((bounds) => bounds.right - bounds.left);
    const wanted = bar.lines
      .filter((line) => line.kind === 'blank' || line.kind === 'partBlank')
      .map((line) => line.to - line.from);
    expect(lengths).toHaveLength(wanted.length);
    for (const [index, length] of lengths.entries()) {
      expect(length).toBeCloseTo(wanted[index] ?? 0, 9);
    }
  });
});

describe('A bar with one of its blanks pointed at', () => {
  it('has an arrow head over the middle of each of them, a wide outline and a bold name, and the others have not', () => {
    const { evaluation } = getDrawn('hoist-arms');
    const bar = evaluation.order?.bars[0];
    const marked = bar?.lines.find((line) => line.kind === 'blank')?.blankTemplateId ?? '';
    if (!bar || marked === '') {
      throw new Error('The sample has no order.');
    }
    const view = buildBarCuts(bar, { mmPerPaperMm: 4, units: 'in', dimensions: false, barHeight: 5, marked });
    const own = bar.lines.filter((line) => line.blankTemplateId === marked);
    expect(own.length).toBeLessThan(bar.lines.filter((line) => line.kind === 'blank').length);
    const middles = (marks: readonly (PathMark | TextMark)[]): number[] =>
      marks.map((mark) => measureBounds([mark])).map(({ left, right }) => Number(((left + right) / 2).toFixed(6)));
    const wanted = own.map(({ from, to }) => Number(((from + to) / 2).toFixed(6)));
    const paths = getPaths(view, 'bar');
    expect(middles(paths.filter((mark) => mark.fill === 'ink'))).toEqual(wanted);
    expect(middles(paths.filter((mark) => mark.fill === 'barFace' && mark.pen === 'wide'))).toEqual(wanted);
    const bold = view.marks.filter((mark): mark is TextMark => mark.kind === 'text' && mark.weight === 'semibold');
    expect(bold.map((mark) => mark.at.x)).toEqual(own.map(({ from, to }) => (from + to) / 2));
  });
});

describe('The drawing set as DXF', () => {
  it('holds the views in true size to the micrometre', () => {
    const { plan, evaluation, shop } = getDrawnOnShelf();
    const read = readDxf(toDxf(buildDrawingSet(plan, evaluation, shop, 2)));
    const blank = evaluation.blanks[evaluation.governingBlank];
    const sizes = read.entities
      .filter((entity) => entity.type === 'LWPOLYLINE' && entity.layer === 'BAR')
      .map((entity) => {
        const xs = entity.points.map(([x]) => x);
        const ys = entity.points.map(([, y]) => y);
        return [Math.max(...xs) - Math.min(...xs), Math.max(...ys) - Math.min(...ys)] as const;
      });
    const height = evaluation.section?.height.nominal ?? 0;
    expect(sizes.some(([x, y]) => Math.abs(x - (blank?.length ?? 0)) < 1e-3 && Math.abs(y - height) < 1e-3)).toBe(true);
  });

  it('sets no text of one view over another view', () => {
    const { plan, evaluation, shop } = getDrawnOnShelf();
    expect(findTextOverlaps(buildDrawingSet(plan, evaluation, shop, 2).marks, 0.1)).toEqual([]);
  });
});

describe('A plan with nothing to draw', () => {
  it('gives views that say so and go through every sink', () => {
    const { plan, evaluation, shop } = getDrawn('keeper-links', (empty) => {
      empty.parts = [];
      empty.layout = 'auto';
    });
    const options = { mmPerPaperMm: 1 };
    const views = [
      buildElevation(plan, evaluation, shop, options),
      buildEndSection(plan, evaluation, shop, options),
      buildStack(plan, evaluation, shop, options),
      buildPlanView(plan, evaluation, shop, options),
      buildShelfPocket(plan, evaluation, shop, options),
      buildPart(plan, 'nobody', options),
    ];
    for (const view of views) {
      expect(getTexts(view).join()).toMatch(/Nothing to draw/u);
      expect(toSvg(view)).toContain('Nothing to draw');
      expect(toDxf(view)).toContain('Nothing to draw');
    }
  });
});

describe('The cut-off cutter', () => {
  const { plan, evaluation, shop } = getDrawn('hoist-arms');
  const blank = evaluation.blanks[evaluation.governingBlank];
  const cutter = shop.tools.find((tool) => tool.id === evaluation.release?.cutterId.value);

  it('stands in the end section with its head in the slot and its edge at the rib', () => {
    const x = getSectionX(plan, evaluation, shop);
    const view = buildEndSection(plan, evaluation, shop, { mmPerPaperMm: 1, x });
    const head = getPaths(view, 'cutter')
      .map((mark) => measureBounds([mark]))
      .find((bounds) => Math.abs(bounds.right - bounds.left - (cutter?.diameter ?? 0)) < 1e-6);
    const rib = measureBounds(getPaths(view, 'rib').slice(0, 1));
    expect(head?.bottom).toBeCloseTo(blank?.stack.clearance ?? 0, 9);
    expect(head?.left).toBeCloseTo(rib.right, 9);
  });

  it('is outlined in the elevation where it is asked for: the head fills the slot, the holder ends the stick-out', () => {
    const view = buildElevation(plan, evaluation, shop, { mmPerPaperMm: 2, cutterX: 100 });
    const outlines = [...getPaths(view, 'cutter'), ...getPaths(view, 'holder')].map((mark) => measureBounds([mark]));
    for (const { left, right } of outlines) {
      expect((left + right) / 2).toBeCloseTo(100, 9);
    }
    const clearance = blank?.stack.clearance ?? Number.NaN;
    const head = outlines.find(({ left, right }) => Math.abs(right - left - (cutter?.diameter ?? 0)) < 1e-6);
    const slot = measureBounds(getPaths(view, 'kerf').slice(0, 1));
    expect(head?.bottom).toBeCloseTo(clearance, 9);
    expect(slot.bottom).toBeCloseTo(clearance, 9);
    expect(head?.top).toBeCloseTo(slot.top, 9);
    const nose = measureBounds(getPaths(view, 'holder').slice(0, 1));
    const cutOff = evaluation.reach.find((one) => one.toolId === cutter?.id);
    expect(nose.bottom - clearance).toBeCloseTo(cutOff?.stickOut.value ?? Number.NaN, 9);
    // Neck, shank and holder stand one on the other.
    const upright = outlines.filter((one) => one !== head).toSorted((a, b) => a.bottom - b.bottom);
    expect(upright[0]?.bottom).toBeCloseTo(head?.top ?? Number.NaN, 9);
    for (const [index, piece] of upright.slice(1).entries()) {
      expect(piece.bottom).toBeCloseTo(upright[index]?.top ?? Number.NaN, 9);
    }
  });

  it('is not in the elevation where it is not asked for', () => {
    const view = buildElevation(plan, evaluation, shop, { mmPerPaperMm: 2 });
    expect([...getPaths(view, 'cutter'), ...getPaths(view, 'holder')]).toEqual([]);
  });

  it('has the dimensions and the letter of the section above its holder, none of them across it', () => {
    for (const mmPerPaperMm of [1, 2, 5, 10]) {
      const view = buildElevation(plan, evaluation, shop, { mmPerPaperMm, cutterX: 100, sectionX: 100 });
      const outlines = [...getPaths(view, 'cutter'), ...getPaths(view, 'holder')].map((mark) => measureBounds([mark]));
      const crossed = view.marks
        .filter((mark) => mark.kind === 'text')
        .filter((mark) => {
          // Over the line they stand on: capitals and figures have nothing below it.
          const { left, right, top } = measureBounds([mark]);
          return outlines.some(
            (one) => left < one.right && right > one.left && mark.at.y < one.top && top > one.bottom,
          );
        });
      expect(crossed.map((mark) => mark.text)).toEqual([]);
    }
  });

  it('hides nothing of the elevation: phantom lines without a fill', () => {
    const view = buildElevation(plan, evaluation, shop, { mmPerPaperMm: 2, cutterX: 100 });
    const pieces = [...getPaths(view, 'cutter'), ...getPaths(view, 'holder')];
    expect(pieces.length).toBeGreaterThanOrEqual(3);
    expect(pieces.every((mark) => mark.fill === 'none' && mark.pen === 'chain')).toBe(true);
  });
});

describe('Dimensions of twelve vises and a full bar', () => {
  const { plan, shop } = buildLargePlan({ pieces: 40, kinds: 20, blanks: 6, vises: 12 });
  const evaluation = evaluate(plan, shop);

  it.each([1, 2, 5, 8, 12, 16, 20])('are crossed by none of their own lines at 1:%i', (mmPerPaperMm) => {
    const options = { mmPerPaperMm, bothUnits: false };
    for (const base of ['table', 'bed'] as const) {
      const view = buildElevation(plan, evaluation, shop, { ...options, base, sectionX: 300 });
      expect(findFiguresCrossed(view.marks, 0.1 * mmPerPaperMm)).toEqual([]);
    }
    const view = buildPlanView(plan, evaluation, shop, options);
    expect(findFiguresCrossed(view.marks, 0.1 * mmPerPaperMm)).toEqual([]);
  });
});
