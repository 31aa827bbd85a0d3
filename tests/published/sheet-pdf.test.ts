import { spawnSync } from 'node:child_process';
import { mkdtempSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { describe, expect, it, vi } from 'vitest';
import { renderSheetPdf } from '../../main/services/export-sheet';
import type { PaperSize } from '../../shared/model/plan';
import { formatLength } from '../../shared/units/format';
import { type ReadPage, type ReadPdf, readPdf } from '../unit/support/read-pdf';
import { type Drawn, getDrawn, getDrawnOnShelf, getDrawnWithParts } from '../unit/support/sample-sheets';

/** Lying. A4, A3: ISO 216. Letter, Tabloid: ASME Y14.1 sizes A and B, 8.5 × 11 and 11 × 17 in. */
const PAPER_MM: Record<PaperSize, [number, number]> = {
  a4: [297, 210],
  a3: [420, 297],
  letter: [11 * 25.4, 8.5 * 25.4],
  tabloid: [17 * 25.4, 11 * 25.4],
};
const PAPER_SIZES = Object.keys(PAPER_MM) as PaperSize[];
/** What a drawn length may be off by on paper, mm. */
const TRUE_WITHIN = 0.05;

const render = ({ plan, evaluation, shop }: Drawn, paper: PaperSize) =>
  renderSheetPdf(plan, evaluation, shop, { paper, fileName: 'job.kgplan' });

const drawings = {
  'inch sample': getDrawn('hoist-arms'),
  'inch sample on a shelf': getDrawnOnShelf(),
  'metric sample': getDrawn('keeper-links'),
};
type Drawing = keyof typeof drawings;
const DRAWINGS = Object.keys(drawings) as Drawing[];

const known = new Map<string, Promise<ReadPdf>>();

/** Draws and reads each sheet once; the tests look at it from several sides. */
function read(drawing: Drawing, paper: PaperSize): Promise<ReadPdf> {
  const key = `${drawing} ${paper}`;
  const reading = known.get(key) ?? render(drawings[drawing], paper).then(({ bytes }) => readPdf(bytes));
  known.set(key, reading);
  return reading;
}

/** Whether a page has a path of this size, to the tolerance. */
function hasPath(page: ReadPage | undefined, width: number, height: number): boolean {
  return (page?.paths ?? []).some(
    ({ left, right, bottom, top }) =>
      Math.abs(right - left - width) <= TRUE_WITHIN && Math.abs(top - bottom - height) <= TRUE_WITHIN,
  );
}

/** The scale that a page prints beside a view's name, as paper over true size. */
function readScale(page: ReadPage | undefined, view: string): number {
  const [, over, under] = new RegExp(`${view}\\s+(\\d+):(\\d+)`, 'u').exec(page?.text ?? '') ?? [];
  return Number(over) / Number(under);
}

// Drawing and reading take their time on a busy machine; nothing here measures it.
vi.setConfig({ testTimeout: 60_000 });

describe.each(PAPER_SIZES)('The sheet on %s, read back by an independent reader', (paper) => {
  it.each(DRAWINGS)('has pages of the paper’s size: %s', async (drawing) => {
    const { pages } = await read(drawing, paper);
    expect(pages.length).toBeGreaterThan(5);
    for (const page of pages) {
      expect(page.width).toBeCloseTo(PAPER_MM[paper][0], 2);
      expect(page.height).toBeCloseTo(PAPER_MM[paper][1], 2);
    }
  });

  it.each(DRAWINGS)('draws the bar true to the scale it prints: %s', async (drawing) => {
    const { evaluation } = drawings[drawing];
    const blank = evaluation.blanks[evaluation.governingBlank];
    const height = evaluation.section?.height.nominal ?? 0;
    const thickness = evaluation.section?.thickness.nominal ?? 0;
    const [first, second] = (await read(drawing, paper)).pages;
    const elevation = readScale(first, 'Elevation along X');
    expect(hasPath(first, (blank?.length ?? 0) * elevation, height * elevation)).toBe(true);
    const section = readScale(first, 'Section A–A');
    const grip = blank?.stack.grip.nominal ?? 0;
    expect(hasPath(first, thickness * section, height * section)).toBe(true);
    const stack = readScale(first, 'Height stack');
    expect(stack).toBe(section);
    expect(hasPath(first, 13, grip * stack)).toBe(true);
    const plan = readScale(second, 'Plan view, jaws and bar, fixed jaw below');
    expect(hasPath(second, (blank?.length ?? 0) * plan, thickness * plan)).toBe(true);
  });

  it('draws the vises where the dimensions say', async () => {
    const { evaluation, shop, plan } = drawings['inch sample'];
    const [first] = (await read('inch sample', paper)).pages;
    const scale = readScale(first, 'Elevation along X');
    const jawWidth = shop.vises.find((vise) => vise.id === plan.holding.viseId)?.jawWidth ?? 0;
    const jawHeight = evaluation.seat?.jawHeight ?? 0;
    const jaws = (first?.paths ?? [])
      .filter(
        ({ left, right, bottom, top }) =>
          Math.abs(right - left - jawWidth * scale) < TRUE_WITHIN &&
          Math.abs(top - bottom - jawHeight * scale) < TRUE_WITHIN,
      )
      .map(({ left, right }) => (left + right) / 2);
    const middles = [...new Set(jaws.map((x) => x.toFixed(3)))].map(Number).toSorted((a, b) => a - b);
    const centres = evaluation.vises?.centres.value ?? [];
    expect(middles).toHaveLength(centres.length);
    for (const [index, centre] of centres.entries()) {
      const steps = (centre - (centres[0] ?? 0)) * scale;
      expect((middles[index] ?? 0) - (middles[0] ?? 0)).toBeCloseTo(steps, 1);
    }
  });

  it('draws the test squares 100 mm and 4 in across and up', async () => {
    const { pages } = await read('metric sample', paper);
    const page = pages.find((each) => each.text.includes('100.00 mm'));
    expect(hasPath(page, 100, 100)).toBe(true);
    expect(hasPath(page, 101.6, 101.6)).toBe(true);
  });
});

describe('The sheet as PDF', () => {
  it('has its text as text: figures, signs and other scripts survive', async () => {
    const drawn = getDrawnWithParts(
      3,
      (index) => ['Klinke ½ ⌀8 ±0,1', 'храповик ΔΩ', 'Zwingenbügel × łuk'][index] ?? '',
    );
    const { pages } = await readPdf((await render(drawn, 'a4')).bytes);
    const text = pages
      .map((page) => page.text)
      .join(' ')
      .replaceAll(/\s+/gu, ' ');
    for (const wanted of ['½', '⌀', '±0,1', 'храповик', 'ΔΩ', 'Zwingenbügel × łuk']) {
      expect(text).toContain(wanted);
    }
  });

  it('keeps names in scripts of other parts of the world, each letter of them', async () => {
    const names = ['ประตูน้ำ', 'द्वार उत्थापक', 'দরজা', 'கதவு', 'ذراع رفع', 'זרוע הרמה', '水门提升机', '수문'];
    const drawn = getDrawnWithParts(names.length, (index) => names[index] ?? '');
    const { pages } = await readPdf((await render(drawn, 'a4')).bytes);
    // Readers differ in the order that they give letters of joined scripts in, so the letters are compared.
    const letters = new Set(pages.flatMap((page) => [...page.text.normalize('NFKC')]));
    for (const name of names) {
      expect([name, [...name.normalize('NFKC')].filter((letter) => !letters.has(letter))]).toEqual([name, []]);
    }
  });

  it('prints the figures that the engine gives', async () => {
    const { evaluation } = drawings['inch sample'];
    const [first] = (await read('inch sample', 'letter')).pages;
    const blank = evaluation.blanks[evaluation.governingBlank];
    for (const mm of [blank?.stack.grip.nominal, blank?.stack.proudHeight.nominal, blank?.length]) {
      expect(first?.text).toContain(`${formatLength(mm ?? 0, 'in')} [${formatLength(mm ?? 0, 'mm', { decimals: 2 })}]`);
    }
  });

  it('has title, author and an outline of what begins where', async () => {
    const { plan } = drawings['inch sample'];
    const { title, author, outline } = await read('inch sample', 'a4');
    expect(title).toBe(`${plan.name}: fixture sheet`);
    expect(author).toBe(plan.author);
    expect(outline).toEqual(
      expect.arrayContaining(['Setup', 'Parts, order and cut list', 'Tools and order of work', 'True-scale test']),
    );
  });

  it('embeds its fonts as subsets', async () => {
    const { bytes } = await render(getDrawn('hoist-arms'), 'a4');
    const raw = new TextDecoder('latin1').decode(bytes);
    const names = [...raw.matchAll(/\/FontName \/([A-Z]{6}\+[\w-]+)/gu)].map(([, name]) => name);
    expect(names.length).toBeGreaterThanOrEqual(2);
    expect(raw.match(/\/FontFile[23]? /gu)?.length).toBe(names.length);
  });

  it('is the same byte for byte for the same plan', async () => {
    const first = await render(getDrawn('hoist-arms'), 'a4');
    const second = await render(getDrawn('hoist-arms'), 'a4');
    expect(Buffer.compare(Buffer.from(first.bytes), Buffer.from(second.bytes))).toBe(0);
  });

  it('stays under 400 KB for ten pages', async () => {
    for (const drawn of [getDrawn('hoist-arms'), getDrawnOnShelf(), getDrawnWithParts(10)]) {
      const { bytes, pages } = await render(drawn, 'a3');
      expect(bytes.length / pages).toBeLessThan(40_000);
    }
  });
});

/** Readers of other houses, where the machine has them: what each is asked, and what it must not say. */
const READERS: readonly { program: string; args: (path: string) => string[]; complaint: RegExp }[] = [
  { program: 'qpdf', args: (path) => ['--check', path], complaint: /warning|error/iu },
  { program: 'pdftotext', args: (path) => [path, '-'], complaint: /syntax error|warning/iu },
  { program: 'pdftoppm', args: (path) => ['-r', '20', '-png', path, `${path}-page`], complaint: /error|warning/iu },
  { program: 'mutool', args: (path) => ['info', path], complaint: /error|warning/iu },
];

const isThere = (program: string): boolean => spawnSync(program, ['-v']).error === undefined;

describe('Other readers open the sheet without complaint', () => {
  for (const { program, args, complaint } of READERS) {
    it.skipIf(!isThere(program))(`${program}, where it is installed`, async () => {
      const folder = mkdtempSync(join(tmpdir(), 'kerfgrip-sheet-'));
      try {
        const path = join(folder, 'sheet.pdf');
        writeFileSync(
          path,
          (
            await render(
              getDrawnWithParts(3, (index) => `${index} ذراع ประตูน้ำ`),
              'letter',
            )
          ).bytes,
        );
        const { status, stderr } = spawnSync(program, args(path), { encoding: 'utf8' });
        expect({ status, complaint: complaint.exec(stderr)?.input ?? '' }).toEqual({ status: 0, complaint: '' });
      } finally {
        rmSync(folder, { recursive: true });
      }
    });
  }
});
