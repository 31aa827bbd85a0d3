import { SaxesParser } from 'saxes';
import { describe, expect, test } from 'vitest';
import { renderCutList } from '../../../main/services/cut-list-csv';
import { renderSheetFile } from '../../../main/services/sheet-files';
import { defaultShop } from '../../../shared/model/catalogue/default-shop';
import { parsePlanText } from '../../../shared/model/parse-plan';
import type { Plan } from '../../../shared/model/plan';
import { runBadFiles } from '../../soak/bad-files/run-bad-files';
import { readPdf } from '../support/read-pdf';
import { readSampleText } from '../support/sample-plans';

const SAMPLE = readSampleText('keeper-links');

function getPlan(text: string): Plan {
  const read = parsePlanText(text);
  return read.ok ? read.plan : expect.fail(read.problem.sentence);
}

function getSentence(text: string): string {
  const read = parsePlanText(text);
  return read.ok ? expect.fail('It was read.') : read.problem.sentence;
}

test('300 plan and shop files spoilt at random are refused in one sentence or come through to the sheet', {
  timeout: 120_000,
}, async () => {
  const { faults, read, refused } = await runBadFiles(300, 20_260_301, Number.POSITIVE_INFINITY);
  expect(faults).toEqual([]);
  expect(read + refused).toBe(300);
  expect(Math.min(read, refused)).toBeGreaterThan(60);
});

describe('a plan made to break its reader', () => {
  test('by nesting without end', () => {
    const nested = `{"format":"kerfgrip-plan","version":1,"parts":${'['.repeat(1_000_000)}${']'.repeat(1_000_000)}}`;
    expect(getSentence(nested)).toMatch(/^Part 1|^Name|^Parts|too deep|not JSON/);
  });

  test('by a hundred thousand parts', () => {
    const plan = JSON.parse(SAMPLE) as Plan;
    const [part] = plan.parts;
    const parts = Array.from({ length: 100_000 }, (_, index) => ({ id: `p${index}`, name: part?.name }));
    expect(getSentence(JSON.stringify({ ...plan, parts }))).toMatch(/^Parts: must hold at most 500 entries\.|^Part 1/);
  });

  test.each(['1e400', '-1e400', '1e308', '123456789012345678901234567890'])('by the number %s', (number) => {
    const text = SAMPLE.replace(/"height": [\d.]+/, `"height": ${number}`);
    expect(getSentence(text)).toMatch(/^Part 1, height: /);
  });

  test('by keys of the prototype, which neither become fields nor change any object', () => {
    const text = SAMPLE.replace(
      '{',
      '{"__proto__": {"polluted": true}, "constructor": {"prototype": {"polluted": true}},',
    );
    const plan = getPlan(text);
    expect('polluted' in plan).toBe(false);
    expect('polluted' in {}).toBe(false);
    expect(Object.getPrototypeOf(plan)).toBe(Object.prototype);
  });

  test.each(['__proto__', 'constructor', 'toString'])('by the id %s', async (id) => {
    const plan = JSON.parse(SAMPLE) as Plan;
    const text = SAMPLE.replaceAll(`"${plan.parts[0]?.id}"`, JSON.stringify(id)).replaceAll(
      `"${plan.stock.materialId}"`,
      JSON.stringify(id),
    );
    const { content } = await renderSheetFile({ plan: getPlan(text), shop: defaultShop, format: 'svg', paper: 'a4' });
    expect(String(content)).not.toMatch(/NaN|undefined|\[object/);
  });
});

describe('markup in every text of a plan', () => {
  const MARKUP = '<script>alert(1)</script><img src=x onerror=alert(1)>&amp;"\'';
  const SAFE_KEYS = new Set(['format', 'units', 'kind', 'id', 'hand', 'axis', 'sides', 'when']);
  const isText = (key: string, value: string): boolean =>
    !SAFE_KEYS.has(key) &&
    !/Id$/.test(key) &&
    value !== 'auto' &&
    /name|note|Note|text|place|method|number|revision|author|heatMark|sentence|laterOperation|source|label/.test(key);

  function markUp(value: unknown, lead: string): unknown {
    if (Array.isArray(value)) return value.map((entry) => markUp(entry, lead));
    if (typeof value !== 'object' || value === null) return value;
    return Object.fromEntries(
      Object.entries(value).map(([key, entry]) => [
        key,
        typeof entry === 'string' && isText(key, entry) ? `${lead}${MARKUP}` : markUp(entry, lead),
      ]),
    );
  }

  const plan = getPlan(JSON.stringify(markUp(JSON.parse(SAMPLE), '')));

  test('stays text in SVG, which holds no element but drawing and text', async () => {
    const { content } = await renderSheetFile({ plan, shop: defaultShop, format: 'svg', paper: 'a4' });
    const elements = new Set<string>();
    const attributes = new Set<string>();
    const parser = new SaxesParser();
    let text = '';
    parser.on('opentag', (tag) => {
      elements.add(tag.name);
      for (const name of Object.keys(tag.attributes)) attributes.add(name);
    });
    parser.on('text', (piece) => {
      text += piece;
    });
    parser.on('error', (error) => expect.fail(error.message));
    parser.write(String(content)).close();
    expect([...elements].filter((name) => /script|img|foreignObject|iframe|a$/i.test(name))).toEqual([]);
    expect([...attributes].filter((name) => /^on|href/i.test(name))).toEqual([]);
    expect(text).toContain('<script>');
  });

  test('stays text in the PDF, which holds no script or action', { timeout: 60_000 }, async () => {
    const { content } = await renderSheetFile({ plan, shop: defaultShop, format: 'pdf', paper: 'a4' });
    const { pages } = await readPdf(content as Uint8Array);
    expect(pages.map(({ text }) => text).join(' ')).toContain('<script>');
    expect(Buffer.from(content as Uint8Array).toString('latin1')).not.toMatch(
      /\/JavaScript|\/JS\b|\/Launch|\/OpenAction/,
    );
  });

  test.each(['=', '+', '-', '@', '\t=', '＝'])('led by %j is no formula in the cut list', (lead) => {
    const armed = getPlan(JSON.stringify(markUp(JSON.parse(SAMPLE), `${lead}HYPERLINK("x")`)));
    const csv = renderCutList(armed, defaultShop, { delimiter: ',', decimal: '.', units: armed.units });
    expect(csv).toContain('HYPERLINK');
    const cells = csv.split(/\r\n/).flatMap((line) => line.split(/,(?=(?:[^"]*"[^"]*")*[^"]*$)/));
    const formulas = cells.filter((cell) => /^"?[\s]*[=+\-@＝]/.test(cell) && !/^-?[\d.]+$/.test(cell));
    expect(formulas).toEqual([]);
  });
});
