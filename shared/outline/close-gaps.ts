import { getDistance, type Point } from './point';
import { PointGrid } from './point-grid';
import type { Segment } from './segment';
import { buildSegmentGraph, type Edge, getEdgesByNode, type SegmentGraph } from './segment-graph';

/** Two loose ends that face each other. */
export interface Gap {
  from: Point;
  to: Point;
  /** Distance between them, mm. */
  size: number;
}

export interface ClosedGaps {
  graph: SegmentGraph;
  closed: Gap[];
}

/** Pairs of loose ends looked at before looking stops. */
const MOST_PAIRS = 200_000;

interface EndPair {
  a: number;
  b: number;
  distance: number;
}

/**
 * Joins loose ends where they are no farther apart than the tolerance, the nearest first; each end is joined once. Two lines
 * that would meet in a corner nearby are carried on to it, so that it stays sharp; anything else gets a straight line between.
 *
 * @param gapTolerance mm, 0 or more
 */
export function closeGaps(graph: SegmentGraph, gapTolerance: number): ClosedGaps {
  if (gapTolerance <= 0) return { graph, closed: [] };
  const taken = new Set<number>();
  const closed: Gap[] = [];
  const bridges: Segment[] = [];
  const corners = new Map<number, Point>();
  const byNode = getEdgesByNode(graph);
  for (const { a, b, distance } of findEndPairs(graph, gapTolerance)) {
    const [from, to] = [graph.nodes[a], graph.nodes[b]];
    if (taken.has(a) || taken.has(b) || from === undefined || to === undefined) continue;
    taken.add(a).add(b);
    closed.push({ from, to, size: distance });
    const corner = findCorner(byNode[a]?.[0]?.segment, byNode[b]?.[0]?.segment);
    const isNear = corner !== null && Math.max(getDistance(corner, from), getDistance(corner, to)) <= 2 * distance;
    if (isNear) corners.set(a, corner).set(b, corner);
    else bridges.push({ kind: 'line', from, to });
  }
  if (closed.length === 0) return { graph, closed };
  const segments = graph.edges.map((edge) => carryOn(edge, corners));
  return { graph: buildSegmentGraph([...segments, ...bridges]), closed };
}

/** Sine of the angle between two lines under which they count as going the same way. */
const PARALLEL_SINE = 0.05;

/** Where two lines would meet; null for arcs, and for lines that go nearly the same way. */
function findCorner(a: Segment | undefined, b: Segment | undefined): Point | null {
  if (a?.kind !== 'line' || b?.kind !== 'line' || a === b) return null;
  const [ax, ay] = [a.to.x - a.from.x, a.to.y - a.from.y];
  const [bx, by] = [b.to.x - b.from.x, b.to.y - b.from.y];
  const cross = ax * by - ay * bx;
  if (Math.abs(cross) < PARALLEL_SINE * Math.hypot(ax, ay) * Math.hypot(bx, by)) return null;
  const along = ((b.from.x - a.from.x) * by - (b.from.y - a.from.y) * bx) / cross;
  return { x: a.from.x + ax * along, y: a.from.y + ay * along };
}

/** The segment with its loose ends at their corners. */
function carryOn({ segment, start, end }: Edge, corners: ReadonlyMap<number, Point>): Segment {
  if (segment.kind !== 'line') return segment;
  return { kind: 'line', from: corners.get(start) ?? segment.from, to: corners.get(end) ?? segment.to };
}

/** Loose ends still there, each with the nearest other one. */
export function findOpenGaps(graph: SegmentGraph, searchWithin: number): Gap[] {
  const taken = new Set<number>();
  return findEndPairs(graph, searchWithin).flatMap(({ a, b, distance }) => {
    const [from, to] = [graph.nodes[a], graph.nodes[b]];
    if (taken.has(a) || taken.has(b) || from === undefined || to === undefined) return [];
    taken.add(a).add(b);
    return [{ from, to, size: distance }];
  });
}

/** Where loose ends stand: nodes that one segment alone comes to. */
export function getLooseEnds(graph: SegmentGraph): number[] {
  return getEdgesByNode(graph).flatMap((edges, node) => (edges.length === 1 ? [node] : []));
}

/** Pairs of loose ends within a distance, nearest first; the two ends of one short segment are no pair. */
function findEndPairs(graph: SegmentGraph, within: number): EndPair[] {
  const grid = new PointGrid<number>(within);
  const byNode = getEdgesByNode(graph);
  const pairs: EndPair[] = [];
  for (const node of getLooseEnds(graph)) {
    const point = graph.nodes[node];
    if (point === undefined || pairs.length > MOST_PAIRS) continue;
    for (const { value: other, distance } of grid.findNear(point)) {
      const isOneSegment = byNode[node]?.some((edge) => edge.start === other || edge.end === other) ?? false;
      const edge = byNode[node]?.[0];
      const isShort = edge !== undefined && getDistance(edge.segment.from, edge.segment.to) >= distance - 1e-12;
      if (isOneSegment && isShort && edge.segment.kind === 'line') continue;
      pairs.push({ a: other, b: node, distance });
    }
    grid.add(point, node);
  }
  return pairs.sort((a, b) => a.distance - b.distance);
}
