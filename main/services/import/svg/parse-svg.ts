import svgpath from 'svgpath';
import {
  type Affine,
  composeAffine,
  getDeterminant,
  getMove,
  getScale,
  IDENTITY,
  transformShape,
} from '../../../../shared/outline/affine';
import { FILE_UNIT_SIZES, type FileUnit } from '../../../../shared/outline/file-units';
import { isFiniteShape } from '../../../../shared/outline/flatten';
import { MOST_SHAPES, type OutlineDrawing } from '../../../../shared/outline/outline-drawing';
import type { OutlineEntity } from '../../../../shared/outline/shapes';
import { ExpectedProblem } from '../../expected-problem';
import { EntityTally } from '../entity-tally';
import { readElementShapes, SHAPE_NAMES } from './element-shapes';
import { parseSvgLength, parseSvgNumbers } from './svg-lengths';
import { parseXmlTree, type XmlElement } from './xml-tree';

interface Walk {
  tally: EntityTally;
  entities: OutlineEntity[];
  byId: ReadonlyMap<string, XmlElement>;
  usedIds: ReadonlySet<string>;
  looksLeft: number;
}

/** Elements looked at, those that are used again included. */
const MOST_LOOKS = 200_000;

/** Elements used by elements used; deeper ones are not met, and one that uses itself has no end. */
const DEEPEST_USE = 32;

/** What is drawn only where something else asks for it. */
const NOT_DRAWN = new Set([
  'defs',
  'symbol',
  'clipPath',
  'mask',
  'marker',
  'pattern',
  'linearGradient',
  'radialGradient',
]);

/** What holds others and draws them. */
const GROUPS = new Set(['svg', 'g', 'a', 'switch']);

/** What draws nothing by its nature. */
const SILENT = new Set(['title', 'desc', 'metadata', 'style', 'script', 'namedview', 'stop', 'filter', 'view']);

/**
 * Reads the outline shapes of an SVG file: paths and the basic shapes, with their transforms, and what `use` puts in.
 *
 * @param text the file as text
 * @param name shown in sentences
 * @throws ExpectedProblem with one sentence when the file is no SVG, is cut short or damaged
 */
export function parseSvg(text: string, name: string): OutlineDrawing {
  const root = parseXmlTree(text, name);
  if (root.name !== 'svg') {
    throw new ExpectedProblem('outline-not-svg', `${name} is XML, but no SVG drawing.`, name);
  }
  const { place, unit } = getRootPlace(root);
  const { byId, usedIds } = collectIds(root);
  const walk: Walk = { tally: new EntityTally(), entities: [], byId, usedIds, looksLeft: MOST_LOOKS };
  // SVG counts y down, outlines up.
  const upright = composeAffine(getScale(1, -1), place);
  for (const child of root.children) visit(walk, child, upright, '', 0);
  const isCut = walk.looksLeft <= 0 || walk.entities.length >= MOST_SHAPES;
  const remarks = isCut ? ['The drawing holds more than is read of one, so part of it is missing.'] : [];
  return { format: 'svg', entities: walk.entities, counts: walk.tally.list(), declaredUnit: unit, remarks };
}

/**
 * How user units lie in the unit of the file's own width and height. Without those, or in bare numbers, the file does not
 * say: many drawings are exported with 1 user unit for 1 mm.
 *
 * Source: W3C, SVG 2, sections 8.2 and 8.6, viewBox and preserveAspectRatio (its default keeps the aspect ratio).
 */
function getRootPlace({ attributes }: XmlElement): { place: Affine; unit: FileUnit | null } {
  const [left = 0, top = 0, boxWidth = 0, boxHeight = 0] = parseSvgNumbers(attributes.viewBox);
  const [width, height] = [parseSvgLength(attributes.width), parseSvgLength(attributes.height)];
  const said = width?.unit ?? height?.unit ?? null;
  if (said === null || said === 'px' || !(boxWidth > 0 && boxHeight > 0)) {
    // Without a viewBox a user unit is a pixel of 1/96 in, whatever the width says.
    const hasPixels = said !== null && !(boxWidth > 0 && boxHeight > 0);
    return { place: IDENTITY, unit: hasPixels ? 'px' : null };
  }
  const scales = [getUserScale(width, boxWidth, said), getUserScale(height, boxHeight, said)].filter(
    (scale) => scale !== null,
  );
  const scale = Math.min(...scales);
  if (!(scale > 0 && Number.isFinite(scale))) return { place: IDENTITY, unit: null };
  return { place: composeAffine(getScale(scale, scale), getMove(-left, -top)), unit: said };
}

function getUserScale(length: ReturnType<typeof parseSvgLength>, box: number, unit: FileUnit): number | null {
  if (length === null || length.unit === null) return null;
  return (length.value * FILE_UNIT_SIZES[length.unit]) / FILE_UNIT_SIZES[unit] / box;
}

function collectIds(root: XmlElement): Pick<Walk, 'byId' | 'usedIds'> {
  const byId = new Map<string, XmlElement>();
  const usedIds = new Set<string>();
  const waiting = [root];
  for (let element = waiting.pop(); element !== undefined; element = waiting.pop()) {
    const { id } = element.attributes;
    if (id !== undefined && !byId.has(id)) byId.set(id, element);
    if (element.name === 'use') usedIds.add(getUsedId(element));
    waiting.push(...element.children);
  }
  usedIds.delete('');
  return { byId, usedIds };
}

/** Id of what a `use` puts in; '' when it is not in this file. */
function getUsedId({ attributes }: XmlElement): string {
  const reference = attributes.href ?? attributes['xlink:href'] ?? '';
  return reference.startsWith('#') ? reference.slice(1) : '';
}

function visit(walk: Walk, element: XmlElement, place: Affine, layer: string, depth: number): void {
  if (walk.looksLeft <= 0) return;
  walk.looksLeft -= 1;
  const { name, attributes } = element;
  if (SILENT.has(name)) return;
  if (NOT_DRAWN.has(name)) {
    skipAll(walk, element, 'kept for use elsewhere, not drawn here');
    return;
  }
  if (isHidden(attributes)) {
    skipAll(walk, element, 'marked as not visible');
    return;
  }
  const own = getTransform(attributes.transform);
  if (own === null) {
    skipAll(walk, element, 'its transform cannot be used');
    return;
  }
  const here = composeAffine(place, own);
  if (name === 'use') {
    visitUse(walk, element, here, layer, depth);
    return;
  }
  if (SHAPE_NAMES.has(name)) {
    addShapes(walk, element, here, layer);
    return;
  }
  if (!GROUPS.has(name)) {
    walk.tally.addSkipped(name, 'not a kind that outlines are drawn with');
    return;
  }
  if (name === 'svg') {
    skipAll(walk, element, 'a drawing within the drawing');
    return;
  }
  const onLayer = attributes.id ?? layer;
  for (const child of element.children) visit(walk, child, here, onLayer, depth);
}

function visitUse(walk: Walk, use: XmlElement, place: Affine, layer: string, depth: number): void {
  const { attributes } = use;
  const target = walk.byId.get(getUsedId(use));
  if (target === undefined) {
    walk.tally.addSkipped('use', 'what it refers to is not in the file');
    return;
  }
  if (depth >= DEEPEST_USE) {
    walk.tally.addSkipped('use', 'uses within uses go too deep');
    return;
  }
  walk.tally.addRead('use');
  const at = getMove(parseSvgLength(attributes.x)?.value ?? 0, parseSvgLength(attributes.y)?.value ?? 0);
  const here = composeAffine(place, at);
  const isHolder = target.name === 'symbol' || target.name === 'svg';
  for (const child of isHolder ? target.children : [target]) visit(walk, child, here, layer, depth + 1);
}

function addShapes(walk: Walk, element: XmlElement, place: Affine, layer: string): void {
  const { shapes, fault } = readElementShapes(element);
  const placed = shapes.map((shape) => transformShape(place, shape)).filter(isFiniteShape);
  if (fault !== null) walk.tally.addSkipped(element.name, fault);
  else if (placed.length < shapes.length) walk.tally.addSkipped(element.name, 'a figure in it is no number');
  else walk.tally.addRead(element.name);
  const room = MOST_SHAPES - walk.entities.length;
  if (placed.length > room) walk.tally.addSkipped(element.name, 'the drawing has more shapes than are read');
  for (const shape of placed.slice(0, room)) walk.entities.push({ shape, layer });
}

function skipAll(walk: Walk, element: XmlElement, reason: string): void {
  const waiting = [element];
  for (let next = waiting.pop(); next !== undefined; next = waiting.pop()) {
    // What is put in elsewhere is counted there.
    if (walk.usedIds.has(next.attributes.id ?? '')) continue;
    if (SHAPE_NAMES.has(next.name) || next.name === 'use' || next.name === 'text' || next.name === 'image') {
      walk.tally.addSkipped(next.name, reason);
    }
    waiting.push(...next.children);
  }
}

function isHidden({ display, visibility, style = '' }: XmlElement['attributes']): boolean {
  return (
    display === 'none' ||
    visibility === 'hidden' ||
    visibility === 'collapse' ||
    /(?:^|;)\s*(?:display\s*:\s*none|visibility\s*:\s*(?:hidden|collapse))\b/u.test(style)
  );
}

/** The transform of an element; null when it cannot be read or presses everything flat. */
function getTransform(text: string | undefined): Affine | null {
  if (text === undefined || text.trim() === '') return IDENTITY;
  const corners: [number, number][] = [];
  // Three points tell an affine change of place: the origin and the ends of the two axes.
  const path = svgpath('M0 0L1 0L0 1').transform(text);
  path.iterate((segment) => {
    corners.push([segment[1] as number, segment[2] as number]);
  });
  const [origin, x, y] = corners;
  if (origin === undefined || x === undefined || y === undefined) return null;
  const place: Affine = {
    a: x[0] - origin[0],
    b: x[1] - origin[1],
    c: y[0] - origin[0],
    d: y[1] - origin[1],
    e: origin[0],
    f: origin[1],
  };
  const isUsable = Object.values(place).every(Number.isFinite) && getDeterminant(place) !== 0;
  return isUsable ? place : null;
}
