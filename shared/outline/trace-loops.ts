import type { Point } from './point';
import { getSegmentLength, getSegmentPoint, reverseSegment, type Segment } from './segment';
import { type Edge, getEdgesByNode, type SegmentGraph } from './segment-graph';

export interface TracedLoops {
  /** Closed runs of segments, each in order, end to start. */
  loops: Segment[][];
  /** Segments that are part of no closed run. */
  loose: Segment[];
}

/** Ways looked at before tracing gives up; a drawing of parts needs a few for each segment. */
const MOST_LOOKS = 2_000_000;

interface Step {
  edge: Edge;
  forward: boolean;
}

/**
 * Takes a graph of segments apart into closed runs. Segments that end loose are set aside first; then the outer boundary
 * of what hangs together is walked with the material on the left, always taking the rightmost way on, so that a line across
 * the inside of an outline does not cut it in two.
 */
export function traceLoops(graph: SegmentGraph): TracedLoops {
  const byNode = getEdgesByNode(graph).map((edges) => new Set(edges));
  const result: TracedLoops = { loops: [], loose: [] };
  const remove = (edge: Edge): void => {
    byNode[edge.start]?.delete(edge);
    byNode[edge.end]?.delete(edge);
  };
  // An arc that comes back to its own start is closed by itself.
  for (const edge of graph.edges.filter(({ start, end }) => start === end)) {
    remove(edge);
    result.loops.push([edge.segment]);
  }
  const pruneFrom = (first: number): void => {
    for (let node: number | undefined = first; node !== undefined; ) {
      const edges: ReadonlySet<Edge> | undefined = byNode[node];
      const [edge]: Edge[] = edges?.size === 1 ? [...edges] : [];
      if (edge === undefined) return;
      remove(edge);
      result.loose.push(edge.segment);
      node = edge.start === node ? edge.end : edge.start;
    }
  };
  graph.nodes.forEach((_point, node) => {
    pruneFrom(node);
  });
  const looks = { left: MOST_LOOKS };
  for (const start of getNodesFromLeft(graph)) {
    while ((byNode[start]?.size ?? 0) > 1 && looks.left > 0) {
      const walk = walkOutside(byNode, start, looks);
      for (const { edge } of walk) remove(edge);
      const { loops, loose } = splitWalk(walk);
      result.loops.push(...loops);
      result.loose.push(...loose);
      for (const { edge } of walk) {
        pruneFrom(edge.start);
        pruneFrom(edge.end);
      }
    }
  }
  if (looks.left <= 0)
    result.loose.push(...new Set(byNode.flatMap((edges) => [...edges].map(({ segment }) => segment))));
  return result;
}

function getNodesFromLeft({ nodes }: SegmentGraph): number[] {
  return nodes
    .map((point, node) => ({ point, node }))
    .sort((a, b) => a.point.x - b.point.x || a.point.y - b.point.y)
    .map(({ node }) => node);
}

function walkOutside(byNode: readonly Set<Edge>[], start: number, looks: { left: number }): Step[] {
  const walk: Step[] = [];
  const taken = { forward: new Set<Edge>(), back: new Set<Edge>() };
  let node = start;
  // At the leftmost node all that is outside lies to the left.
  let backRad = Math.PI;
  for (;;) {
    const next = chooseRightmost(byNode[node] ?? new Set(), node, backRad, walk.at(-1));
    looks.left -= byNode[node]?.size ?? 0;
    if (next === undefined) return walk;
    const way = next.forward ? taken.forward : taken.back;
    if (way.has(next.edge)) return walk;
    way.add(next.edge);
    walk.push(next);
    node = next.forward ? next.edge.end : next.edge.start;
    backRad = getDirection(reverseSegment(getStepSegment(next)), getProbe(byNode[node] ?? new Set()));
  }
}

/** The first way met when turning anticlockwise from where the walk came. */
function chooseRightmost(
  edges: ReadonlySet<Edge>,
  node: number,
  backRad: number,
  last: Step | undefined,
): Step | undefined {
  const probe = getProbe(edges);
  let best: { step: Step; turnRad: number } | undefined;
  for (const edge of edges) {
    for (const forward of [true, false]) {
      if ((forward ? edge.start : edge.end) !== node) continue;
      const isWayBack = last !== undefined && last.edge === edge && last.forward !== forward;
      const directionRad = getDirection(getStepSegment({ edge, forward }), probe);
      const turnRad = isWayBack ? 2 * Math.PI : getTurn(directionRad - backRad);
      if (best === undefined || turnRad < best.turnRad) best = { step: { edge, forward }, turnRad };
    }
  }
  return best?.step;
}

/** To over 0 and up to a full turn. */
function getTurn(angleRad: number): number {
  const turn = angleRad % (2 * Math.PI);
  return turn <= 0 ? turn + 2 * Math.PI : turn;
}

/** How far along to look for a direction, so that of two that leave alike the one that bends away is told. */
function getProbe(edges: ReadonlySet<Edge>): number {
  return 0.25 * Math.min(...[...edges].map(({ segment }) => getSegmentLength(segment)));
}

function getDirection(segment: Segment, probe: number): number {
  const length = getSegmentLength(segment);
  const ahead = getSegmentPoint(segment, length > 0 ? Math.min(1, probe / length) : 1);
  return Math.atan2(ahead.y - segment.from.y, ahead.x - segment.from.x);
}

function getStepSegment({ edge, forward }: Step): Segment {
  return forward ? edge.segment : reverseSegment(edge.segment);
}

/** Cuts a walk where it comes back to a place; what it went along both ways encloses nothing. */
function splitWalk(walk: readonly Step[]): TracedLoops {
  const counts = new Map<Edge, number>();
  for (const { edge } of walk) counts.set(edge, (counts.get(edge) ?? 0) + 1);
  const result: TracedLoops = { loops: [], loose: [] };
  for (const [edge, count] of counts) if (count > 1) result.loose.push(edge.segment);
  const open: { step: Step; from: number }[] = [];
  /** Where in `open` a node is left from, the last place last. */
  const leftFrom = new Map<number, number[]>();
  for (const step of walk) {
    if ((counts.get(step.edge) ?? 0) > 1) continue;
    const from = step.forward ? step.edge.start : step.edge.end;
    leftFrom.set(from, [...(leftFrom.get(from) ?? []), open.length]);
    open.push({ step, from });
    const begin = leftFrom.get(step.forward ? step.edge.end : step.edge.start)?.at(-1);
    if (begin === undefined) continue;
    const loop = open.splice(begin);
    for (const entry of loop) leftFrom.get(entry.from)?.pop();
    result.loops.push(loop.map((entry) => getStepSegment(entry.step)));
  }
  for (const { step } of open) result.loose.push(step.edge.segment);
  return result;
}

/** Places where more than two segments meet. */
export function findJunctions(graph: SegmentGraph): Point[] {
  return getEdgesByNode(graph).flatMap((edges, node) => {
    const point = graph.nodes[node];
    return edges.length > 2 && point !== undefined ? [point] : [];
  });
}
