import type { Mark, Point, TextMark } from '../../../shared/drawing/marks';
import { getRuns } from '../../../shared/drawing/paths';
import { getTextWidth } from '../../../shared/drawing/text-width';

interface Box {
  text: string;
  left: number;
  right: number;
  bottom: number;
  top: number;
}

/** Part of a letter's height that hangs below the baseline; commas and tails of g and y. */
const TAIL = 0.2;

/**
 * Pairs of texts of a drawing whose boxes meet, as `first | second`. Level texts only: the drawings have no others.
 *
 * @param tolerance how far boxes may reach into each other, in the drawing's mm
 */
export function findTextOverlaps(marks: readonly Mark[], tolerance: number): string[] {
  const boxes = marks.filter((mark) => mark.kind === 'text').map(getBox);
  boxes.sort((a, b) => a.bottom - b.bottom);
  const pairs: string[] = [];
  for (const [index, a] of boxes.entries()) {
    for (let next = index + 1; next < boxes.length; next += 1) {
      const b = boxes[next];
      if (!b || b.bottom >= a.top - tolerance) {
        break;
      }
      if (a.left < b.right - tolerance && b.left < a.right - tolerance) {
        pairs.push(`${a.text} | ${b.text}`);
      }
    }
  }
  return pairs;
}

/** Texts that reach beyond a rectangle. */
export function findTextsOutside(
  marks: readonly Mark[],
  area: { left: number; right: number; bottom: number; top: number },
): string[] {
  return marks
    .filter((mark) => mark.kind === 'text')
    .map(getBox)
    .filter(
      (box) =>
        box.left < area.left - 0.01 ||
        box.right > area.right + 0.01 ||
        box.bottom < area.bottom - 0.5 ||
        box.top > area.top + 0.01,
    )
    .map((box) => box.text);
}

/**
 * Figures of dimensions that a line of a dimension runs through, as `figure at x`.
 *
 * @param tolerance how far a line may reach into a figure, in the drawing's mm
 */
export function findFiguresCrossed(marks: readonly Mark[], tolerance: number): string[] {
  const own = marks.filter((mark) => mark.layer === 'dimension');
  const lines = own
    .filter((mark) => mark.kind === 'path')
    .filter((mark) => mark.fill === 'none')
    .flatMap((mark) => getRuns(mark.segments))
    .flatMap(({ points }) => points.slice(1).map((to, index) => ({ from: points[index] ?? to, to })));
  return own
    .filter((mark) => mark.kind === 'text')
    .map(getBox)
    .filter((box) => lines.some((line) => runsThrough(line, box, tolerance)))
    .map((box) => `${box.text} at ${box.left.toFixed(1)}`);
}

/** Liang and Barsky's clipping of a line by a box: something of it is left. */
function runsThrough({ from, to }: { from: Point; to: Point }, box: Box, tolerance: number): boolean {
  let [start, end] = [0, 1];
  const cut = (step: number, room: number): void => {
    if (step === 0 && room <= 0) end = -1;
    if (step < 0) start = Math.max(start, room / step);
    if (step > 0) end = Math.min(end, room / step);
  };
  cut(from.x - to.x, from.x - box.left - tolerance);
  cut(to.x - from.x, box.right - tolerance - from.x);
  cut(from.y - to.y, from.y - box.bottom - tolerance);
  cut(to.y - from.y, box.top - tolerance - from.y);
  return start < end;
}

function getBox(mark: TextMark): Box {
  const width = getTextWidth(mark.text, mark.size, mark.weight);
  const left = mark.at.x - { start: 0, middle: width / 2, end: width }[mark.anchor];
  return {
    text: mark.text,
    left,
    right: left + width,
    bottom: mark.at.y - TAIL * mark.size,
    top: mark.at.y + mark.size,
  };
}
