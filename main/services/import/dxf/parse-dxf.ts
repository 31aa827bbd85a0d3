/// <reference path="./dxf-package.d.ts" />
import { parseString } from 'dxf';
import { IDENTITY } from '../../../../shared/outline/affine';
import type { FileUnit } from '../../../../shared/outline/file-units';
import { MOST_SHAPES, type OutlineDrawing } from '../../../../shared/outline/outline-drawing';
import { ExpectedProblem } from '../../expected-problem';
import { EntityTally } from '../entity-tally';
import { type DxfRecord, getNumber, getRecords, getText, isRecord } from './dxf-fields';
import { type PreparedDxf, prepareDxf } from './dxf-text';
import { type DxfBlock, type ExpandContext, expandEntities } from './expand-entities';

/** Entities looked at over all references, each of which may hold many shapes. */
const MOST_LOOKS = 200_000;

/** Parts of other entities, counted with them. */
const PART_TYPES = new Set(['VERTEX', 'SEQEND']);

/**
 * Reads the outline shapes of a DXF file, R12 to current, ASCII.
 *
 * @param text the file as text
 * @param name shown in sentences
 * @throws ExpectedProblem with one sentence when the file is no DXF, is cut short or damaged
 */
export function parseDxf(text: string, name: string): OutlineDrawing {
  const prepared = prepareDxf(text, name);
  const read = readWithLibrary(prepared, name);
  const tally = new EntityTally();
  const context: ExpandContext = {
    blocks: getBlocks(read),
    hiddenLayers: getHiddenLayers(read),
    tally,
    entities: [],
    looksLeft: MOST_LOOKS,
  };
  const entities = getRecords(read, 'entities');
  expandEntities(context, entities, IDENTITY);
  countUnread(prepared, entities, tally);
  const remarks: string[] = [];
  if (prepared.fitSplines > 0) remarks.push(describeFitSplines(prepared.fitSplines));
  if (!prepared.hasEnd) remarks.push('The end mark of the file is missing; what stands before it was read.');
  if (context.looksLeft <= 0 || context.entities.length >= MOST_SHAPES) {
    remarks.push('The drawing holds more than is read of one, so part of it is missing.');
  }
  return { format: 'dxf', entities: context.entities, counts: tally.list(), declaredUnit: getUnit(read), remarks };
}

function describeFitSplines(count: number): string {
  const [these, them] = count === 1 ? ['1 spline is', 'it passes'] : [`${count} splines are`, 'they pass'];
  return `${these} given by the points ${them} through alone, and read as the smooth cubic through them; between the points another program may draw a little differently.`;
}

function readWithLibrary({ text }: PreparedDxf, name: string): DxfRecord {
  try {
    const read = parseString(text);
    if (isRecord(read)) return read;
  } catch (error) {
    throw new ExpectedProblem('outline-damaged', `${name} is damaged: its sections cannot be made out.`, name, error);
  }
  throw new ExpectedProblem('outline-damaged', `${name} is damaged: its sections cannot be made out.`, name);
}

/** What the library does not know it leaves out; the difference to what stands in the file is told. */
function countUnread(prepared: PreparedDxf, entities: readonly DxfRecord[], tally: EntityTally): void {
  const given = new Map<string, number>();
  for (const entity of entities) {
    const type = getText(entity, 'type');
    given.set(type, (given.get(type) ?? 0) + 1);
  }
  for (const [type, count] of prepared.entityTypes) {
    if (PART_TYPES.has(type)) continue;
    tally.addSkipped(type, 'not a kind that outlines are drawn with', count - (given.get(type) ?? 0));
  }
  const used = new Set(entities.filter(({ type }) => type === 'INSERT').map((insert) => getText(insert, 'block')));
  for (const [block, types] of prepared.blockTypes) {
    for (const [type, count] of types) {
      if (used.has(block) && UNKNOWN_IN_BLOCKS.has(type))
        tally.addSkipped(type, 'not a kind that outlines are drawn with', count);
    }
  }
}

/** Kinds that may carry geometry and that the library leaves out, also inside blocks. */
const UNKNOWN_IN_BLOCKS = new Set([
  'RAY',
  'XLINE',
  'MLINE',
  'LEADER',
  'HELIX',
  'REGION',
  '3DSOLID',
  'BODY',
  'SHAPE',
  'TRACE',
  'WIPEOUT',
  'IMAGE',
  'MULTILEADER',
  'SURFACE',
  'MESH',
]);

function getBlocks(read: DxfRecord): Map<string, DxfBlock> {
  return new Map(
    getRecords(read, 'blocks').map((block) => [
      getText(block, 'name'),
      { base: { x: getNumber(block, 'x', 0), y: getNumber(block, 'y', 0) }, entities: getRecords(block, 'entities') },
    ]),
  );
}

/** Bit 1 of a layer's flags freezes it; a colour below zero switches it off. Source: DXF reference, LAYER. */
function getHiddenLayers(read: DxfRecord): Set<string> {
  const tables = isRecord(read.tables) ? read.tables : {};
  const layers = isRecord(tables.layers) ? tables.layers : {};
  const hidden = Object.entries(layers).filter(([, layer]) => {
    if (!isRecord(layer)) return false;
    const flags = getNumber(layer, 'flags', 0);
    return (flags & 1) === 1 || getNumber(layer, 'colorNumber', 7) < 0;
  });
  return new Set(hidden.map(([name]) => name.trim()));
}

/** `$INSUNITS`. Source: DXF reference, header section. */
const UNITS: Readonly<Record<number, FileUnit>> = {
  1: 'in',
  2: 'ft',
  4: 'mm',
  5: 'cm',
  6: 'm',
  9: 'thou',
  10: 'yd',
  13: 'micron',
  14: 'dm',
};

function getUnit(read: DxfRecord): FileUnit | null {
  const header = isRecord(read.header) ? read.header : {};
  return UNITS[getNumber(header, 'insUnits', 0)] ?? null;
}
