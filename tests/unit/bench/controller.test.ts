import { beforeEach, describe, expect, it } from 'vitest';
import {
  type BenchController,
  createBenchController,
  type PointerInput,
} from '../../../renderer/bench/bench-controller';
import { buildBenchView } from '../../../renderer/bench/bench-model';
import { type BenchStore, createBenchStore } from '../../../renderer/bench/bench-store';
import { toScreen } from '../../../renderer/bench/camera';
import { computeArrangement } from '../../../renderer/bench/compute-fit';
import { createLiveEvaluator, type LiveEvaluator } from '../../../renderer/bench/live-evaluator';
import type { PaneName } from '../../../renderer/bench/panes';
import { createTyping, type Typing } from '../../../renderer/bench/typing';
import { createDocuments, type Documents } from '../../../renderer/state/documents';
import { createEvaluator, EMPTY_EVALUATION } from '../../../renderer/state/evaluator';
import { createView, type View } from '../../../renderer/state/view';
import { evaluate } from '../../../shared/evaluate';
import { isPinned } from '../../../shared/model/choice';
import { buildSetting, inch, pinHolding } from './setting';

const { plan, shop, setting } = buildSetting(pinHolding);
const subject = { plan, shop, evaluation: setting.scene.evaluation, blankIndex: 0, sectionX: setting.sectionX };
const arrangement = computeArrangement(subject, { width: 1200, height: 700 }, 16, 3.1);

let documents: Documents;
let view: View;
let store: BenchStore;
let controller: BenchController;
let typing: Typing;

const build = (live: LiveEvaluator): void => {
  documents = createDocuments(plan, shop, () => 0);
  view = createView();
  store = createBenchStore();
  store.setState({ arrangement });
  controller = createBenchController({
    documents,
    view,
    evaluator: createEvaluator(evaluate, EMPTY_EVALUATION),
    live,
    store,
  });
  const draw = (pane: PaneName) =>
    buildBenchView(pane, subject, arrangement.look, 3.1 / arrangement.cameras[pane].pxPerMm);
  controller.setDrawn({
    setting,
    views: { elevation: draw('elevation'), plan: draw('plan'), section: draw('section'), stack: draw('stack') },
  });
  typing = createTyping(documents, view, store, controller);
};

beforeEach(() => build(createLiveEvaluator(() => null, evaluate)));

const at = (pane: PaneName, x: number, y: number, more: Partial<PointerInput> = {}): PointerInput => ({
  pane,
  at: toScreen(arrangement.cameras[pane], { x, y }),
  pointerId: 1,
  isTouch: false,
  button: 0,
  shift: false,
  alt: true,
  ...more,
});

const getCentres = (): readonly number[] => {
  const { vises } = documents.store.getState().plan.holding;
  return isPinned(vises) ? vises.pinned : [];
};

const viseZ = -setting.scene.seat.jawHeight - 5;
const drag = (from: PointerInput, to: PointerInput): void => {
  controller.press(from);
  controller.move({ ...from, at: { x: from.at.x + 4, y: from.at.y } });
  controller.move(to);
  controller.lift(to);
};

describe('a drag', () => {
  it('is one named step that undo takes back whole', () => {
    drag(at('elevation', 9 * inch + 20, viseZ), at('elevation', 10 * inch + 20, viseZ));
    expect(getCentres()[1]).toBeCloseTo(10 * inch, 6);
    expect(documents.history.getState().undo).toEqual(['move vise 2 to 10.000 in']);
    documents.undo();
    expect(documents.store.getState().plan).toBe(plan);
  });

  it('is put back by Escape as if it had not been', () => {
    const from = at('elevation', 9 * inch + 20, viseZ);
    controller.press(from);
    controller.move(at('elevation', 12 * inch, viseZ));
    expect(getCentres()[1]).not.toBeCloseTo(9 * inch, 3);
    expect(controller.cancel()).toBe(true);
    controller.lift(at('elevation', 12 * inch, viseZ));
    expect(documents.store.getState().plan).toBe(plan);
    expect(documents.history.getState().undo).toEqual([]);
    expect(store.getState().drag).toBeNull();
  });

  it('selects what was pressed, and a click on the paper lets go of it', () => {
    const from = at('elevation', 9 * inch + 20, viseZ);
    controller.press(from);
    controller.lift(from);
    expect(view.store.getState().selection).toEqual([{ kind: 'vise', id: '1' }]);
    const paper = at('elevation', -60, 200);
    controller.press(paper);
    controller.lift(paper);
    expect(view.store.getState().selection).toEqual([]);
    expect(documents.history.getState().undo).toEqual([]);
  });

  it('of the paper moves the view and not the plan', () => {
    drag(at('elevation', -60, 200), at('elevation', -40, 200));
    expect(documents.store.getState().plan).toBe(plan);
    expect(store.getState().follows).toBe(false);
    expect(store.getState().arrangement?.cameras.elevation.left).toBeLessThan(arrangement.cameras.elevation.left);
  });

  it('of the shelf in the stack sets its depth', () => {
    const grip = setting.scene.blank.stack.grip.nominal;
    drag(at('stack', 1, -grip / 2), at('stack', 1, -grip / 2 - 1));
    const { shelfDepth } = documents.store.getState().plan.holding;
    expect(isPinned(shelfDepth) && shelfDepth.pinned).toBeCloseTo(setting.scene.seat.shelfDepth.value + 1, 1);
    expect(documents.history.getState().undo).toHaveLength(1);
  });

  it('of the section line changes what is looked at and is no step', () => {
    const top = setting.scene.parts[0]?.top ?? 0;
    drag(at('elevation', 40, top), at('elevation', 60, top));
    expect(view.store.getState().sectionX).toBeCloseTo(60, 0);
    expect(documents.history.getState().undo).toEqual([]);
  });

  it('far off the table is kept as it is, and undone whole', () => {
    drag(at('elevation', 15 * inch + 20, viseZ), at('elevation', 400 * inch, viseZ));
    expect(getCentres()[2]).toBeGreaterThan(380 * inch);
    documents.undo();
    expect(documents.store.getState().plan).toBe(plan);
  });
});

describe('a drag whose figures come later', () => {
  it('waits with its step for the last of them, or ends at once when something else is begun', () => {
    let answer: (() => void) | null = null;
    build({
      request: (asked, withShop, done) => {
        answer = () => done(asked, evaluate(asked, withShop));
      },
      cancel: () => {
        answer = null;
      },
      hurry: () => undefined,
      dispose: () => undefined,
    });
    drag(at('elevation', 9 * inch + 20, viseZ), at('elevation', 10 * inch + 20, viseZ));
    expect(documents.history.getState().undo).toEqual([]);
    expect(store.getState().drag?.value).toBeCloseTo(10 * inch, 6);
    (answer as (() => void) | null)?.();
    expect(documents.history.getState().undo).toEqual(['move vise 2 to 10.000 in']);
    expect(store.getState().drag).toBeNull();

    drag(at('elevation', 9 * inch + 20, viseZ), at('elevation', 11 * inch + 20, viseZ));
    controller.press(at('elevation', -60, 200));
    expect(documents.history.getState().undo).toEqual(['move vise 2 to 11.000 in', 'move vise 2 to 10.000 in']);

    drag(at('elevation', 9 * inch + 20, viseZ), at('elevation', 12 * inch + 20, viseZ));
    // Escape comes too late for what was let go.
    controller.cancel();
    expect(documents.history.getState().undo).toHaveLength(3);
  });
});

describe('a typed value', () => {
  it('takes the place of the drag it began in, as one step', () => {
    controller.press(at('elevation', 9 * inch + 20, viseZ));
    controller.move(at('elevation', 10 * inch, viseZ));
    typing.begin({ kind: 'vise', id: '1' }, '8');
    typing.change('8-1/2');
    typing.commit();
    expect(getCentres()[1]).toBeCloseTo(8.5 * inch, 9);
    expect(documents.history.getState().undo).toEqual(['move vise 2 to 8.500 in']);
  });

  it('that cannot be read stays with a sentence, and the plan keeps what it had', () => {
    typing.begin({ kind: 'vise', id: '1' }, '1,5');
    typing.commit();
    expect(store.getState().typed?.refusal).toMatch(/1,5/u);
    expect(documents.store.getState().plan).toBe(plan);
    typing.cancel();
    expect(store.getState().typed).toBeNull();
  });
});

describe('two fingers', () => {
  it('zoom about their middle and drop what one of them had taken', () => {
    const one = at('elevation', 9 * inch + 20, viseZ, { isTouch: true });
    const other = { ...at('elevation', 12 * inch, viseZ, { isTouch: true }), pointerId: 2 };
    controller.press(one);
    controller.press(other);
    controller.move({ ...other, at: { x: other.at.x + 80, y: other.at.y } });
    expect(documents.store.getState().plan).toBe(plan);
    expect(store.getState().arrangement?.cameras.elevation.pxPerMm).toBeGreaterThan(
      arrangement.cameras.elevation.pxPerMm,
    );
  });
});

describe('a rectangle drawn with Shift', () => {
  it('selects the parts and vises that lie wholly in it', () => {
    const from = at('elevation', -80, 120, { shift: true });
    const to = at('elevation', 14 * inch, -setting.scene.seat.jawHeight - 60, { shift: true });
    drag(from, to);
    const selected = view.store.getState().selection.map(({ kind, id }) => `${kind} ${id}`);
    expect(selected).toContain('vise 0');
    expect(selected).toContain('vise 1');
    expect(selected).not.toContain('vise 2');
    expect(selected).toContain(`part ${setting.scene.parts[0]?.placed.slotId}`);
  });
});
