import type { Span } from '../model/plan';
import { getNonNegative } from './workings';

/** What tabs along one part must satisfy. Lengths are mm along X from the part's left end. */
export interface TabRequest {
  /** Length of the part. */
  length: number;
  tabLength: number;
  /** Longest stretch between two tabs, edge to edge. */
  span: number;
  /** Longest stretch from an end to the first tab's edge. */
  endOverhang: number;
  /** Where no tab may stand: keep-outs, bores, holes. */
  blocked: readonly Span[];
  /** Fewest tabs that carry the force. */
  leastCount: number;
}

export interface TabRow {
  /** Centres of the tabs, ascending. */
  centres: number[];
  /** Longest stretch between tabs, edge to edge; 0 for one tab. */
  largestSpan: number;
  largestEnd: number;
  /** True when every limit is kept. */
  ok: boolean;
}

/** One row of `count` tabs on a stretch that has its own limit at each end. */
interface RowProblem {
  length: number;
  tabLength: number;
  span: number;
  endLeft: number;
  endRight: number;
  allowed: readonly Span[];
  count: number;
}

const TINY = 1e-7;
const MOST_TABS = 60;
const BISECTIONS = 60;

/**
 * Tabs along a part: the fewest that keep every span and end overhang under its limit, stand clear of what is blocked
 * and carry the force. Among equals a symmetric row is taken where there is one, else the row whose longest stretch is
 * the shortest. A mirrored part gets the mirrored row. Exact: the count is that of the furthest-reaching row, which no
 * other row can undercut; the spacing is found by bisection to well under a nanometre.
 *
 * Where the limits cannot be kept, the best row there is comes back with `ok` false.
 */
export function computeTabs(request: TabRequest): TabRow {
  const length = getNonNegative(request.length);
  const tabLength = Math.min(getNonNegative(request.tabLength), length);
  if (!(tabLength > 0)) return { centres: [], largestSpan: 0, largestEnd: length, ok: false };
  const base = {
    length,
    tabLength,
    span: Math.max(TINY, getNonNegative(request.span)),
    endLeft: Math.max(TINY, getNonNegative(request.endOverhang)),
    endRight: Math.max(TINY, getNonNegative(request.endOverhang)),
    allowed: getAllowedCentres(length, tabLength, request.blocked),
  };
  const room = Math.min(MOST_TABS, Math.floor(length / tabLength + TINY));
  const least = Math.max(1, Math.min(room, Math.ceil(request.leastCount - TINY)));
  for (let count = least; count <= room; count += 1) {
    const problem = { ...base, count };
    if (isPlaceable(problem, 1)) return getRow(request, solveSymmetric(problem, 1) ?? solve(problem) ?? []);
  }
  return getRow(request, getBestEffort(base, least, room));
}

/** Stretches, edge to edge, that a row of tabs leaves, and whether they keep the limits. */
export function computeTabRow(request: TabRequest, centres: readonly number[]): TabRow {
  return getRow(
    request,
    [...centres].sort((a, b) => a - b),
  );
}

function getRow(request: TabRequest, centres: number[]): TabRow {
  const half = Math.min(request.tabLength, request.length) / 2;
  const first = centres[0];
  const last = centres.at(-1);
  if (first === undefined || last === undefined) {
    return { centres, largestSpan: 0, largestEnd: request.length, ok: false };
  }
  const spans = centres.slice(1).map((centre, index) => centre - (centres[index] ?? centre) - 2 * half);
  const largestSpan = Math.max(0, ...spans);
  const largestEnd = Math.max(0, first - half, request.length - last - half);
  const clear = centres.every((centre) => !request.blocked.some((span) => overlaps(span, centre, half)));
  const ok =
    clear &&
    centres.length >= request.leastCount - TINY &&
    largestSpan <= request.span + 1e-4 &&
    largestEnd <= request.endOverhang + 1e-4;
  return { centres, largestSpan, largestEnd, ok };
}

function overlaps(span: Span, centre: number, half: number): boolean {
  return centre + half > span.from + 1e-4 && centre - half < span.to - 1e-4;
}

/** Stretches where the centre of a tab may stand, ascending and apart. */
function getAllowedCentres(length: number, tabLength: number, blocked: readonly Span[]): Span[] {
  const half = tabLength / 2;
  const closed = blocked
    .filter((span) => span.to > span.from)
    .map((span) => ({ from: span.from - half, to: span.to + half }))
    .sort((a, b) => a.from - b.from);
  const allowed: Span[] = [];
  let from = half;
  for (const span of closed) {
    if (span.from >= from - TINY) allowed.push({ from, to: Math.min(span.from, length - half) });
    from = Math.max(from, span.to);
  }
  allowed.push({ from, to: length - half });
  return allowed.filter((span) => span.to >= span.from - TINY && span.from <= length - half + TINY);
}

/** Furthest allowed centre at or before `x`; undefined when there is none. */
function getLatest(allowed: readonly Span[], x: number): number | undefined {
  let latest: number | undefined;
  for (const span of allowed) {
    if (span.from <= x + TINY) latest = Math.min(Math.max(span.from, span.to), Math.max(x, span.from));
  }
  return latest;
}

/** Nearest allowed centre at or after `x`. */
function getEarliest(allowed: readonly Span[], x: number): number | undefined {
  const span = allowed.find((one) => one.to >= x - TINY);
  return span === undefined ? undefined : Math.max(span.from, Math.min(x, span.to));
}

/** Furthest centre each tab can take when every limit is scaled; null when the row cannot be placed. */
function getLatestRow(problem: RowProblem, scale: number): number[] | null {
  const caps = getRoomCaps(problem);
  if (caps === null) return null;
  const half = problem.tabLength / 2;
  const row: number[] = [];
  for (let index = 0; index < problem.count; index += 1) {
    const previous = row[index - 1];
    const reach =
      previous === undefined ? half + scale * problem.endLeft : previous + problem.tabLength + scale * problem.span;
    const centre = getLatest(problem.allowed, Math.min(reach, caps[index] ?? reach));
    const least = previous === undefined ? half : previous + problem.tabLength;
    if (centre === undefined || centre < least - TINY) return null;
    row.push(centre);
  }
  const last = row.at(-1);
  const end = last === undefined ? problem.length : problem.length - last - half;
  return end <= scale * problem.endRight + TINY ? row : null;
}

/** Furthest centre that leaves room for the tabs that follow. */
function getRoomCaps(problem: RowProblem): number[] | null {
  const caps: number[] = [];
  let x = problem.length - problem.tabLength / 2;
  for (let index = problem.count - 1; index >= 0; index -= 1) {
    const cap = getLatest(problem.allowed, x);
    if (cap === undefined) return null;
    caps[index] = cap;
    x = cap - problem.tabLength;
  }
  return caps;
}

function isPlaceable(problem: RowProblem, scale: number): boolean {
  return getLatestRow(problem, scale) !== null;
}

/** Least scale of the limits at which the row can be placed; null when there is no room for it at all. */
function getLeastScale(problem: RowProblem): number | null {
  let high = 1;
  const most = 2 + problem.length / Math.min(problem.span, problem.endLeft, problem.endRight);
  while (!isPlaceable(problem, high)) {
    if (high > most) return null;
    high *= 2;
  }
  let low = 0;
  if (isPlaceable(problem, low)) return low;
  for (let step = 0; step < BISECTIONS; step += 1) {
    const middle = (low + high) / 2;
    if (isPlaceable(problem, middle)) high = middle;
    else low = middle;
  }
  return high;
}

/** The row whose limits can be scaled down the most, tabs as near the middle of their room as they can stand. */
function solve(problem: RowProblem): number[] | null {
  if (problem.count === 0) return [];
  const scale = getLeastScale(problem);
  if (scale === null) return null;
  const latest = getLatestRow(problem, scale);
  const mirrored = getLatestRow(mirror(problem), scale);
  if (latest === null || mirrored === null) return latest;
  const earliest = mirrored.map((centre) => problem.length - centre).reverse();
  return chooseNearMiddle(problem, scale, latest, earliest) ?? latest;
}

function mirror(problem: RowProblem): RowProblem {
  const allowed = problem.allowed
    .map((span) => ({ from: problem.length - span.to, to: problem.length - span.from }))
    .reverse();
  return { ...problem, allowed, endLeft: problem.endRight, endRight: problem.endLeft };
}

interface Candidate {
  centre: number;
  cost: number;
  from: number;
}

/** Least sum of squared distances from the middle of each tab's room, by dynamic programming over a few places each. */
function chooseNearMiddle(
  problem: RowProblem,
  scale: number,
  latest: readonly number[],
  earliest: readonly number[],
): number[] | null {
  const columns: Candidate[][] = [];
  for (let index = 0; index < problem.count; index += 1) {
    const middle = ((latest[index] ?? 0) + (earliest[index] ?? 0)) / 2;
    const places = [
      getLatest(problem.allowed, middle),
      getEarliest(problem.allowed, middle),
      latest[index],
      earliest[index],
    ];
    const column: Candidate[] = [];
    for (const centre of places) {
      if (centre === undefined) continue;
      const before = getCheapestBefore(problem, scale, columns[index - 1], index, centre);
      if (before === null) continue;
      // On a tie the tab stands further from the middle of the part, which a mirrored part mirrors.
      const own = (centre - middle) ** 2 - 1e-9 * Math.abs(centre - problem.length / 2);
      column.push({ centre, cost: own + before.cost, from: before.index });
    }
    if (column.length === 0) return null;
    columns.push(column);
  }
  return traceBack(columns, problem, scale);
}

function getCheapestBefore(
  problem: RowProblem,
  scale: number,
  column: readonly Candidate[] | undefined,
  index: number,
  centre: number,
): { cost: number; index: number } | null {
  const half = problem.tabLength / 2;
  if (index === 0) return centre - half <= scale * problem.endLeft + TINY ? { cost: 0, index: -1 } : null;
  let best: { cost: number; index: number } | null = null;
  (column ?? []).forEach((candidate, at) => {
    const gap = centre - candidate.centre - problem.tabLength;
    const fits = gap >= -TINY && gap <= scale * problem.span + 2 * TINY;
    if (fits && (best === null || candidate.cost < best.cost)) best = { cost: candidate.cost, index: at };
  });
  return best;
}

function traceBack(columns: readonly Candidate[][], problem: RowProblem, scale: number): number[] | null {
  const half = problem.tabLength / 2;
  const ends = (columns.at(-1) ?? []).filter(
    (candidate) => problem.length - candidate.centre - half <= scale * problem.endRight + 2 * TINY,
  );
  let chosen = ends.reduce<Candidate | null>(
    (best, candidate) => (best === null || candidate.cost < best.cost ? candidate : best),
    null,
  );
  if (chosen === null) return null;
  const centres: number[] = [];
  for (let index = columns.length - 1; index >= 0; index -= 1) {
    if (chosen === null) return null;
    centres.unshift(chosen.centre);
    chosen = columns[index - 1]?.[chosen.from] ?? null;
  }
  return centres;
}

/** The best symmetric row on a stretch that is itself symmetric, within a scale of the limits; null when there is none. */
function solveSymmetric(problem: RowProblem, mostScale: number): number[] | null {
  if (!isSymmetric(problem)) return null;
  const middle = problem.length / 2;
  const isOdd = problem.count % 2 === 1;
  const stands = problem.allowed.some((span) => middle >= span.from - TINY && middle <= span.to + TINY);
  if (isOdd && !stands) return null;
  const length = isOdd ? middle - problem.tabLength / 2 : middle;
  const half: RowProblem = {
    ...problem,
    length,
    endRight: isOdd ? problem.span : problem.span / 2,
    allowed: cutAllowed(problem.allowed, length - problem.tabLength / 2),
    count: Math.floor(problem.count / 2),
  };
  if (!isPlaceable(half, mostScale)) return null;
  const left = solve(half);
  if (left === null) return null;
  const right = left.map((centre) => problem.length - centre).reverse();
  return [...left, ...(isOdd ? [middle] : []), ...right];
}

function cutAllowed(allowed: readonly Span[], most: number): Span[] {
  return allowed
    .filter((span) => span.from <= most + TINY)
    .map((span) => ({ from: span.from, to: Math.min(span.to, most) }));
}

function isSymmetric(problem: RowProblem): boolean {
  const other = mirror(problem).allowed;
  return (
    other.length === problem.allowed.length &&
    problem.allowed.every(
      (span, index) =>
        Math.abs(span.from - (other[index]?.from ?? Number.NaN)) < 1e-6 &&
        Math.abs(span.to - (other[index]?.to ?? Number.NaN)) < 1e-6,
    )
  );
}

/** The row that comes nearest to the limits when none keeps them, with no more tabs than help. */
function getBestEffort(base: Omit<RowProblem, 'count'>, least: number, room: number): number[] {
  const scales: { count: number; scale: number }[] = [];
  for (let count = least; count <= room; count += 1) {
    const scale = getLeastScale({ ...base, count });
    if (scale !== null) scales.push({ count, scale });
  }
  const lowest = Math.min(...scales.map((one) => one.scale));
  const chosen = scales.find((one) => one.scale <= lowest * (1 + 1e-6));
  if (chosen === undefined) return [];
  const problem = { ...base, count: chosen.count };
  return solveSymmetric(problem, lowest * (1 + 1e-6)) ?? solve(problem) ?? [];
}
