import type { OutlineDrawing } from '../../../shared/outline/outline-drawing';
import { ExpectedProblem } from '../expected-problem';
import { decodeText } from './decode-text';
import { parseDxf } from './dxf/parse-dxf';
import { parseSvg } from './svg/parse-svg';

/** What the binary form of DXF begins with, after the first word. */
const BINARY_DXF = ' Binary DXF\r\n';

/**
 * Reads a drawing, DXF or SVG by what is in it and not by its name.
 *
 * @param name shown in sentences
 * @throws ExpectedProblem with one sentence when it is neither, or cannot be read
 */
export function parseDrawing(bytes: Uint8Array, name: string): OutlineDrawing {
  if (bytes.length === 0) throw new ExpectedProblem('outline-empty', `${name} is empty.`, name);
  if (Buffer.from(bytes.subarray(0, 40)).toString('latin1').includes(BINARY_DXF)) {
    throw new ExpectedProblem(
      'outline-binary',
      `${name} is a binary DXF file; save it as an ASCII DXF file and read that.`,
      name,
    );
  }
  const text = decodeText(bytes);
  if (text.includes('\u0000')) {
    throw new ExpectedProblem('outline-not-text', `${name} is no text, so it is no DXF and no SVG drawing.`, name);
  }
  return /^\s*</u.test(text) ? parseSvg(text, name) : parseDxf(text, name);
}
