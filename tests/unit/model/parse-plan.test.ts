import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { setAtPath } from '../../../shared/model/edit';
import { parsePlan, parsePlanText } from '../../../shared/model/parse-plan';
import type { Plan } from '../../../shared/model/plan';
import type { ParseProblem } from '../../../shared/model/problem';
import { serializePlan } from '../../../shared/model/serialize';
import { buildTestPlan } from './build-plan';

function getProblem(result: ReturnType<typeof parsePlan>): ParseProblem {
  if (result.ok) throw new Error('The plan was read, and should not have been.');
  return result.problem;
}

function parseWith(path: (string | number)[], value: unknown): ParseProblem {
  return getProblem(parsePlan(setAtPath<unknown>(buildTestPlan(), path, value)));
}

function getRead(result: ReturnType<typeof parsePlan>): { plan: Plan; remarks: string[] } {
  if (!result.ok) throw new Error(result.problem.sentence);
  return result;
}

describe('a plan file that is well', () => {
  it('is read back as it was written, without remarks', () => {
    const plan = buildTestPlan();
    const read = getRead(parsePlanText(serializePlan(plan)));
    expect(read.plan).toEqual(plan);
    expect(read.remarks).toEqual([]);
  });

  it('may begin with a byte order mark and end in blank lines', () => {
    expect(parsePlanText(`\uFEFF${serializePlan(buildTestPlan())}\n\n`).ok).toBe(true);
  });
});

describe('text that is no plan', () => {
  it.each([
    ['', 'file-empty', 'The file is empty.'],
    ['\0\0\0\0\0\0', 'file-empty', 'The file is empty.'],
    [' \r\n\t', 'file-empty', 'The file is empty.'],
    ['PK\u0003\u0004 not json', 'not-json', 'The file is not a plan: its text is not JSON.'],
    ['{"format": "kerfgrip-plan", "version": NaN}', 'not-json', 'The file is not a plan: its text is not JSON.'],
    ['[1, 2, 3]', 'wrong-kind', 'The file is not a plan.'],
    ['null', 'wrong-kind', 'The file is not a plan.'],
    ['"text"', 'wrong-kind', 'The file is not a plan.'],
    ['{}', 'wrong-kind', 'The file is not a plan.'],
    ['{"format":"kerfgrip-shop","version":1}', 'wrong-kind', 'The file is not a plan: it is a shop library.'],
  ])('%j is refused as %s', (text, code, sentence) => {
    expect(getProblem(parsePlanText(text))).toEqual({ code, sentence, where: '' });
  });

  it('is refused when it is longer than the caller allows, without being parsed', () => {
    const problem = getProblem(parsePlanText('{'.repeat(5_000_001), { maxCharacters: 5_000_000 }));
    expect(problem.code).toBe('file-too-big');
    expect(problem.sentence).toContain('5 million characters');
  });

  it('is called cut short wherever a plan was cut', () => {
    const text = serializePlan(buildTestPlan());
    for (const fraction of [0.001, 0.2, 0.5, 0.9, 0.999]) {
      const cut = text.slice(0, Math.floor(text.length * fraction));
      expect(getProblem(parsePlanText(cut)).code, `at ${fraction}`).toBe('file-truncated');
    }
  });

  it('is not called cut short when an older, longer file shows behind the plan', () => {
    const text = serializePlan(buildTestPlan());
    expect(getProblem(parsePlanText(`${text}  "kerf": 3 }\n`)).code).toBe('not-json');
  });

  it('is refused when deeply nested, without running out of stack', () => {
    const deep = `${'['.repeat(200_000)}${']'.repeat(200_000)}`;
    expect(getProblem(parsePlanText(deep)).code).toBe('wrong-kind');
    const text = serializePlan(buildTestPlan()).replace('"name":', `"deep": ${deep}, "name":`);
    expect(getRead(parsePlanText(text)).remarks).toEqual(['Left out, because this version does not know it: Deep.']);
  });
});

describe('versions', () => {
  it('refuses a plan from a newer version and names both', () => {
    const problem = parseWith(['version'], 9);
    expect(problem.code).toBe('newer-version');
    expect(problem.sentence).toBe(
      'This plan was written by a newer Kerfgrip: it is file version 9, and this one reads up to version 2.',
    );
  });

  it.each([0, -1, 1.5, '1', null])('refuses version %j', (version) => {
    expect(parseWith(['version'], version).sentence).toBe('Version: the plan does not say which file version it is.');
  });
});

describe('a field that is wrong is named in words', () => {
  it.each([
    [['parts', 1, 'length'], 0, 'Part 2, length: must be more than 0, not 0.'],
    [['parts', 1, 'length'], -12.7, 'Part 2, length: must be more than 0, not -12.7.'],
    [['parts', 0, 'height'], Number.NaN, 'Part 1, height: must be a number, not NaN.'],
    [['parts', 0, 'height'], Number.POSITIVE_INFINITY, 'Part 1, height: must be a number, not Infinity.'],
    [['parts', 0, 'height'], 1e30, 'Part 1, height: must be at most 100000, not 1e+30.'],
    [['parts', 0, 'height'], '20', 'Part 1, height: must be a number, not "20".'],
    [['parts', 0, 'height'], null, 'Part 1, height: must be a number, not empty.'],
    [['parts', 0, 'quantity'], 1.5, 'Part 1, quantity: must be a whole number, not 1.5.'],
    [['parts', 0, 'quantity'], 0, 'Part 1, quantity: must be 1 or more, not 0.'],
    [['parts', 0, 'id'], '', 'Part 1, id: must not be empty.'],
    [['parts', 0, 'name'], 'x'.repeat(3000), 'Part 1, name: must be at most 2000 characters long.'],
    [['units'], 'cm', 'Units: must be in, mm (one of these), not "cm".'],
    [['holding', 'shelfDepth'], { pinned: -1 }, 'Holding, shelf depth: must be 0 or more, not -1.'],
    [['holding', 'shelfDepth'], { pinned: 'deep' }, 'Holding, shelf depth: must be a number, not "deep".'],
    [['holding', 'vises'], { pinned: [0, 'x'] }, 'Holding, vise 2: must be a number, not "x".'],
    [
      ['holding', 'clamp'],
      { kind: 'force', clampForceN: -5 },
      'Holding, clamp, clamp force (N): must be 0 or more, not -5.',
    ],
    [['cuts', 2, 'cuttingSpeedMPerMin'], 0, 'Cut 3, cutting speed (m/min): must be more than 0, not 0.'],
    [['parts'], {}, 'Parts: must be a list, not a group of fields.'],
  ])('%j = %j', (path, value, sentence) => {
    const problem = parseWith(path, value);
    expect(problem.sentence).toBe(sentence);
    expect(problem.code).toBe('bad-field');
    expect(problem.where).toMatch(new RegExp(`^${path.join('\\.')}`));
  });

  it('says when a field is missing and how many more are wrong', () => {
    const { order: _order, zero: _zero, ...rest } = buildTestPlan();
    expect(getProblem(parsePlan(rest)).sentence).toBe('Order: is missing. (1 more field is wrong too.)');
  });

  it('refuses an endless list', () => {
    const cut = buildTestPlan().cuts[0];
    const cuts = Array.from({ length: 5001 }, (_, index) => ({ ...cut, id: `cut-${index}` }));
    expect(parseWith(['cuts'], cuts).sentence).toBe('Cuts: must hold at most 500 entries.');
  });
});

describe('ids', () => {
  it('refuses two parts of one id', () => {
    const problem = parseWith(['parts', 1, 'id'], 'part-1');
    expect(problem).toEqual({
      code: 'duplicate-id',
      sentence: 'Part 2: has the same id, "part-1", as part 1.',
      where: 'parts.1.id',
    });
  });

  it('refuses two places of one id on a blank, and lets two blanks use the same', () => {
    const slot = { id: 'slot-1', partId: 'part-1', x: 1, mirrored: false };
    const blank = { id: 'blank-1', length: 'auto', count: 'auto', slots: [slot] };
    const twice = [{ ...blank, slots: [slot, slot] }];
    expect(parseWith(['layout'], { pinned: twice }).sentence).toBe(
      'Blank 1, place 2: has the same id, "slot-1", as blank 1, place 1.',
    );
    const two = { ...buildTestPlan(), layout: { pinned: [blank, { ...blank, id: 'blank-2' }] } };
    expect(parsePlan(two).ok).toBe(true);
  });

  it('keeps the plan and says so when a place or tab belongs to a part that is gone', () => {
    const slots = ['part-1', 'part-9'].map((partId, index) => ({ id: `slot-${index}`, partId, x: 1, mirrored: false }));
    const plan = {
      ...buildTestPlan(),
      layout: { pinned: [{ id: 'blank-1', length: 'auto', count: 'auto', slots }] },
      release: { ...buildTestPlan().release, tabs: { pinned: [{ partId: 'part-9', x: 3 }] } },
    };
    const read = getRead(parsePlan(plan));
    expect(read.plan.layout).toEqual({
      pinned: [{ id: 'blank-1', length: 'auto', count: 'auto', slots: [slots[0]] }],
    });
    expect(read.plan.release.tabs).toEqual({ pinned: [] });
    expect(read.remarks).toHaveLength(1);
  });
});

describe('keys the program does not know', () => {
  it('are left out and named', () => {
    const plan = { ...buildTestPlan(), colour: 'blue' };
    const parts = plan.parts.map((part) => ({ ...part, finishCode: 7 }));
    const read = getRead(parsePlan({ ...plan, parts }));
    expect(read.plan).toEqual(buildTestPlan());
    expect(read.remarks).toEqual([
      'Left out, because this version does not know it: Part 1, finish code; Part 2, finish code; Colour.',
    ]);
  });

  it('cannot reach the prototype of anything', () => {
    const text = serializePlan(buildTestPlan()).replace(
      '"name":',
      '"__proto__": { "polluted": true }, "constructor": { "prototype": { "polluted": true } }, "name":',
    );
    const read = getRead(parsePlanText(text));
    expect(Object.getPrototypeOf(read.plan)).toBe(Object.prototype);
    expect('polluted' in read.plan).toBe(false);
    expect('polluted' in {}).toBe(false);
  });

  it('do not stand in for the format or version', () => {
    expect(getProblem(parsePlanText('{"__proto__": {"format": "kerfgrip-plan", "version": 1}}')).code).toBe(
      'wrong-kind',
    );
  });
});

describe('any damage at all', () => {
  const plan = buildTestPlan();

  function getPaths(value: unknown, path: (string | number)[] = []): (string | number)[][] {
    if (typeof value !== 'object' || value === null) return [path];
    const keys = Array.isArray(value) ? [...value.keys()] : Object.keys(value);
    return [path, ...keys.flatMap((key) => getPaths((value as Record<string | number, unknown>)[key], [...path, key]))];
  }

  it('is answered with a plan or with one sentence, never thrown', () => {
    fc.assert(
      fc.property(fc.constantFrom(...getPaths(plan)), fc.jsonValue(), (path, junk) => {
        const result = parsePlan(setAtPath<unknown>(plan, path, junk));
        if (result.ok) {
          expect(parsePlanText(serializePlan(result.plan)).ok).toBe(true);
        } else {
          expect(result.problem.sentence).toMatch(/^[A-Z].*[.)]$/s);
        }
      }),
      { numRuns: 300 },
    );
  });

  it('of the text is too', () => {
    const text = serializePlan(plan);
    fc.assert(
      fc.property(fc.nat(text.length), fc.nat(40), fc.string(), (at, removed, inserted) => {
        const damaged = text.slice(0, at) + inserted + text.slice(at + removed);
        const result = parsePlanText(damaged);
        expect(result.ok || result.problem.sentence.length > 0).toBe(true);
      }),
      { numRuns: 300 },
    );
  });
});
