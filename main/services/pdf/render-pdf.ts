import PDFDocument from 'pdfkit';
import { FILL_STYLES } from '../../../shared/drawing/fills';
import { computeHatch } from '../../../shared/drawing/hatch';
import { getInk, HATCH_INK, HATCH_WIDTH } from '../../../shared/drawing/inks';
import type { PathMark, Segment, TextMark } from '../../../shared/drawing/marks';
import { getArcCurves } from '../../../shared/drawing/paths';
import { PEN_STYLES } from '../../../shared/drawing/pens';
import type { SheetPage } from '../../../shared/drawing/sheet/page';
import { getEmSize } from '../../../shared/drawing/text-width';
import type { PdfFonts } from './load-fonts';
import { splitByFont } from './split-by-font';
import { getVisualRuns } from './visual-runs';

export interface PdfInfo {
  title: string;
  author: string;
  subject: string;
  /** ISO date of the plan, or ''; the file carries no other date, so that the same plan gives the same bytes. */
  date: string;
}

const POINTS_PER_MM = 72 / 25.4;
/** Stands in where a plan has no date. */
const NO_DATE = '2000-01-01';
const FONT_NAMES = { regular: 'regular', semibold: 'semibold' } as const;

/**
 * Pages of marks as a PDF: vectors in true size, text as text in embedded subsets, an outline entry a page.
 *
 * @returns the file's bytes, the same for the same input
 */
export async function renderPdf(pages: readonly SheetPage[], info: PdfInfo, fonts: PdfFonts): Promise<Uint8Array> {
  const document = new PDFDocument({
    autoFirstPage: false,
    margin: 0,
    compress: true,
    pdfVersion: '1.7',
    displayTitle: true,
    lang: 'en',
    info: {
      Title: info.title,
      Author: info.author,
      Subject: info.subject,
      Creator: 'Kerfgrip',
      Producer: 'Kerfgrip',
      CreationDate: getDate(info.date),
    },
  });
  const bytes = collectBytes(document);
  const pen = new PagePen(document, fonts);
  for (const page of pages) {
    document.addPage({ size: [page.width * POINTS_PER_MM, page.height * POINTS_PER_MM], margin: 0 });
    for (const section of page.sections) {
      document.outline.addItem(section);
    }
    pen.drawPage(page);
  }
  document.end();
  return bytes;
}

function getDate(isoDate: string): Date {
  const date = new Date(`${isoDate}T00:00:00Z`);
  return Number.isNaN(date.getTime()) ? new Date(`${NO_DATE}T00:00:00Z`) : date;
}

function collectBytes(document: PDFKit.PDFDocument): Promise<Uint8Array> {
  return new Promise((resolve, reject) => {
    const chunks: Uint8Array[] = [];
    document.on('data', (chunk: Uint8Array) => chunks.push(chunk));
    document.on('end', () => resolve(Buffer.concat(chunks)));
    document.on('error', reject);
  });
}

/** What pdfkit knows of its current font and does not declare. */
interface FontInUse {
  _font: { font: { hasGlyphForCodePoint(codePoint: number): boolean } };
}

/** What one font sets at a time, and how. */
interface SetRun {
  font: string;
  text: string;
  options: { features?: PDFKit.Mixins.OpenTypeFeatures[] };
}

/** With a list of features, even an empty one, pdfkit has a text set as a whole; else word by word from the left. */
const WHOLE_RUN = { features: [] };

/** Letters that the font's own rules set from right to left; signs and spaces by themselves they leave as they are. */
function isTurnedByFont(text: string): boolean {
  return /[\p{Script=Hebrew}\p{Script=Arabic}\p{Script=Syriac}\p{Script=Thaana}\p{Script=Nko}]/u.test(text);
}

/** Draws marks on the current page of a document, in mm with Y turned down as pdfkit has it. */
class PagePen {
  readonly #document: PDFKit.PDFDocument;
  readonly #fallbackNames: string[];
  readonly #glyphs = new Map<string, boolean>();
  #height = 0;

  constructor(document: PDFKit.PDFDocument, fonts: PdfFonts) {
    this.#document = document;
    document.registerFont(FONT_NAMES.regular, Buffer.from(fonts.regular));
    document.registerFont(FONT_NAMES.semibold, Buffer.from(fonts.semibold));
    this.#fallbackNames = fonts.fallbacks.map((font, index) => {
      document.registerFont(`fallback-${index}`, Buffer.from(font));
      return `fallback-${index}`;
    });
  }

  drawPage(page: SheetPage): void {
    this.#height = page.height;
    this.#document.save().scale(POINTS_PER_MM, POINTS_PER_MM).lineJoin('round');
    for (const mark of page.marks) {
      if (mark.kind === 'text') {
        this.#drawText(mark);
      } else {
        this.#drawPath(mark);
      }
    }
    this.#document.restore();
  }

  #drawPath(mark: PathMark): void {
    const { ground, hatch } = FILL_STYLES[mark.fill];
    if (ground !== null) {
      this.#trace(mark.segments);
      this.#document.fill(ground, 'even-odd');
    }
    const strokes = hatch.flatMap((lines) => computeHatch(mark.segments, lines, 1));
    if (strokes.length > 0) {
      for (const { from, to } of strokes) {
        this.#document.moveTo(round(from.x), this.#down(from.y)).lineTo(round(to.x), this.#down(to.y));
      }
      this.#document.undash().lineWidth(HATCH_WIDTH).stroke(HATCH_INK);
    }
    const { width, dashes } = PEN_STYLES[mark.pen];
    if (width > 0) {
      this.#trace(mark.segments);
      // pdfkit takes a list of lengths; its types only know the single one.
      const dashed = dashes.length > 0 ? this.#document.dash(dashes as unknown as number, {}) : this.#document.undash();
      dashed.lineWidth(width).stroke(getInk(mark.layer));
    }
  }

  #trace(segments: readonly Segment[]): void {
    const document = this.#document;
    for (const segment of segments) {
      switch (segment.op) {
        case 'move':
          document.moveTo(round(segment.x), this.#down(segment.y));
          break;
        case 'line':
          document.lineTo(round(segment.x), this.#down(segment.y));
          break;
        case 'arc':
          for (const curve of getArcCurves(segment)) {
            this.#traceCurve(curve);
          }
          break;
        case 'curve':
          this.#traceCurve(segment);
          break;
        case 'close':
          document.closePath();
          break;
        default:
          segment satisfies never;
      }
    }
  }

  #traceCurve(curve: Segment & { op: 'curve' }): void {
    this.#document.bezierCurveTo(
      round(curve.x1),
      this.#down(curve.y1),
      round(curve.x2),
      this.#down(curve.y2),
      round(curve.x),
      this.#down(curve.y),
    );
  }

  #drawText(mark: TextMark): void {
    const document = this.#document;
    document.fontSize(getEmSize(mark.size)).fillColor(getInk(mark.layer));
    const runs = this.#getRuns(mark);
    const widths = runs.map(({ font, text, options }) => document.font(font).widthOfString(text, options));
    const width = widths.reduce((sum, each) => sum + each, 0);
    const y = this.#down(mark.at.y);
    if (mark.angle !== 0) {
      document.save().rotate((-mark.angle * 180) / Math.PI, { origin: [mark.at.x, y] });
    }
    let x = mark.at.x - { start: 0, middle: width / 2, end: width }[mark.anchor];
    for (const [index, { font, text, options }] of runs.entries()) {
      document.font(font).text(text, round(x), y, { lineBreak: false, baseline: 'alphabetic', ...options });
      x += widths[index] ?? 0;
    }
    if (mark.angle !== 0) {
      document.restore();
    }
  }

  /** A text in pieces of one font and one direction, from left to right. */
  #getRuns({ text, weight }: TextMark): SetRun[] {
    const fonts: [string, ...string[]] = [FONT_NAMES[weight], ...this.#fallbackNames];
    return getVisualRuns(cleanText(text)).flatMap((visual) => {
      const runs = splitByFont(visual.text, fonts, (font, codePoint) => this.#hasGlyph(font, codePoint));
      if (!visual.isRightToLeft) return runs.map((run) => ({ ...run, options: {} }));
      return runs.toReversed().map((run) => ({
        font: run.font,
        text: isTurnedByFont(run.text) ? run.text : [...run.text].toReversed().join(''),
        options: WHOLE_RUN,
      }));
    });
  }

  #hasGlyph(font: string, codePoint: number): boolean {
    const key = `${font}:${codePoint}`;
    let known = this.#glyphs.get(key);
    if (known === undefined) {
      this.#document.font(font);
      known = (this.#document as unknown as FontInUse)._font.font.hasGlyphForCodePoint(codePoint);
      this.#glyphs.set(key, known);
    }
    return known;
  }

  #down(y: number): number {
    return round(this.#height - y);
  }
}

/** Control characters have no glyph and would end the text early in some readers. */
function cleanText(text: string): string {
  return text.replace(/\p{Cc}/gu, ' ');
}

function round(mm: number): number {
  return Math.round(mm * 10000) / 10000;
}
