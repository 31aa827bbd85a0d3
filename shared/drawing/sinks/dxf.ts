import { FILL_STYLES } from '../fills';
import { computeHatch } from '../hatch';
import type { Mark, PathMark, Pen, Point, Segment, TextMark, View } from '../marks';
import { getArcEnd, getRuns } from '../paths';
import { PEN_STYLES } from '../pens';
import {
  addEntity,
  addPairs,
  buildDxfText,
  createDxfFile,
  type DxfFile,
  type DxfLayer,
  type DxfLineType,
} from './dxf-file';

/** Colour index by layer; 7 is black on white and white on black. */
const LAYER_COLOURS: Partial<Record<Mark['layer'], number>> = {
  part: 7,
  bar: 32,
  cleanup: 42,
  allowance: 40,
  kerf: 30,
  rib: 5,
  tab: 5,
  jaw: 8,
  vise: 8,
  table: 9,
  cutter: 4,
  holder: 4,
  dimension: 3,
  centre: 1,
  section: 5,
  hidden: 6,
  finding: 1,
};
const HATCH_LAYER = 'HATCH';
const LINE_TYPES: Readonly<Record<Pen, string>> = {
  none: 'Continuous',
  wide: 'Continuous',
  narrow: 'Continuous',
  hair: 'Continuous',
  dashed: 'HIDDEN',
  chain: 'CENTER',
};
const alternate = (lengths: readonly number[]): number[] =>
  lengths.map((length, index) => (index % 2 === 0 ? length : -length));
const FILE_LINE_TYPES: readonly DxfLineType[] = [
  { name: 'HIDDEN', pattern: alternate(PEN_STYLES.dashed.dashes) },
  { name: 'CENTER', pattern: alternate(PEN_STYLES.chain.dashes) },
];
const FULL_TURN = 2 * Math.PI;

/**
 * A view as an ASCII DXF file (release 2000 text form) in true size, units set to mm. Layers are named by what they hold;
 * arcs stay arcs; text beyond ASCII is written as `\U+XXXX`.
 */
export function toDxf(view: View): string {
  const file = createDxfFile();
  const layers = new Map<string, DxfLayer>();
  for (const mark of view.marks) {
    const name = getLayerName(mark.layer);
    layers.set(name, { name, colour: LAYER_COLOURS[mark.layer] ?? 7, lineType: 'Continuous' });
    if (mark.kind === 'text') {
      addDxfText(file, mark);
    } else {
      addDxfPath(file, mark, view.mmPerPaperMm, layers);
    }
  }
  return buildDxfText(file, [...layers.values()], FILE_LINE_TYPES, view.bounds, view.mmPerPaperMm);
}

function getLayerName(layer: Mark['layer']): string {
  return layer.toUpperCase();
}

function addDxfPath(file: DxfFile, mark: PathMark, mmPerPaperMm: number, layers: Map<string, DxfLayer>): void {
  for (const lines of FILL_STYLES[mark.fill].hatch) {
    layers.set(HATCH_LAYER, { name: HATCH_LAYER, colour: 8, lineType: 'Continuous' });
    for (const { from, to } of computeHatch(mark.segments, lines, mmPerPaperMm)) {
      addDxfLine(file, HATCH_LAYER, from, to, 'narrow');
    }
  }
  if (mark.pen !== 'none') {
    addOutline(file, mark, mark.pen);
  } else if (mark.fill === 'ink' || mark.fill === 'accent') {
    addSolid(file, mark);
  }
}

/** Paths of straight pieces become one polyline; where arcs are among them each piece stands alone, so that arcs stay arcs. */
function addOutline(file: DxfFile, mark: PathMark, pen: Pen): void {
  const layer = getLayerName(mark.layer);
  if (!mark.segments.some((segment) => segment.op === 'arc')) {
    for (const run of getRuns(mark.segments)) {
      addPolyline(file, layer, run.points, run.closed, pen);
    }
    return;
  }
  let start: Point = { x: 0, y: 0 };
  let at: Point = start;
  for (const segment of mark.segments) {
    const end = getSegmentEnd(segment, start);
    switch (segment.op) {
      case 'move':
        start = end;
        break;
      case 'line':
      case 'close':
        addDxfLine(file, layer, at, end, pen);
        break;
      case 'arc':
        addDxfLine(file, layer, at, getArcEnd(segment, segment.start), pen);
        addArc(file, layer, segment, pen);
        break;
      case 'curve':
        addPolyline(file, layer, getRuns([{ op: 'move', ...at }, segment])[0]?.points ?? [], false, pen);
        break;
      default:
        segment satisfies never;
    }
    at = end;
  }
}

function getSegmentEnd(segment: Segment, start: Point): Point {
  switch (segment.op) {
    case 'close':
      return start;
    case 'arc':
      return getArcEnd(segment, segment.end);
    default:
      return { x: segment.x, y: segment.y };
  }
}

function addDxfLine(file: DxfFile, layer: string, from: Point, to: Point, pen: Pen): void {
  if (Math.hypot(to.x - from.x, to.y - from.y) < 1e-9) {
    return;
  }
  startEntity(file, 'LINE', layer, 'AcDbLine', pen);
  addPairs(file, 10, from.x, 20, from.y, 30, 0, 11, to.x, 21, to.y, 31, 0);
}

function addPolyline(file: DxfFile, layer: string, points: readonly Point[], closed: boolean, pen: Pen): void {
  startEntity(file, 'LWPOLYLINE', layer, 'AcDbPolyline', pen);
  addPairs(file, 90, String(points.length), 70, closed ? '1' : '0');
  for (const point of points) {
    addPairs(file, 10, point.x, 20, point.y);
  }
}

function addArc(file: DxfFile, layer: string, arc: Segment & { op: 'arc' }, pen: Pen): void {
  const full = Math.abs(arc.end - arc.start) >= FULL_TURN - 1e-9;
  startEntity(file, full ? 'CIRCLE' : 'ARC', layer, 'AcDbCircle', pen);
  addPairs(file, 10, arc.cx, 20, arc.cy, 30, 0, 40, arc.radius);
  if (!full) {
    const [from, to] = arc.end > arc.start ? [arc.start, arc.end] : [arc.end, arc.start];
    addPairs(file, 100, 'AcDbArc', 50, toDegrees(from), 51, toDegrees(to));
  }
}

function toDegrees(angleRad: number): number {
  const degrees = (angleRad * 180) / Math.PI;
  return ((degrees % 360) + 360) % 360;
}

/** Arrow heads and dots: a solid where three or four corners do, else the outline. */
function addSolid(file: DxfFile, mark: PathMark): void {
  const layer = getLayerName(mark.layer);
  for (const run of getRuns(mark.segments, 0.1)) {
    const [a, b, c, d] = run.points;
    if (a && b && c && run.points.length <= 4) {
      // The third and fourth corner of a solid stand crosswise.
      const last = d ?? c;
      addEntity(file, 'SOLID', layer, 'AcDbTrace');
      addPairs(file, 10, a.x, 20, a.y, 30, 0, 11, b.x, 21, b.y, 31, 0);
      addPairs(file, 12, last.x, 22, last.y, 32, 0, 13, c.x, 23, c.y, 33, 0);
    } else {
      addOutline(file, mark, 'narrow');
      return;
    }
  }
}

function startEntity(file: DxfFile, type: string, layer: string, subclass: string, pen: Pen): void {
  addEntity(file, type, layer, subclass);
  // Line type and weight belong before the subclass marker of the entity's own data.
  const marker = file.lines.splice(-2);
  if (LINE_TYPES[pen] !== 'Continuous') {
    addPairs(file, 6, LINE_TYPES[pen]);
  }
  addPairs(file, 370, String(Math.round(PEN_STYLES[pen].width * 100)));
  file.lines.push(...marker);
}

const ANCHORS = { start: '0', middle: '1', end: '2' } as const;

function addDxfText(file: DxfFile, mark: TextMark): void {
  addEntity(file, 'TEXT', getLayerName(mark.layer), 'AcDbText');
  addPairs(file, 10, mark.at.x, 20, mark.at.y, 30, 0, 40, mark.size, 1, escapeDxf(mark.text));
  addPairs(file, 50, toDegrees(mark.angle), 72, ANCHORS[mark.anchor]);
  addPairs(file, 11, mark.at.x, 21, mark.at.y, 31, 0, 100, 'AcDbText', 73, '0');
}

/** Text for a DXF string: control characters become spaces, signs with a meaning of their own and all beyond ASCII are escaped. */
export function escapeDxf(text: string): string {
  return Array.from(text.replace(/\p{Cc}+/gu, ' '))
    .map((character) => {
      if (character === '^') {
        return '^ ';
      }
      return character === '\\' || character > '~' ? escapeUnits(character) : character;
    })
    .join('')
    .replaceAll('%%', '%%%%%%');
}

/** Each UTF-16 unit by itself, since the form has four digits. */
function escapeUnits(character: string): string {
  return character
    .split('')
    .map((unit) => `\\U+${unit.charCodeAt(0).toString(16).toUpperCase().padStart(4, '0')}`)
    .join('');
}
