import type { Point } from './point';
import { PointGrid } from './point-grid';
import type { Segment } from './segment';

/** A segment between two places where ends meet. */
export interface Edge {
  readonly segment: Segment;
  readonly start: number;
  readonly end: number;
}

/** Segments joined where their ends meet. */
export interface SegmentGraph {
  readonly nodes: readonly Point[];
  readonly edges: readonly Edge[];
}

/** Ends nearer than this are one place, mm: a micrometre, finer than any part is made. */
export const JOIN_WITHIN = 0.001;

/** @param segments none of them a whole circle */
export function buildSegmentGraph(segments: readonly Segment[]): SegmentGraph {
  const nodes: Point[] = [];
  const grid = new PointGrid<number>(JOIN_WITHIN);
  const getNode = (point: Point): number => {
    const known = grid.findNear(point)[0];
    if (known !== undefined) return known.value;
    nodes.push(point);
    grid.add(point, nodes.length - 1);
    return nodes.length - 1;
  };
  const edges = segments.map((segment) => ({ segment, start: getNode(segment.from), end: getNode(segment.to) }));
  // A segment shorter than a micrometre joins nothing.
  return { nodes, edges: edges.filter(({ start, end, segment }) => start !== end || segment.kind === 'arc') };
}

/** Edges at each node; one that comes back to its node counts twice. */
export function getEdgesByNode({ nodes, edges }: SegmentGraph): Edge[][] {
  const byNode: Edge[][] = nodes.map(() => []);
  for (const edge of edges) {
    byNode[edge.start]?.push(edge);
    byNode[edge.end]?.push(edge);
  }
  return byNode;
}
