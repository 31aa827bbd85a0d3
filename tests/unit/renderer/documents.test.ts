import { describe, expect, test } from 'vitest';
import { createDocuments, type Documents } from '../../../renderer/state/documents';
import { setAtPath } from '../../../shared/model/edit';
import { collectLibrary } from '../../../shared/model/plan-library';
import { buildSmallPlan, shop } from './small-plan';

interface Desk {
  documents: Documents;
  /** Moves the clock on. */
  wait: (ms: number) => void;
}

function makeDesk(): Desk {
  let now = 0;
  const documents = createDocuments(buildSmallPlan(), shop, () => now);
  return {
    documents,
    wait: (ms) => {
      now += ms;
    },
  };
}

const rename =
  (name: string) =>
  <P extends { name: string }>(plan: P): P => ({ ...plan, name });
const getName = (documents: Documents): string => documents.store.getState().plan.name;
const getSteps = (documents: Documents) => documents.history.getState();

describe('a step', () => {
  test('is undone and redone by its name', () => {
    const { documents } = makeDesk();
    documents.edit('rename to A', rename('A'));
    documents.edit('rename to B', rename('B'));
    expect(getSteps(documents)).toEqual({ undo: ['rename to B', 'rename to A'], redo: [] });
    documents.undo();
    expect(getName(documents)).toBe('A');
    expect(getSteps(documents)).toEqual({ undo: ['rename to A'], redo: ['rename to B'] });
    documents.undo();
    expect(getName(documents)).toBe('Hoist');
    documents.redo();
    documents.redo();
    expect(getName(documents)).toBe('B');
    expect(getSteps(documents)).toEqual({ undo: ['rename to B', 'rename to A'], redo: [] });
  });

  test('that changes nothing is none', () => {
    const { documents } = makeDesk();
    documents.edit('nothing', (plan) => plan);
    expect(getSteps(documents).undo).toEqual([]);
  });

  test('that may not be taken leaves the plan and its history as they were', () => {
    const asked: string[] = [];
    const documents = createDocuments(
      buildSmallPlan(),
      shop,
      () => 0,
      (step, plan) => {
        asked.push(step);
        return plan.name !== '';
      },
    );
    documents.edit('rename to A', rename('A'));
    documents.edit('take the name away', rename(''));
    documents.edit('nothing', (plan) => plan);
    expect(asked).toEqual(['rename to A', 'take the name away']);
    expect(getName(documents)).toBe('A');
    expect(getSteps(documents).undo).toEqual(['rename to A']);
  });

  test('after an undo drops what could have been redone', () => {
    const { documents } = makeDesk();
    documents.edit('A', rename('A'));
    documents.undo();
    documents.edit('B', rename('B'));
    expect(getSteps(documents)).toEqual({ undo: ['B'], redo: [] });
  });

  test('gives back the very plan that stood before, so that it counts as saved again', () => {
    const { documents } = makeDesk();
    const before = documents.store.getState().plan;
    documents.edit('A', rename('A'));
    documents.undo();
    expect(documents.store.getState().plan).toBe(before);
  });

  test('undone with nothing to undo leaves everything as it is', () => {
    const { documents } = makeDesk();
    const before = documents.store.getState();
    documents.undo();
    documents.redo();
    expect(documents.store.getState()).toBe(before);
  });
});

describe('quick repeats', () => {
  test('with one key are one step', () => {
    const { documents, wait } = makeDesk();
    for (const name of ['a', 'ab', 'abc']) {
      documents.edit('nudge', rename(name), { join: 'nudge' });
      wait(300);
    }
    expect(getSteps(documents).undo).toEqual(['nudge']);
    documents.undo();
    expect(getName(documents)).toBe('Hoist');
  });

  test('are two steps after a pause, under another key, or after an undo', () => {
    const { documents, wait } = makeDesk();
    documents.edit('one', rename('a'), { join: 'k' });
    wait(1500);
    documents.edit('two', rename('b'), { join: 'k' });
    documents.edit('three', rename('c'), { join: 'other' });
    expect(getSteps(documents).undo).toEqual(['three', 'two', 'one']);
    documents.undo();
    documents.edit('four', rename('d'), { join: 'k' });
    expect(getSteps(documents).undo).toEqual(['four', 'two', 'one']);
  });
});

describe('a gesture', () => {
  test('is seen at once and is one step at its end', () => {
    const { documents } = makeDesk();
    documents.beginGesture('move vise 2');
    documents.updateGesture(rename('a'));
    expect(getName(documents)).toBe('a');
    documents.updateGesture(rename('b'));
    expect(getSteps(documents).undo).toEqual([]);
    documents.endGesture();
    expect(getSteps(documents).undo).toEqual(['move vise 2']);
    documents.undo();
    expect(getName(documents)).toBe('Hoist');
    documents.redo();
    expect(getName(documents)).toBe('b');
  });

  test('is always given the plan it began with', () => {
    const { documents } = makeDesk();
    documents.beginGesture('g');
    documents.updateGesture((plan) => rename(`${plan.name}!`)(plan));
    documents.updateGesture((plan) => rename(`${plan.name}!`)(plan));
    expect(getName(documents)).toBe('Hoist!');
  });

  test('called off or undone midway leaves the plan as it was and no step', () => {
    const { documents } = makeDesk();
    const before = documents.store.getState().plan;
    documents.beginGesture('g');
    documents.updateGesture(rename('a'));
    documents.cancelGesture();
    expect(documents.store.getState().plan).toBe(before);
    documents.beginGesture('g');
    documents.updateGesture(rename('a'));
    documents.undo();
    expect(documents.store.getState().plan).toBe(before);
    expect(getSteps(documents).undo).toEqual([]);
  });

  test('that ends where it began is no step, and keeps what could be redone', () => {
    const { documents } = makeDesk();
    documents.edit('A', rename('A'));
    documents.undo();
    documents.beginGesture('g');
    documents.updateGesture((plan) => plan);
    documents.endGesture();
    expect(getSteps(documents)).toEqual({ undo: [], redo: ['A'] });
  });

  test('is ended by an edit, so that neither is lost', () => {
    const { documents } = makeDesk();
    documents.beginGesture('drag');
    documents.updateGesture(rename('a'));
    documents.edit('type', rename('b'));
    expect(getSteps(documents).undo).toEqual(['type', 'drag']);
  });
});

describe('the shop', () => {
  test('is undone along with the plan', () => {
    const { documents } = makeDesk();
    documents.editShop('shop: rename', (before) => ({ ...before, name: 'Mill' }));
    expect(documents.store.getState().shop.name).toBe('Mill');
    documents.undo();
    expect(documents.store.getState().shop).toBe(shop);
  });

  test('changes the plan’s own copy of the entry that was edited, and no other', () => {
    const plan = buildSmallPlan();
    const carried = { ...plan, library: collectLibrary(plan, shop) };
    const documents = createDocuments(carried, shop, () => 0);
    const index = shop.vises.findIndex(({ id }) => id === plan.holding.viseId);
    documents.editShop('shop: widen', (before) => setAtPath(before, ['vises', index, 'jawWidth'], 123));
    const { library } = documents.store.getState().plan;
    expect(library.vises[0]?.jawWidth).toBe(123);
    expect(library.jawSets).toBe(carried.library.jawSets);
  });
});

test('the past is what undo comes back to, without the steps that left the plan as it was', () => {
  const { documents } = makeDesk();
  expect(documents.getPast()).toEqual([]);
  documents.edit('rename to A', rename('A'));
  documents.editShop('shop: name', (before) => ({ ...before, currency: 'EUR' }));
  documents.edit('rename to B', rename('B'));
  expect(documents.getPast().map(({ step, plan }) => [step, plan.name])).toEqual([
    ['rename to B', 'A'],
    ['rename to A', 'Hoist'],
  ]);
  const [last] = documents.getPast();
  documents.undo();
  expect(documents.store.getState().plan).toBe(last?.plan);
  expect(documents.getPast().map(({ step }) => step)).toEqual(['rename to A']);
});

test('another plan starts a history of its own', () => {
  const { documents } = makeDesk();
  documents.edit('A', rename('A'));
  documents.openPlan(rename('other')(buildSmallPlan()));
  expect(getSteps(documents)).toEqual({ undo: [], redo: [] });
  documents.undo();
  expect(getName(documents)).toBe('other');
});

test('a long day of edits keeps the last five hundred steps', () => {
  const { documents } = makeDesk();
  for (let count = 0; count < 520; count += 1) documents.edit(`step ${count}`, rename(`name ${count}`));
  expect(getSteps(documents).undo).toHaveLength(500);
  expect(getSteps(documents).undo[0]).toBe('step 519');
});
