import { writeFileSync } from 'node:fs';
import { readFile } from 'node:fs/promises';
import { join } from 'node:path';
import { describe, expect, test } from 'vitest';
import { evaluate } from '../../../shared/evaluate';
import { defaultShop } from '../../../shared/model/catalogue/default-shop';
import { parsePlanText } from '../../../shared/model/parse-plan';
import type { Plan } from '../../../shared/model/plan';
import { serializePlan } from '../../../shared/model/serialize';
import { makeTempFolder } from '../services/temp-folder';
import { CHILD_WAIT_MS, HOIST_ARMS, runKerfgrip, runProgram } from './run-kerfgrip';

const isOneSentence = expect.stringMatching(/^[^\n]+[.)]\n$/);

async function readSample(): Promise<Plan> {
  const parsed = parsePlanText(await readFile(HOIST_ARMS, 'utf8'));
  return parsed.ok ? parsed.plan : expect.fail(parsed.problem.sentence);
}

async function writePlan(plan: Plan): Promise<string> {
  const path = join(await makeTempFolder(), 'hoist.kgplan');
  writeFileSync(path, serializePlan(plan));
  return path;
}

/** Nothing mills a slot this deep, so a stop has to stand. */
function spoil(plan: Plan): Plan {
  return { ...plan, parts: plan.parts.map((part) => ({ ...part, height: 200 })) };
}

describe('kerfgrip', { timeout: CHILD_WAIT_MS }, () => {
  test('--help names every verb and the exit codes', async () => {
    const { code, out, err } = await runKerfgrip('--help');
    expect({ code, err }).toEqual({ code: 0, err: '' });
    for (const verb of ['evaluate', 'sheet', 'order', 'length', 'nest']) expect(out).toContain(`kerfgrip ${verb} `);
    expect(out).toContain('0 done, 1 the job failed, 2 wrong usage, 3');
  });

  test.each<[string, string[], RegExp]>([
    ['no verb', [], /evaluate PLAN/],
    ['an unknown verb', ['polish'], /^There is no verb "polish"/],
    ['a verb by an inherited name', ['constructor'], /^There is no verb "constructor"/],
    ['no plan', ['evaluate'], /^The plan is missing\. Usage: kerfgrip evaluate/],
    ['two plans', ['evaluate', 'a', 'b'], /^Only one plan/],
    ['an unknown option', ['evaluate', 'a', '--fast'], /--fast/],
    ['a length without its units', ['length', '1-1/2'], /^--units in or --units mm/],
    ['unknown units', ['length', '1', '--units', 'cubits'], /^--units must be in or mm/],
    ['a limit that is no number', ['nest', 'a.tsv', '--limit', 'soon'], /^--limit must be a number/],
    ['a limit of nothing', ['nest', 'a.tsv', '--limit', '0'], /^--limit must be a number/],
  ])('wrong usage exits 2 and says how: %s', async (_, args, sentence) => {
    const { code, out, err } = await runKerfgrip(...args);
    expect({ code, out }).toEqual({ code: 2, out: '' });
    expect(err).toMatch(sentence);
  });

  test.each<[string, string | null, RegExp]>([
    ['that is missing', null, /^gone\.kgplan could not be read/],
    ['that is not JSON', 'G1 X2', /^hoist\.kgplan could not be opened: .*not JSON/],
    ['that is cut off', '{"format":"kerfgrip-plan","version":1,', /ends too early/],
  ])('a plan %s exits 1 with one sentence', async (_, content, sentence) => {
    const folder = await makeTempFolder();
    const path = join(folder, content === null ? 'gone.kgplan' : 'hoist.kgplan');
    if (content !== null) writeFileSync(path, content);
    const { code, out, err } = await runKerfgrip('evaluate', path);
    expect({ code, out, err }).toEqual({ code: 1, out: '', err: isOneSentence });
    expect(err).toMatch(sentence);
  });
});

describe('kerfgrip evaluate', { timeout: CHILD_WAIT_MS }, () => {
  test('prints what the engine says, as JSON', async () => {
    const { code, out } = await runKerfgrip('evaluate', HOIST_ARMS);
    expect(code).toBe(0);
    const expected = JSON.parse(JSON.stringify(evaluate(await readSample(), defaultShop)));
    expect(JSON.parse(out)).toEqual(expected);
  });

  test('exits 3 with --strict when a stop stands, and 0 without', async () => {
    const path = await writePlan(spoil(await readSample()));
    const strict = await runKerfgrip('evaluate', path, '--strict');
    expect(strict.code).toBe(3);
    const { findings } = JSON.parse(strict.out) as { findings: { severity: string }[] };
    expect(findings.some(({ severity }) => severity === 'stop')).toBe(true);
    expect((await runKerfgrip('evaluate', path)).code).toBe(0);
  });

  test('takes the shop file it is given', async () => {
    const path = join(await makeTempFolder(), 'shop.json');
    writeFileSync(path, '{"format":"kerfgrip-plan"}');
    const { code, err } = await runKerfgrip('evaluate', HOIST_ARMS, '--shop', path);
    expect({ code, err }).toEqual({ code: 1, err: isOneSentence });
    expect(err).toMatch(/^shop\.json could not be opened/);
  });
});

describe('kerfgrip evaluate --draws', { timeout: CHILD_WAIT_MS }, () => {
  test('adds the chances found by drawing lots, which agree with the sums and repeat with their seed', async () => {
    const run = async (...more: string[]) =>
      JSON.parse((await runKerfgrip('evaluate', HOIST_ARMS, '--draws', '4000', ...more)).out);
    const { chance, chanceDrawn } = await run();
    expect(chanceDrawn).toMatchObject({ draws: 4000, seed: 1 });
    for (const key of ['grip', 'allowance', 'hold', 'all'] as const) {
      expect(Math.abs(chanceDrawn[key] - chance[key].value)).toBeLessThan(0.035);
    }
    expect((await run('--seed', '1')).chanceDrawn).toEqual(chanceDrawn);
  });

  test.each(['0', '-3', '1.5', 'many', '2000000'])('--draws=%s is wrong usage', async (draws) => {
    const { code, err } = await runKerfgrip('evaluate', HOIST_ARMS, `--draws=${draws}`);
    expect(code).toBe(2);
    expect(err).toContain('--draws must be a whole number from 1 to 1000000.');
  });
});

describe('kerfgrip sheet', { timeout: CHILD_WAIT_MS }, () => {
  const getSize = (pdf: Buffer): string => /\/MediaBox \[([^\]]*)\]/.exec(pdf.toString('latin1'))?.[1] ?? '';

  test.each<[string, string[], string]>([
    ['Letter for a plan in inches', [], '0 0 792 612'],
    ['the paper that is asked for', ['--paper', 'A3'], '0 0 1190.551181 841.889764'],
  ])('writes a PDF on %s', async (_, more, size) => {
    const path = join(await makeTempFolder(), 'sheet.pdf');
    const { code, out, err } = await runKerfgrip('sheet', HOIST_ARMS, '--out', path, ...more);
    expect({ code, out, err }).toEqual({ code: 0, out: '', err: '' });
    const pdf = await readFile(path);
    expect(pdf.subarray(0, 5).toString()).toBe('%PDF-');
    expect(getSize(pdf)).toBe(size);
  });

  test('--workings adds the pages with every figure', async () => {
    const folder = await makeTempFolder();
    const write = async (name: string, ...more: string[]) => {
      const path = join(folder, name);
      expect((await runKerfgrip('sheet', HOIST_ARMS, '--out', path, ...more)).code).toBe(0);
      return (await readFile(path, 'latin1')).match(/\/Type \/Page\b/g)?.length ?? 0;
    };
    expect(await write('with.pdf', '--workings')).toBeGreaterThan(await write('without.pdf'));
  });

  test('writes SVG or DXF by the ending', async () => {
    const folder = await makeTempFolder();
    for (const [name, start, end] of [
      ['sheet.svg', /^<svg /, /<\/svg>\s*$/],
      ['sheet.DXF', /^\s*0\r?\nSECTION/, /EOF\r?\n$/],
    ] as const) {
      const path = join(folder, name);
      expect((await runKerfgrip('sheet', HOIST_ARMS, '--out', path)).code).toBe(0);
      const text = await readFile(path, 'utf8');
      expect(text).toMatch(start);
      expect(text).toMatch(end);
    }
  });

  test.each<[string, string[], RegExp]>([
    ['no file', [], /^--out has to name/],
    ['an ending that is none of ours', ['--out', 'sheet.png'], /^The ending of --out must be pdf, svg or dxf/],
    ['an unknown paper', ['--out', 'sheet.pdf', '--paper', 'napkin'], /^--paper must be letter, a4, a3 or tabloid/],
  ])('wrong usage exits 2: %s', async (_, more, sentence) => {
    const { code, err } = await runKerfgrip('sheet', HOIST_ARMS, ...more);
    expect(code).toBe(2);
    expect(err).toMatch(sentence);
  });

  test('that cannot be written exits 1', async () => {
    const path = join(await makeTempFolder(), 'gone', 'sheet.pdf');
    const { code, err } = await runKerfgrip('sheet', HOIST_ARMS, '--out', path);
    expect({ code, err }).toEqual({
      code: 1,
      err: 'sheet.pdf was not written: it or its folder is not there.\n',
    });
  });

  test('is written also when a stop stands, with 3 if strict', async () => {
    const path = join(await makeTempFolder(), 'sheet.pdf');
    const plan = await writePlan(spoil(await readSample()));
    expect((await runKerfgrip('sheet', plan, '--out', path, '--strict')).code).toBe(3);
    expect((await readFile(path)).subarray(0, 5).toString()).toBe('%PDF-');
  });
});

describe('kerfgrip order', { timeout: CHILD_WAIT_MS }, () => {
  test('prints bars, cuts, cost, bound and proof', async () => {
    const { code, out } = await runKerfgrip('order', HOIST_ARMS);
    expect(code).toBe(0);
    const order = JSON.parse(out);
    const { order: expected } = evaluate(await readSample(), defaultShop);
    expect(order).toMatchObject({
      cost: expected?.cost?.value,
      bound: expected?.bound,
      proven: expected?.proven,
      currency: 'USD',
    });
    expect(order.bars).toEqual(JSON.parse(JSON.stringify(expected?.bars)));
  });

  test('--csv prints a line for each stretch of each bar, which fill it from end to end', async () => {
    const { code, out } = await runKerfgrip('order', HOIST_ARMS, '--csv');
    expect(code).toBe(0);
    const [head = '', ...lines] = out.trimEnd().split('\r\n');
    expect(head.split(',').slice(0, 4)).toEqual(['Bar', 'Bars cut like this', 'Stock', 'Bar length (in)']);
    const cells = lines.filter((line) => line.startsWith('1,')).map((line) => line.split(',').slice(-4).map(Number));
    const sum = cells.reduce((total, [length = 0, , , kerf = 0]) => total + length + kerf, 0);
    expect(sum).toBeCloseTo(Number(lines[0]?.split(',')[3]), 2);
  });

  test('disarms text that a spreadsheet would take for a formula', async () => {
    const plan = await readSample();
    const path = await writePlan({ ...plan, parts: plan.parts.map((part) => ({ ...part, name: '=1+1' })) });
    const { out } = await runKerfgrip('order', path, '--csv');
    expect(out).toContain('=1+1');
    expect(out).not.toMatch(/(^|,|")[=+@-][^,\r\n]*/m);
  });

  test('of a plan without parts exits 1', async () => {
    const { code, out, err } = await runKerfgrip('order', await writePlan({ ...(await readSample()), parts: [] }));
    expect({ code, out, err }).toEqual({ code: 1, out: '', err: isOneSentence });
  });
});

describe('kerfgrip length', { timeout: CHILD_WAIT_MS }, () => {
  test.each<[string, string, string[], unknown]>([
    ['1-1/2', 'in', [], { mm: 38.1, shown: '1.500 in' }],
    ['1½', 'in', [], { mm: 38.1, shown: '1.500 in' }],
    ['1\'6"', 'in', [], { mm: 457.2, shown: '18.000 in' }],
    ['38 mm', 'in', [], { mm: 38, shown: '1.496 in' }],
    ['50 thou', 'mm', [], { mm: 1.27, shown: '1.27 mm' }],
    ['-8 3/4', 'in', ['--signed'], { mm: -222.25, shown: '-8.750 in' }],
  ])('%s in a plan in %s', async (text, units, more, expected) => {
    const { code, out, err } = await runKerfgrip('length', text, '--units', units, ...more);
    expect({ code, value: JSON.parse(out), err }).toEqual({ code: 0, value: expected, err: '' });
  });

  test('warns of a fraction that is on no rule', async () => {
    const { code, out } = await runKerfgrip('length', '--units', 'in', '1-3/36');
    expect(code).toBe(0);
    expect(JSON.parse(out)).toMatchObject({
      mm: expect.closeTo(27.516667, 6),
      warning: expect.stringContaining('3/36'),
    });
  });

  test.each(['1,5', '3/8/2', '1/0', '1/2-', '', '-1'])('refuses %j and exits 1', async (text) => {
    const { code, out, err } = await runKerfgrip('length', text, '--units=in');
    const { refusal } = JSON.parse(out);
    expect({ code, err }).toEqual({ code: 1, err: `${refusal}\n` });
    expect(err).toEqual(isOneSentence);
  });
});

describe('kerfgrip nest', { timeout: CHILD_WAIT_MS }, () => {
  const write = async (text: string): Promise<string> => {
    const path = join(await makeTempFolder(), 'instances.tsv');
    writeFileSync(path, text);
    return path;
  };

  test('prints name, bars, bound, proof and time of each instance', async () => {
    const path = await write('# comment\nsixes\t10\t3\t3\t6x3\r\n\npairs\t10\t2\t2\t6x2 4x2\n');
    const { code, out, err } = await runKerfgrip('nest', path, '--limit', '5');
    expect({ code, err }).toEqual({ code: 0, err: '' });
    expect(out).toMatch(/^sixes\t3\t3\ttrue\t\d+\npairs\t2\t2\ttrue\t\d+\n$/);
  });

  test('names the line that it cannot read, before anything is solved', async () => {
    const path = await write('ok\t10\t1\t1\t6x1\nbad\t10\t1\t1\t60x1\n');
    const { code, out, err } = await runKerfgrip('nest', path);
    expect({ code, out, err }).toEqual({ code: 1, out: '', err: isOneSentence });
    expect(err).toMatch(/^instances\.tsv, line 2: /);
  });
});

describe('kerfgrip as a program', { timeout: CHILD_WAIT_MS }, () => {
  test.each<[string, number, string[]]>([
    ['done', 0, ['length', '1-1/2', '--units', 'in']],
    ['the job failed', 1, ['length', '1,5', '--units', 'in']],
    ['wrong usage', 2, ['polish']],
  ])('exits as %s with %i', async (_, expected, args) => {
    const { code, err } = await runProgram(...args);
    expect({ code, err }).toEqual({ code: expected, err: expect.any(String) });
  });

  test('exits with 3 when a stop stands, its whole answer written', async () => {
    const path = await writePlan(spoil(await readSample()));
    const { code, out, err } = await runProgram('evaluate', path, '--strict');
    expect({ code, err }).toEqual({ code: 3, err: '' });
    expect(JSON.parse(out)).toHaveProperty('findings');
  });

  test('gives as a program what it gives here, verb by verb', async () => {
    const path = join(await makeTempFolder(), 'instances.tsv');
    writeFileSync(path, 'sixes\t10\t3\t3\t6x3\n');
    for (const args of [
      ['order', HOIST_ARMS, '--csv'],
      ['order', HOIST_ARMS],
      ['evaluate', HOIST_ARMS],
    ]) {
      expect(await runProgram(...args)).toEqual(await runKerfgrip(...args));
    }
    expect((await runProgram('nest', path)).out).toMatch(/^sixes\t3\t3\ttrue\t\d+\n$/);
  });
});
