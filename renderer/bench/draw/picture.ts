import type { Mark, PathMark, TextMark, View } from '../../../shared/drawing/marks';
import { type Bounds, measureBounds } from '../../../shared/drawing/sinks/bounds';

/** Something a canvas draws in one go. */
export type PictureItem =
  | { readonly kind: 'path'; readonly path: Path2D; readonly mark: PathMark; readonly bounds: Bounds }
  | { readonly kind: 'text'; readonly mark: TextMark; readonly ground: PathMark | null; readonly bounds: Bounds };

/** A view made ready for a canvas: paths compiled once, so that panning and dragging only draw them. */
export interface Picture {
  readonly view: View;
  readonly items: readonly PictureItem[];
}

/**
 * Compiles a view. Neighbouring lines of one pen that show no feature become one path, since a drawing has hundreds.
 */
export function buildPicture(view: View): Picture {
  const items: PictureItem[] = [];
  let run: PathMark[] = [];
  const grounds: { mark: PathMark; bounds: Bounds }[] = [];
  const finishRun = (): void => {
    const [first] = run;
    if (first !== undefined) items.push(buildPathItem(run, first));
    run = [];
  };
  for (const mark of view.marks) {
    if (mark.kind === 'text') {
      finishRun();
      items.push({ kind: 'text', mark, ground: findGround(grounds, mark), bounds: measureBounds([mark]) });
      continue;
    }
    const [first] = run;
    if (first !== undefined && !mayJoin(first, mark)) finishRun();
    run.push(mark);
    if (!mayJoin(mark, mark)) finishRun();
    if (mark.fill !== 'none') grounds.push({ mark, bounds: measureBounds([mark]) });
  }
  finishRun();
  return { view, items };
}

function mayJoin(one: PathMark, other: PathMark): boolean {
  return (
    one.fill === other.fill &&
    (one.fill === 'none' || (one.fill === 'ink' && one.pen === 'none')) &&
    one.pen === other.pen &&
    one.layer === other.layer &&
    one.feature === null &&
    other.feature === null
  );
}

function buildPathItem(marks: readonly PathMark[], first: PathMark): PictureItem {
  const path = new Path2D();
  for (const mark of marks) addSegments(path, mark);
  return { kind: 'path', path, mark: first, bounds: measureBounds(marks) };
}

function addSegments(path: Path2D, mark: PathMark): void {
  for (const segment of mark.segments) {
    switch (segment.op) {
      case 'move':
        path.moveTo(segment.x, segment.y);
        break;
      case 'line':
        path.lineTo(segment.x, segment.y);
        break;
      case 'arc':
        path.arc(segment.cx, segment.cy, segment.radius, segment.start, segment.end, segment.end < segment.start);
        break;
      case 'curve':
        path.bezierCurveTo(segment.x1, segment.y1, segment.x2, segment.y2, segment.x, segment.y);
        break;
      case 'close':
        path.closePath();
        break;
      default:
        segment satisfies never;
    }
  }
}

/** The last filled mark below a text, which decides what ink reads on it. */
function findGround(grounds: readonly { mark: PathMark; bounds: Bounds }[], text: Mark): PathMark | null {
  const box = measureBounds([text]);
  const x = (box.left + box.right) / 2;
  const y = (box.bottom + box.top) / 2;
  const found = grounds.findLast(
    ({ bounds }) => x > bounds.left && x < bounds.right && y > bounds.bottom && y < bounds.top,
  );
  return found?.mark ?? null;
}
