import { getDistance, type Point } from './point';
import { PointGrid } from './point-grid';
import { buildSegmentGraph, getEdgesByNode, type SegmentGraph } from './segment-graph';

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
 * Joins loose ends with a straight line where they are no farther apart than the tolerance, the nearest first; each end is
 * joined once.
 *
 * @param gapTolerance mm, 0 or more
 */
export function closeGaps(graph: SegmentGraph, gapTolerance: number): ClosedGaps {
  if (gapTolerance <= 0) return { graph, closed: [] };
  const taken = new Set<number>();
  const closed: Gap[] = [];
  for (const { a, b, distance } of findEndPairs(graph, gapTolerance)) {
    if (taken.has(a) || taken.has(b)) continue;
    const [from, to] = [graph.nodes[a], graph.nodes[b]];
    if (from === undefined || to === undefined) continue;
    taken.add(a).add(b);
    closed.push({ from, to, size: distance });
  }
  const bridges = closed.map(({ from, to }) => ({ kind: 'line' as const, from, to }));
  const segments = [...graph.edges.map(({ segment }) => segment), ...bridges];
  return { graph: closed.length === 0 ? graph : buildSegmentGraph(segments), closed };
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
