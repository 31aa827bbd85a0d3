import { getDocument, OPS } from 'pdfjs-dist/legacy/build/pdf.mjs';

/** A path of a page in mm of paper: its box, 0 at the lower left corner of the page. */
export interface ReadPath {
  left: number;
  right: number;
  bottom: number;
  top: number;
}

export interface ReadPage {
  /** mm */
  width: number;
  height: number;
  text: string;
  paths: ReadPath[];
}

export interface ReadPdf {
  pages: ReadPage[];
  title: string;
  author: string;
  outline: string[];
}

const MM_PER_POINT = 25.4 / 72;
type Matrix = [number, number, number, number, number, number];

/** Reads a PDF with a reader that knows nothing of what wrote it. */
export async function readPdf(bytes: Uint8Array): Promise<ReadPdf> {
  const document = await getDocument({ data: new Uint8Array(bytes), useSystemFonts: false, verbosity: 0 }).promise;
  const pages: ReadPage[] = [];
  for (let number = 1; number <= document.numPages; number += 1) {
    const page = await document.getPage(number);
    const [left = 0, bottom = 0, right = 0, top = 0] = page.view;
    const content = await page.getTextContent();
    const operators = await page.getOperatorList();
    pages.push({
      width: (right - left) * MM_PER_POINT,
      height: (top - bottom) * MM_PER_POINT,
      text: content.items.map((item) => ('str' in item ? item.str : '')).join(' '),
      paths: readPaths(operators.fnArray, operators.argsArray),
    });
  }
  const { info } = await document.getMetadata();
  const outline = (await document.getOutline()) ?? [];
  const { Title: title = '', Author: author = '' } = info as { Title?: string; Author?: string };
  return { pages, title, author, outline: outline.map((item) => item.title) };
}

function readPaths(codes: readonly number[], args: readonly unknown[]): ReadPath[] {
  let matrix: Matrix = [1, 0, 0, 1, 0, 0];
  const saved: Matrix[] = [];
  const paths: ReadPath[] = [];
  for (const [index, code] of codes.entries()) {
    if (code === OPS.save) {
      saved.push(matrix);
    } else if (code === OPS.restore) {
      matrix = saved.pop() ?? [1, 0, 0, 1, 0, 0];
    } else if (code === OPS.transform) {
      matrix = multiply(matrix, args[index] as Matrix);
    } else if (code === OPS.constructPath) {
      const [, , box] = args[index] as [number, unknown, ArrayLike<number> | null];
      if (box) {
        paths.push(getBox(matrix, box));
      }
    }
  }
  return paths;
}

function multiply(a: Matrix, b: Matrix): Matrix {
  return [
    a[0] * b[0] + a[2] * b[1],
    a[1] * b[0] + a[3] * b[1],
    a[0] * b[2] + a[2] * b[3],
    a[1] * b[2] + a[3] * b[3],
    a[0] * b[4] + a[2] * b[5] + a[4],
    a[1] * b[4] + a[3] * b[5] + a[5],
  ];
}

/** The reader's own box of a path, brought onto the page. */
function getBox(matrix: Matrix, box: ArrayLike<number>): ReadPath {
  const [x0 = 0, y0 = 0, x1 = 0, y1 = 0] = Array.from(box);
  const corners = [
    [x0, y0],
    [x1, y1],
  ].map(([x = 0, y = 0]) => ({
    x: (matrix[0] * x + matrix[2] * y + matrix[4]) * MM_PER_POINT,
    y: (matrix[1] * x + matrix[3] * y + matrix[5]) * MM_PER_POINT,
  }));
  const xs = corners.map((corner) => corner.x);
  const ys = corners.map((corner) => corner.y);
  return { left: Math.min(...xs), right: Math.max(...xs), bottom: Math.min(...ys), top: Math.max(...ys) };
}
