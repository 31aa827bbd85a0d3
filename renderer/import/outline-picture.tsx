import type { Outline } from '../../shared/outline/outline';
import type { Point } from '../../shared/outline/point';
import { getOnCircle } from '../../shared/outline/point';
import type { Segment } from '../../shared/outline/segment';

/** Share of the outline's size left free around it. */
const MARGIN_SHARE = 0.06;

/** Share of the outline's size that is shown around a place looked at close to. */
const CLOSE_SHARE = 0.03;

/** The outline as it will be taken, drawn from its segments: holes, what is left out, and where gaps were. */
export function OutlinePicture({ outline, place }: { outline: Outline; place: Point | null }) {
  const whole = getShownBox(outline);
  const box = place === null ? whole : getBoxAround(place, Math.max(whole.width, whole.height) * CLOSE_SHARE);
  const margin = MARGIN_SHARE * Math.max(box.width, box.height, 1);
  const viewBox = [
    box.left - margin,
    -(box.bottom + box.height) - margin,
    box.width + 2 * margin,
    box.height + 2 * margin,
  ];
  const mark = Math.max(box.width, box.height) / 60;
  const { outer, bores, slots, windows, outside, loose, gapsClosed, gapsOpen, remarks } = outline;
  const crossings = remarks.find(({ code }) => code === 'crossings')?.places ?? [];
  return (
    <svg
      className="outline-picture"
      viewBox={viewBox.join(' ')}
      role="img"
      aria-label={outer === null ? 'The drawing; nothing in it closes to an outline' : 'The outline'}
    >
      <g transform="scale(1 -1)">
        {outer !== null && <path className="outline-outer" d={getClosedPath(outer.segments)} />}
        {windows.map((loop) => (
          <path key={getKey(loop.box)} className="outline-window" d={getClosedPath(loop.segments)} />
        ))}
        {outside.map((loop) => (
          <path key={getKey(loop.box)} className="outline-left" d={getClosedPath(loop.segments)} />
        ))}
        <path className="outline-left" d={loose.map((segment) => getPath([segment])).join('')} />
        {bores.map(({ centre, diameter }) => (
          <circle key={getKey(centre)} className="outline-hole" cx={centre.x} cy={centre.y} r={diameter / 2} />
        ))}
        {slots.map(({ centre, diameter, length, isAlongX }) => (
          <rect
            key={getKey(centre)}
            className="outline-hole"
            x={centre.x - (diameter + (isAlongX ? length : 0)) / 2}
            y={centre.y - (diameter + (isAlongX ? 0 : length)) / 2}
            width={diameter + (isAlongX ? length : 0)}
            height={diameter + (isAlongX ? 0 : length)}
            rx={diameter / 2}
          />
        ))}
        {gapsClosed.map(({ from }) => (
          <circle key={getKey(from)} className="outline-mark is-closed" cx={from.x} cy={from.y} r={mark} />
        ))}
        {[...gapsOpen.map(({ from }) => from), ...crossings].map((place) => (
          <circle key={getKey(place)} className="outline-mark is-open" cx={place.x} cy={place.y} r={mark} />
        ))}
      </g>
    </svg>
  );
}

function getBoxAround({ x, y }: Point, size: number): ReturnType<typeof getShownBox> {
  return { left: x - size / 2, bottom: y - size / 2, width: size, height: size };
}

function getKey(values: object): string {
  return Object.values(values).join();
}

function getShownBox(outline: Outline): { left: number; bottom: number; width: number; height: number } {
  if (outline.outer !== null) return { left: 0, bottom: 0, width: outline.width, height: outline.height };
  let [left, bottom, right, top] = [Infinity, Infinity, -Infinity, -Infinity];
  for (const { from, to } of outline.loose) {
    left = Math.min(left, from.x, to.x);
    right = Math.max(right, from.x, to.x);
    bottom = Math.min(bottom, from.y, to.y);
    top = Math.max(top, from.y, to.y);
  }
  return left > right
    ? { left: 0, bottom: 0, width: 1, height: 1 }
    : { left, bottom, width: right - left, height: top - bottom };
}

function getClosedPath(segments: readonly Segment[]): string {
  return `${getPath(segments)}Z`;
}

function getPath(segments: readonly Segment[]): string {
  const [first] = segments;
  if (first === undefined) return '';
  return `M${first.from.x} ${first.from.y}${segments.map(getPiece).join('')}`;
}

function getPiece(segment: Segment): string {
  if (segment.kind === 'line') return `L${segment.to.x} ${segment.to.y}`;
  const { centre, radius, startAngleRad, sweepRad, to } = segment;
  const sweep = sweepRad > 0 ? 1 : 0;
  // An arc path cannot come back to its own start, so every arc is drawn in two halves.
  const middle = getOnCircle(centre, radius, startAngleRad + sweepRad / 2);
  const arc = (end: Point): string => `A${radius} ${radius} 0 0 ${sweep} ${end.x} ${end.y}`;
  return arc(middle) + arc(to);
}
