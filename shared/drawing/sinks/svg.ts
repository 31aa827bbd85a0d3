import { FILL_STYLES } from '../fills';
import { computeHatch } from '../hatch';
import { getInk, HATCH_INK, HATCH_WIDTH } from '../inks';
import type { Mark, PathMark, Segment, TextMark, View } from '../marks';
import { getArcEnd } from '../paths';
import { PEN_STYLES } from '../pens';
import { getEmSize, getTextWidth } from '../text-width';
import type { Bounds } from './bounds';

export interface SvgOptions {
  /** Size on paper over true size; default 1, which is true size. */
  scale?: number;
  /** Text of the file's title; default the view's. */
  title?: string;
}

const DIGITS = 4;

/**
 * A view as an SVG file in true size: one user unit is one mm of the drawing, Y down.
 *
 * @returns the file's text; every text mark escaped, one class a layer, features as `data-feature`
 */
export function toSvg(view: View, options: SvgOptions = {}): string {
  const { bounds } = view;
  const scale = options.scale ?? 1;
  return [
    getHeader(bounds, scale),
    `<title>${escapeXml(options.title ?? view.title)}</title>`,
    renderSvgMarks(view.marks, bounds.top, view.mmPerPaperMm),
    '</svg>\n',
  ].join('\n');
}

function getHeader(bounds: Bounds, scale: number): string {
  const width = bounds.right - bounds.left;
  const height = bounds.top - bounds.bottom;
  const size = `width="${round(width * scale)}mm" height="${round(height * scale)}mm"`;
  const box = `viewBox="${round(bounds.left)} 0 ${round(width)} ${round(height)}"`;
  return `<svg xmlns="http://www.w3.org/2000/svg" ${size} ${box} font-family="'IBM Plex Sans', 'DejaVu Sans', sans-serif">`;
}

/**
 * Marks as SVG elements.
 *
 * @param top Y of the drawing that comes to the top of the picture
 */
export function renderSvgMarks(marks: readonly Mark[], top: number, mmPerPaperMm: number): string {
  return marks
    .map((mark) => (mark.kind === 'text' ? renderText(mark, top) : renderPath(mark, top, mmPerPaperMm)))
    .join('\n');
}

function renderText(mark: TextMark, top: number): string {
  const turn =
    mark.angle === 0
      ? ''
      : ` transform="rotate(${round((-mark.angle * 180) / Math.PI)} ${round(mark.at.x)} ${round(top - mark.at.y)})"`;
  const weight = mark.weight === 'semibold' ? ' font-weight="600"' : '';
  return (
    `<text class="${mark.layer}"${getFeature(mark)} x="${round(mark.at.x)}" y="${round(top - mark.at.y)}"` +
    ` font-size="${round(getEmSize(mark.size))}" text-anchor="${mark.anchor}"${getLengthHint(mark)}${weight} fill="${getInk(mark.layer)}"${turn}>` +
    `${escapeXml(mark.text)}</text>`
  );
}

/** Keeps the text as wide as the drawing counts on when a viewer sets it in another font. */
function getLengthHint(mark: TextMark): string {
  const width = getTextWidth(mark.text, mark.size, mark.weight);
  return width > 0 ? ` textLength="${round(width)}" lengthAdjust="spacingAndGlyphs"` : '';
}

function renderPath(mark: PathMark, top: number, mmPerPaperMm: number): string {
  const outline = getPathData(mark.segments, top);
  const { ground, hatch } = FILL_STYLES[mark.fill];
  const pieces: string[] = [];
  if (ground !== null) {
    pieces.push(
      `<path class="${mark.layer} fill-${mark.fill}"${getFeature(mark)} d="${outline}" fill="${ground}" fill-rule="evenodd"/>`,
    );
  }
  const strokes = hatch.flatMap((lines) => computeHatch(mark.segments, lines, mmPerPaperMm));
  if (strokes.length > 0) {
    const data = strokes
      .map(({ from, to }) => `M${round(from.x)} ${round(top - from.y)}L${round(to.x)} ${round(top - to.y)}`)
      .join('');
    pieces.push(
      `<path class="${mark.layer} hatch" d="${data}" fill="none" stroke="${HATCH_INK}" stroke-width="${round(HATCH_WIDTH * mmPerPaperMm)}"/>`,
    );
  }
  const { width, dashes } = PEN_STYLES[mark.pen];
  if (width > 0) {
    const dashArray =
      dashes.length > 0 ? ` stroke-dasharray="${dashes.map((dash) => round(dash * mmPerPaperMm)).join(' ')}"` : '';
    pieces.push(
      `<path class="${mark.layer} pen-${mark.pen}"${getFeature(mark)} d="${outline}" fill="none" stroke="${getInk(mark.layer)}"` +
        ` stroke-width="${round(width * mmPerPaperMm)}" stroke-linejoin="round"${dashArray}/>`,
    );
  }
  return pieces.join('\n');
}

/** A path's data with Y turned down. */
export function getPathData(segments: readonly Segment[], top: number): string {
  const at = (x: number, y: number): string => `${round(x)} ${round(top - y)}`;
  return segments
    .map((segment) => {
      switch (segment.op) {
        case 'move':
          return `M${at(segment.x, segment.y)}`;
        case 'line':
          return `L${at(segment.x, segment.y)}`;
        case 'arc':
          return getArcData(segment, top);
        case 'curve':
          return `C${at(segment.x1, segment.y1)} ${at(segment.x2, segment.y2)} ${at(segment.x, segment.y)}`;
        case 'close':
          return 'Z';
        default:
          return segment satisfies never;
      }
    })
    .join('');
}

/** An arc as half turns at most, since a full circle has no end of its own in a path. */
function getArcData(arc: Segment & { op: 'arc' }, top: number): string {
  const count = Math.max(1, Math.ceil(Math.abs(arc.end - arc.start) / Math.PI - 1e-9));
  const sweep = arc.end > arc.start ? 0 : 1;
  return Array.from({ length: count }, (_unused, index) => {
    const end = getArcEnd(arc, arc.start + ((arc.end - arc.start) * (index + 1)) / count);
    return `A${round(arc.radius)} ${round(arc.radius)} 0 0 ${sweep} ${round(end.x)} ${round(top - end.y)}`;
  }).join('');
}

function getFeature(mark: Mark): string {
  return mark.feature ? ` data-feature="${escapeXml(`${mark.feature.kind}:${mark.feature.id}`)}"` : '';
}

function round(value: number): number {
  const rounded = Number(value.toFixed(DIGITS));
  return rounded === 0 ? 0 : rounded;
}

/** Text for XML: reserved characters as entities; characters that XML 1.0 does not allow are left out. */
export function escapeXml(text: string): string {
  const allowed = Array.from(text).filter((character) => isXmlCharacter(character.codePointAt(0) ?? 0));
  return allowed
    .join('')
    .replaceAll('&', '&amp;')
    .replaceAll('<', '&lt;')
    .replaceAll('>', '&gt;')
    .replaceAll('"', '&quot;')
    .replaceAll("'", '&#39;');
}

function isXmlCharacter(code: number): boolean {
  return (
    code === 0x9 ||
    code === 0xa ||
    code === 0xd ||
    (code >= 0x20 && code <= 0xd7ff) ||
    (code >= 0xe000 && code <= 0xfffd) ||
    code >= 0x10000
  );
}
