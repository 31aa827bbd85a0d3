import { describe, expect, it } from 'vitest';
import type { View } from '../../../shared/drawing/marks';
import { getScene } from '../../../shared/drawing/scene';
import { measureBounds } from '../../../shared/drawing/sinks/bounds';
import { buildElevation } from '../../../shared/drawing/views/elevation';
import { buildPart as buildPartView } from '../../../shared/drawing/views/part-view';
import { buildPlanView } from '../../../shared/drawing/views/plan-view';
import { evaluate } from '../../../shared/evaluate';
import { buildHole, buildPart, buildStation } from '../../../shared/model/build-part';
import { defaultShop } from '../../../shared/model/catalogue/default-shop';
import { buildHoistArms } from '../../../shared/model/catalogue/sample-hoist-arms';
import type { Part, Plan } from '../../../shared/model/plan';
import { findTextOverlaps } from '../support/text-overlaps';

const LENGTH = 100;
const options = { mmPerPaperMm: 2 };

const draw = (...parts: Part[]): { plan: Plan; views: View[] } => {
  const plan = { ...buildHoistArms(), parts };
  const evaluation = evaluate(plan, defaultShop);
  const views = [
    buildElevation(plan, evaluation, defaultShop, options),
    buildPlanView(plan, evaluation, defaultShop, options),
  ];
  return { plan, views };
};

describe('what a part says of places where it has no metal', () => {
  const spoilt = buildPart({
    id: 'spoilt',
    name: 'Spoilt',
    length: LENGTH,
    height: 20,
    thickness: 10,
    stations: [
      buildStation({ from: -30, to: 20, width: 8, widthEnd: 6 }),
      buildStation({ from: 90, to: 150, width: 6, widthEnd: 10, kind: 'taper' }),
      buildStation({ from: 200, to: 210, width: 30 }),
    ],
    holes: [
      buildHole({ id: 'off', x: 130, diameter: 6 }),
      buildHole({ id: 'edge', x: 99, diameter: 6 }),
      buildHole({ id: 'before', x: -2, diameter: 6, slotLength: 10 }),
      buildHole({ id: 'cross-off', axis: 'y', x: 140, z: 10, diameter: 5 }),
      buildHole({ id: 'cross-edge', axis: 'y', x: 1, z: 19, diameter: 8 }),
    ],
  });
  const { plan, views } = draw(spoilt);
  const scene = getScene(plan, evaluate(plan, defaultShop), defaultShop);
  const pieces = scene?.parts ?? [];
  const ofPart = (view: View) =>
    view.marks.filter((mark) => mark.kind === 'path' && (mark.layer === 'bore' || mark.layer === 'part'));

  it('is not drawn beside its pieces on the bar', () => {
    expect(pieces.length).toBeGreaterThan(0);
    for (const view of views) {
      for (const mark of ofPart(view)) {
        const { left, right } = measureBounds([mark]);
        const within = pieces.some((piece) => left >= piece.left - 1e-6 && right <= piece.right + 1e-6);
        expect([view.name, mark.layer, within]).toEqual([view.name, mark.layer, true]);
      }
    }
  });

  it('is not drawn beside the part in its own drawing, and a hole at the edge is drawn as far as it goes', () => {
    const view = buildPartView(plan, spoilt.id, options);
    const { left, right } = measureBounds(ofPart(view));
    expect(left).toBeGreaterThanOrEqual(-1e-6);
    expect(right).toBeLessThanOrEqual(LENGTH + 1e-6);
    const bores = view.marks.filter((mark) => mark.kind === 'path' && mark.layer === 'bore' && mark.fill === 'paper');
    // The one at the edge, the one before it, and the cross hole.
    expect(bores).toHaveLength(3);
  });
});

describe('tiny parts', () => {
  const many = Array.from({ length: 6 }, (_, index) =>
    buildPart({
      id: `tiny-${index}`,
      name: `Latch pin ${index + 1}`,
      length: 3 + index,
      height: 6,
      thickness: 4,
      quantity: 5,
      holes: [buildHole({ id: 'bore', x: 1.5, diameter: 1 })],
    }),
  );
  const plan = { ...buildHoistArms(), parts: many };
  const evaluation = evaluate(plan, defaultShop);

  it.each([0.5, 1, 2, 5, 10, 20])('are labelled so that no text lies over another at 1:%f', (mmPerPaperMm) => {
    const meeting = evaluation.blanks.flatMap((_blank, blankIndex) =>
      [
        buildElevation(plan, evaluation, defaultShop, { mmPerPaperMm, blankIndex, sectionX: 4 }),
        buildElevation(plan, evaluation, defaultShop, { mmPerPaperMm, blankIndex, base: 'bed' }),
        buildPlanView(plan, evaluation, defaultShop, { mmPerPaperMm, blankIndex }),
      ].map((view) => [view.name, findTextOverlaps(view.marks, 0.1 * mmPerPaperMm)]),
    );
    expect(meeting.filter(([, pairs]) => pairs?.length)).toEqual([]);
  });
});
