import {
  type Affine,
  composeAffine,
  getDeterminant,
  getMove,
  getScale,
  getTurn,
  IDENTITY,
  transformShape,
} from '../../../../shared/outline/affine';
import { MOST_SHAPES } from '../../../../shared/outline/outline-drawing';
import type { OutlineEntity } from '../../../../shared/outline/shapes';
import type { EntityTally } from '../entity-tally';
import { type DxfRecord, getNumber, getText } from './dxf-fields';
import { getEntityPlane, READ_TYPES, readEntityShapes, WORLD_TYPES } from './entity-shapes';

/** A block: named shapes that are put in by reference. */
export interface DxfBlock {
  base: { x: number; y: number };
  entities: readonly DxfRecord[];
}

export interface ExpandContext {
  blocks: ReadonlyMap<string, DxfBlock>;
  /** Layers that are frozen or switched off. */
  hiddenLayers: ReadonlySet<string>;
  tally: EntityTally;
  entities: OutlineEntity[];
  /** Entities still to be looked at, over all references; a few nested blocks can ask for millions. */
  looksLeft: number;
}

/** Blocks within blocks; deeper ones are not met, and a block that holds itself has no end. */
const DEEPEST = 32;

/**
 * Puts every entity's shapes into the drawing, those of blocks once for each reference to them.
 *
 * @param place how the entities' coordinates lie in the drawing
 * @param layer layer of the reference that asked for them, or null; entities on layer 0 of a block stand on it
 */
export function expandEntities(
  context: ExpandContext,
  entities: readonly DxfRecord[],
  place: Affine,
  layer: string | null = null,
  depth = 0,
): void {
  for (const entity of entities) {
    if (context.looksLeft <= 0) return;
    context.looksLeft -= 1;
    const type = getText(entity, 'type');
    const ownLayer = getText(entity, 'layer');
    const onLayer = layer !== null && (ownLayer === '0' || ownLayer === '') ? layer : ownLayer;
    const reason = getHiddenReason(context, entity, onLayer);
    if (reason !== null) {
      context.tally.addSkipped(type, reason);
    } else if (type === 'INSERT') {
      expandInsert(context, entity, place, onLayer, depth);
    } else if (READ_TYPES.has(type)) {
      addShapes(context, type, entity, place, onLayer);
    } else {
      context.tally.addSkipped(type, 'not a kind that outlines are drawn with');
    }
  }
}

function getHiddenReason(context: ExpandContext, entity: DxfRecord, layer: string): string | null {
  if (entity.visible === false) return 'marked as not visible';
  if (getNumber(entity, 'paperSpace', 0) !== 0) return 'on a sheet, not in the drawing';
  return context.hiddenLayers.has(layer) ? 'on a layer that is switched off' : null;
}

function addShapes(context: ExpandContext, type: string, entity: DxfRecord, place: Affine, layer: string): void {
  const plane = type === 'LINE' ? IDENTITY : getEntityPlane(entity);
  if (plane === null) {
    context.tally.addSkipped(type, 'its plane is tilted');
    return;
  }
  const result = readEntityShapes(type, entity);
  if ('reason' in result) {
    context.tally.addSkipped(type, result.reason);
    return;
  }
  if (context.entities.length + result.shapes.length > MOST_SHAPES) {
    context.tally.addSkipped(type, 'the drawing has more shapes than are read');
    return;
  }
  context.tally.addRead(type);
  const whole = WORLD_TYPES.has(type) ? place : composeAffine(place, plane);
  for (const shape of result.shapes) context.entities.push({ shape: transformShape(whole, shape), layer });
}

function expandInsert(context: ExpandContext, insert: DxfRecord, place: Affine, layer: string, depth: number): void {
  const name = getText(insert, 'block');
  const block = context.blocks.get(name);
  const plane = getEntityPlane(insert);
  const reason =
    block === undefined
      ? 'its block is not in the file'
      : plane === null
        ? 'its plane is tilted'
        : depth >= DEEPEST
          ? 'blocks within blocks go too deep'
          : null;
  if (block === undefined || plane === null || reason !== null) {
    context.tally.addSkipped('INSERT', reason ?? 'not read');
    return;
  }
  const copies = getCopies(insert, block, composeAffine(place, plane));
  if (copies === null) {
    context.tally.addSkipped('INSERT', 'a figure in it cannot be used');
    return;
  }
  context.tally.addRead('INSERT');
  for (const copy of copies) expandEntities(context, block.entities, copy, layer, depth + 1);
}

const MOST_COPIES = 10_000;

/** Where each copy of a block lies. Rows and columns run along the turned axes. Source: DXF reference, INSERT. */
function getCopies(insert: DxfRecord, block: DxfBlock, place: Affine): Affine[] | null {
  const [x, y] = [getNumber(insert, 'x', 0), getNumber(insert, 'y', 0)];
  const scale = getScale(getNumber(insert, 'scaleX', 1), getNumber(insert, 'scaleY', 1));
  const turn = getTurn((getNumber(insert, 'rotation', 0) * Math.PI) / 180);
  const columns = Math.max(1, getNumber(insert, 'columnCount', 1));
  const rows = Math.max(1, getNumber(insert, 'rowCount', 1));
  const [columnGap, rowGap] = [getNumber(insert, 'columnSpacing', 0), getNumber(insert, 'rowSpacing', 0)];
  const figures = [x, y, scale.a, scale.d, turn.a, columns, rows, columnGap, rowGap, block.base.x, block.base.y];
  if (!figures.every(Number.isFinite) || getDeterminant(scale) === 0 || columns * rows > MOST_COPIES) return null;
  const fromBase = composeAffine(scale, getMove(-block.base.x, -block.base.y));
  const copies: Affine[] = [];
  for (let row = 0; row < rows; row += 1) {
    for (let column = 0; column < columns; column += 1) {
      const inRow = composeAffine(getMove(column * columnGap, row * rowGap), fromBase);
      copies.push(composeAffine(place, composeAffine(getMove(x, y), composeAffine(turn, inRow))));
    }
  }
  return copies;
}
