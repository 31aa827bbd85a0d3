import { writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { describe, expect, test } from 'vitest';
import type { ExpectedProblem } from '../../../main/services/expected-problem';
import { readDrawingFile, readTableFile } from '../../../main/services/import/import-files';
import { OUTLINE_FILES } from '../../data/outlines/outline-files';
import { makeTempFolder } from './temp-folder';

async function write(name: string, content: string | Uint8Array): Promise<string> {
  const path = join(await makeTempFolder(), name);
  writeFileSync(path, content);
  return path;
}

async function getProblem(reading: Promise<unknown>): Promise<ExpectedProblem['problem'] | null> {
  return reading.then(
    () => null,
    (error: ExpectedProblem) => error.problem,
  );
}

const pairs = (...values: (number | string)[]): string => values.join('\n');

/** Polylines nested in time: as many vertices as fit into a file of a size. */
function buildManyVertices(count: number): string {
  const vertex = pairs(0, 'VERTEX', 8, '0', 10, 1.5, 20, 2.5, 42, 0.1);
  const body = `${pairs(0, 'POLYLINE', 8, '0', 66, 1, 70, 1)}\n${Array.from({ length: count }, () => vertex).join('\n')}`;
  return pairs(0, 'SECTION', 2, 'ENTITIES', body, 0, 'SEQEND', 0, 'ENDSEC', 0, 'EOF', '');
}

describe('a file from outside is read in a thread of its own', () => {
  test('a drawing', async () => {
    const path = await write('bores.dxf', OUTLINE_FILES.get('bores.dxf') ?? '');
    const drawing = await readDrawingFile(path);
    expect(drawing.entities).toHaveLength(6);
    expect(drawing.declaredUnit).toBe('mm');
  });

  test('a list', async () => {
    const path = await write('parts.csv', 'Name;Length (mm)\r\nStrut;120,5\r\n');
    const table = await readTableFile(path, null);
    expect(table).toEqual({
      rows: [
        { line: 1, cells: ['Name', 'Length (mm)'] },
        { line: 2, cells: ['Strut', '120,5'] },
      ],
      delimiter: ';',
      remarks: [],
    });
  });

  test('a refusal comes through as it was said', async () => {
    const path = await write('truncated.dxf', OUTLINE_FILES.get('truncated.dxf') ?? '');
    expect(await getProblem(readDrawingFile(path))).toMatchObject({
      code: 'outline-truncated',
      sentence: 'truncated.dxf ends in the middle of a section, so part of the drawing is missing.',
    });
  });
});

describe('a hostile file costs a sentence and no more', () => {
  test.each([
    ['more than is read', buildManyVertices(400_000).slice(0, 12_000_000), 'file-too-large'],
    ['millions of pairs', buildManyVertices(280_000), 'outline-too-large'],
    ['elements without end', `<svg xmlns="http://www.w3.org/2000/svg">${'<g>'.repeat(1_500_000)}`, 'outline-too-large'],
    ['bytes without sense', Buffer.alloc(2_000_000, 0x41), 'outline-not-dxf'],
    ['lines without end', '0\n'.repeat(2_000_000), 'outline-nothing'],
    [
      'a path without end',
      `<svg xmlns="http://www.w3.org/2000/svg"><path d="M0 0${'l1 1'.repeat(2_000_000)}`,
      'outline-damaged',
    ],
  ])('%s', async (name, content, code) => {
    const path = await write('hostile.dxf', content);
    const before = process.memoryUsage().rss;
    const problem = await getProblem(readDrawingFile(path));
    expect(problem?.sentence, name).toMatch(/hostile\.dxf/u);
    expect([code, 'import-too-slow', 'import-too-large']).toContain(problem?.code);
    expect(process.memoryUsage().rss - before).toBeLessThan(500e6);
  });

  test('a list of a million quotation marks', async () => {
    const path = await write('hostile.csv', `a;b\n${'"'.repeat(1_000_001)}`);
    const problem = await getProblem(readTableFile(path, null));
    expect(problem === null || problem.sentence.includes('hostile.csv')).toBe(true);
  });
});
