import { ExpectedProblem } from '../../expected-problem';
import type { DxfPair } from './dxf-fields';
import { completeFitSpline } from './fit-splines';

/** What is learnt of a DXF file before its reader sees it. */
export interface PreparedDxf {
  /** The text, ready for the reader. */
  text: string;
  /** How often each kind of entity stands in model space, so that what the reader leaves out is known. */
  entityTypes: ReadonlyMap<string, number>;
  /** The same for each block, by its name. */
  blockTypes: ReadonlyMap<string, ReadonlyMap<string, number>>;
  /** Splines given by the points they pass through alone, which the curve through them stands in for. */
  fitSplines: number;
  /** False when the file ends without its end mark. */
  hasEnd: boolean;
}

/** Most code and value pairs: ten times what a busy drawing has, and within the reader's memory. */
const MOST_PAIRS = 1_500_000;

/** A vertex of the frame of a curve-fitted polyline, no point of it: bit 16 of group code 70. */
const FRAME_VERTEX = 16;

/**
 * Looks through a DXF file's pairs and puts right what its reader stumbles over: spaces around values, comments, vertices
 * that are no points of their polyline, and names that read like marks. Everything stays in order.
 *
 * Source of codes and marks: DXF reference, ASCII group codes, sections BLOCKS and ENTITIES.
 *
 * @throws ExpectedProblem when the text is no DXF, ends in the middle, or is too long
 */
export function prepareDxf(text: string, name: string): PreparedDxf {
  const lines = text.split(/\r\n|\r|\n/u);
  const pairs = readPairs(lines, name);
  const { kept, fitSplines } = mendEntities(pairs);
  const counts = countTypes(kept);
  if (!counts.hasEntities) {
    throw new ExpectedProblem('outline-nothing', `${name} has no ENTITIES section, so there is nothing to read.`, name);
  }
  if (counts.isOpen) {
    throw new ExpectedProblem(
      'outline-truncated',
      `${name} ends in the middle of a section, so part of the drawing is missing.`,
      name,
    );
  }
  return {
    text: kept.map((pair, index) => `${pair.code}\n${getSafeValue(pair, kept[index - 1])}`).join('\n'),
    entityTypes: counts.entities,
    blockTypes: counts.blocks,
    fitSplines,
    hasEnd: counts.hasEnd,
  };
}

function readPairs(lines: readonly string[], name: string): DxfPair[] {
  if (lines.length / 2 > MOST_PAIRS) {
    throw new ExpectedProblem('outline-too-large', `${name} holds more than is read of a drawing.`, name);
  }
  const pairs: DxfPair[] = [];
  for (let index = 0; index + 1 < lines.length; index += 2) {
    const codeText = (lines[index] ?? '').trim();
    // What follows the end mark is left alone; a blank line there is common.
    if (pairs.at(-1)?.code === 0 && pairs.at(-1)?.value === 'EOF') break;
    if (!/^[+-]?\d{1,4}$/u.test(codeText)) {
      if (pairs.length === 0) refuseStart(name);
      const sentence = `${name} is damaged at line ${index + 1}, where a group code should be.`;
      throw new ExpectedProblem('outline-damaged', sentence, name);
    }
    const code = Number(codeText);
    if (code !== COMMENT) pairs.push({ code, value: (lines[index + 1] ?? '').trim() });
  }
  if (pairs.length === 0) refuseStart(name);
  return pairs;
}

function refuseStart(name: string): never {
  throw new ExpectedProblem('outline-not-dxf', `${name} does not begin like a DXF file.`, name);
}

const COMMENT = 999;

/** Values that the reader takes for marks whatever their code, and names of tables that it takes for the beginning of a row. */
const MARKS = new Set(['BLOCK', 'ENDBLK', 'TABLE', 'ENDTAB']);
const TABLES = new Set(['LAYER', 'STYLE', 'LTYPE', 'VPORT']);

/** A name that reads like a mark gets a space behind it, which is taken off again where the name is used. */
function getSafeValue({ code, value }: DxfPair, before: DxfPair | undefined): string {
  const isTableHead = before?.code === 0 && before.value === 'TABLE';
  const isName = code !== 0 && (MARKS.has(value) || (!isTableHead && TABLES.has(value)));
  return isName ? `${value} ` : value;
}

/** Leaves out vertices that are no points of their polyline, and gives splines of fit points alone their control points. */
function mendEntities(pairs: readonly DxfPair[]): { kept: DxfPair[]; fitSplines: number } {
  const kept: DxfPair[] = [];
  let fitSplines = 0;
  let entity: DxfPair[] = [];
  const flush = (): void => {
    const completed = completeFitSpline(entity);
    if (completed !== null) fitSplines += 1;
    if (!isFrameVertex(entity)) for (const pair of completed ?? entity) kept.push(pair);
    entity = [];
  };
  for (const pair of pairs) {
    if (pair.code === 0) flush();
    entity.push(pair);
  }
  flush();
  return { kept, fitSplines };
}

function isFrameVertex(entity: readonly DxfPair[]): boolean {
  return (
    entity[0]?.value === 'VERTEX' &&
    entity.some(({ code, value }) => code === 70 && (Number.parseInt(value, 10) & FRAME_VERTEX) !== 0)
  );
}

interface Counts {
  entities: Map<string, number>;
  blocks: Map<string, Map<string, number>>;
  hasEntities: boolean;
  hasEnd: boolean;
  isOpen: boolean;
}

function countTypes(pairs: readonly DxfPair[]): Counts {
  const counts: Counts = { entities: new Map(), blocks: new Map(), hasEntities: false, hasEnd: false, isOpen: false };
  let section = '';
  let block: Map<string, number> | null = null;
  let awaits: 'section' | 'block' | null = null;
  const add = (to: Map<string, number>, type: string): void => void to.set(type, (to.get(type) ?? 0) + 1);
  for (const { code, value } of pairs) {
    if (code === 2 && awaits === 'section') {
      section = value;
      awaits = null;
      if (section === 'ENTITIES') counts.hasEntities = true;
    } else if (code === 2 && awaits === 'block' && block !== null) {
      counts.blocks.set(value, block);
      awaits = null;
    }
    if (code !== 0) continue;
    if (value === 'SECTION') {
      awaits = 'section';
      counts.isOpen = true;
    } else if (value === 'ENDSEC') {
      section = '';
      counts.isOpen = false;
    } else if (value === 'EOF') counts.hasEnd = true;
    else if (section === 'ENTITIES') add(counts.entities, value);
    else if (section === 'BLOCKS') {
      if (value === 'BLOCK') {
        block = new Map();
        awaits = 'block';
      } else if (value === 'ENDBLK') block = null;
      else if (block !== null) add(block, value);
    }
  }
  return counts;
}
