import type { Span } from '../model/plan';
import {
  getCentroid,
  getFreeSpans,
  getNearestPlace,
  intersectSpans,
  mirrorSpans,
  SAME_PLACE,
  shiftSpans,
} from './spans';
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
  /** Where the centre of a tab may stand. */
  allowed: readonly Span[];
  count: number;
}

/** A limit counts as kept within this, mm. */
const SAME_LENGTH = 1e-4;
const MOST_TABS = 60;
const BISECTIONS = 50;
/** More tabs are not tried once this many more have not helped. */
const PATIENCE = 4;

/**
 * Tabs along a part: the fewest that keep every span and end overhang under its limit, stand clear of what is blocked
 * and carry the force. Among equals a symmetric row is taken where there is one, else the row whose longest stretch is
 * the shortest for its limit. A mirrored part gets the mirrored row.
 *
 * Exact: the places each tab can take are worked out as stretches, from the left and from the right, so that no row is
 * missed; the spacing is found by bisection to well under a micrometre. Where the limits cannot be kept, the row that
 * comes nearest is returned with `ok` false.
 */
export function computeTabs(request: TabRequest): TabRow {
  const base = getBase(request);
  if (base === null) return getRow(request, []);
  const room = Math.min(MOST_TABS, Math.floor(base.length / base.tabLength + SAME_PLACE));
  const least = Math.max(1, Math.min(room, Math.ceil(getNonNegative(request.leastCount) - SAME_PLACE)));
  for (let count = least; count <= room; count += 1) {
    const problem = { ...base, count };
    if (isPlaceable(problem, 1)) return getRow(request, solveSymmetric(problem, 1) ?? solve(problem) ?? []);
  }
  return getRow(request, getBestEffort(base, least, room));
}

/** The stretches a given row of tabs leaves, edge to edge, and whether it keeps the limits. */
export function computeTabRow(request: TabRequest, centres: readonly number[]): TabRow {
  return getRow(
    request,
    centres.filter(Number.isFinite).toSorted((a, b) => a - b),
  );
}

function getBase(request: TabRequest): Omit<RowProblem, 'count'> | null {
  const length = getNonNegative(request.length);
  const tabLength = Math.min(getNonNegative(request.tabLength), length);
  if (!(tabLength > 0)) return null;
  const half = tabLength / 2;
  const closed = request.blocked.map((span) => ({ from: span.from - half, to: span.to + half }));
  const endOverhang = getNonNegative(request.endOverhang);
  return {
    length,
    tabLength,
    span: getNonNegative(request.span),
    endLeft: endOverhang,
    endRight: endOverhang,
    allowed: getFreeSpans(half, length - half, closed),
  };
}

function getRow(request: TabRequest, centres: number[]): TabRow {
  const length = getNonNegative(request.length);
  const half = Math.min(getNonNegative(request.tabLength), length) / 2;
  const first = centres[0];
  const last = centres.at(-1);
  if (first === undefined || last === undefined) return { centres, largestSpan: 0, largestEnd: length, ok: false };
  const gaps = centres.slice(1).map((centre, index) => centre - (centres[index] ?? centre) - 2 * half);
  const largestSpan = Math.max(0, ...gaps);
  const largestEnd = Math.max(0, first - half, length - last - half);
  const ok =
    centres.every((centre) => !request.blocked.some((span) => overlaps(span, centre, half))) &&
    gaps.every((gap) => gap >= -SAME_LENGTH) &&
    Math.min(first, length - last) >= half - SAME_LENGTH &&
    centres.length >= request.leastCount - SAME_PLACE &&
    largestSpan <= request.span + SAME_LENGTH &&
    largestEnd <= request.endOverhang + SAME_LENGTH;
  return { centres, largestSpan, largestEnd, ok };
}

function overlaps(span: Span, centre: number, half: number): boolean {
  return span.to > span.from && centre + half > span.from + SAME_LENGTH && centre - half < span.to - SAME_LENGTH;
}

/**
 * Where each tab can stand when every limit is scaled, given what is already fixed: the places that both the left end and
 * the right end can reach. Null when the row cannot be placed.
 */
function getPlaces(problem: RowProblem, scale: number, fixed: readonly (number | undefined)[] = []): Span[][] | null {
  const fromLeft = reach(problem, scale, fixed);
  const fromRight = reach(mirrorProblem(problem), scale, mirrorFixed(problem, fixed));
  if (fromLeft === null || fromRight === null) return null;
  const places = fromLeft.map((spans, index) =>
    intersectSpans(spans, mirrorSpans(fromRight[problem.count - 1 - index] ?? [], problem.length)),
  );
  return places.every((spans) => spans.length > 0) ? places : null;
}

/** Places of each tab that a row from the left end can reach; null where it ends short of the right end. */
function reach(problem: RowProblem, scale: number, fixed: readonly (number | undefined)[]): Span[][] | null {
  const { tabLength, count, length } = problem;
  const half = tabLength / 2;
  const rows: Span[][] = [];
  let open: Span[] = [{ from: half, to: half + scale * problem.endLeft }];
  for (let index = 0; index < count; index += 1) {
    const at = fixed[index];
    const stands = at === undefined ? problem.allowed : [{ from: at, to: at }];
    const row = intersectSpans(stands, open);
    if (row.length === 0) return null;
    rows.push(row);
    open = shiftSpans(row, tabLength, tabLength + scale * problem.span);
  }
  const end = [{ from: length - half - scale * problem.endRight, to: length - half }];
  return intersectSpans(rows.at(-1) ?? [], end).length > 0 ? rows : null;
}

function mirrorProblem(problem: RowProblem): RowProblem {
  return {
    ...problem,
    allowed: mirrorSpans(problem.allowed, problem.length),
    endLeft: problem.endRight,
    endRight: problem.endLeft,
  };
}

function mirrorFixed(problem: RowProblem, fixed: readonly (number | undefined)[]): (number | undefined)[] {
  return Array.from({ length: problem.count }, (_, index) => {
    const at = fixed[problem.count - 1 - index];
    return at === undefined ? undefined : problem.length - at;
  });
}

function isPlaceable(problem: RowProblem, scale: number): boolean {
  return problem.count === 0 ? problem.length <= scale * problem.endRight : reach(problem, scale, []) !== null;
}

/** Least scale of the limits at which the row can be placed; null when there is no room for it at all. */
function getLeastScale(problem: RowProblem): number | null {
  const most = 2 + problem.length / Math.max(SAME_LENGTH, Math.min(problem.span, problem.endLeft, problem.endRight));
  let high = 1;
  while (!isPlaceable(problem, high)) {
    if (high > most) return null;
    high *= 2;
  }
  if (isPlaceable(problem, 0)) return 0;
  let low = 0;
  for (let step = 0; step < BISECTIONS; step += 1) {
    const middle = (low + high) / 2;
    if (isPlaceable(problem, middle)) high = middle;
    else low = middle;
  }
  return high;
}

/**
 * The row whose limits can be scaled down the most. Where that leaves a tab room, it stands as near the middle of its room
 * as it can; tabs are set in pairs from the ends inwards.
 */
function solve(problem: RowProblem): number[] | null {
  if (problem.count === 0) return [];
  const scale = getLeastScale(problem);
  if (scale === null) return null;
  // A hair of slack, so that rounding does not close a row that only just stands.
  const slack = scale + SAME_PLACE;
  const fixed: (number | undefined)[] = new Array(problem.count).fill(undefined);
  for (let left = 0; left <= (problem.count - 1) / 2; left += 1) {
    const placed = placePair(problem, slack, fixed, left);
    if (placed === null) return null;
    for (const [index, place] of placed) fixed[index] = place;
  }
  return fixed.map((at) => at ?? 0);
}

/**
 * Sets a tab and its counterpart from the other end: both where they wish, else the one that comes nearer to its wish
 * first and the other as well as it then can.
 */
function placePair(
  problem: RowProblem,
  scale: number,
  fixed: readonly (number | undefined)[],
  left: number,
): [number, number][] | null {
  const right = problem.count - 1 - left;
  const wishes = [left, right].map((index) => ({ index, wish: getWish(problem, scale, fixed, index) }));
  const both = wishes.map(({ index, wish }): [number, number] => [index, wish?.place ?? 0]);
  if (wishes.some(({ wish }) => wish === null)) return null;
  if (left === right || getPlaces(problem, scale, fix(fixed, both)) !== null) return both;
  const centroid = getCentroid(problem.allowed);
  const [here, there] = both.map(([index, place], at) => {
    const [other, wished] = both[1 - at] ?? [index, place];
    const wish = getWish(problem, scale, fix(fixed, [[index, place]]), other);
    const placed: [number, number][] | null =
      wish === null
        ? null
        : [
            [index, place],
            [other, wish.place],
          ];
    return {
      placed,
      shift: Math.abs((wish?.place ?? Number.MAX_VALUE) - wished),
      out: Math.abs(place - centroid),
    };
  });
  if (here === undefined || there === undefined) return null;
  const isTie = Math.abs(here.shift - there.shift) <= SAME_LENGTH;
  const isThere = isTie ? there.out > here.out + SAME_LENGTH : there.shift < here.shift;
  return isThere ? there.placed : here.placed;
}

function fix(fixed: readonly (number | undefined)[], placed: readonly [number, number][]): (number | undefined)[] {
  const next = [...fixed];
  for (const [index, place] of placed) next[index] = place;
  return next;
}

/** The place nearest to the middle of a tab's room. */
function getWish(
  problem: RowProblem,
  scale: number,
  fixed: readonly (number | undefined)[],
  index: number,
): { place: number } | null {
  const room = getPlaces(problem, scale, fixed)?.[index];
  const first = room?.[0];
  const last = room?.at(-1);
  if (room === undefined || first === undefined || last === undefined) return null;
  const middle = (first.from + last.to) / 2;
  const place = getNearestPlace(room, middle, problem.length / 2, getCentroid(problem.allowed)) ?? middle;
  return { place };
}

/** The best symmetric row on a stretch that is itself symmetric, within a scale of the limits; null when there is none. */
function solveSymmetric(problem: RowProblem, mostScale: number): number[] | null {
  if (!isSymmetric(problem)) return null;
  const middle = problem.length / 2;
  const isOdd = problem.count % 2 === 1;
  if (isOdd && intersectSpans(problem.allowed, [{ from: middle, to: middle }]).length === 0) return null;
  // Half of it: up to the tab in the middle, or to the middle of the stretch in the middle.
  const length = isOdd ? middle - problem.tabLength / 2 : middle;
  const half: RowProblem = {
    ...problem,
    length,
    endRight: isOdd && problem.count > 1 ? problem.span : isOdd ? problem.endLeft : problem.span / 2,
    allowed: intersectSpans(problem.allowed, [{ from: 0, to: length - problem.tabLength / 2 }]),
    count: Math.floor(problem.count / 2),
  };
  if (!isPlaceable(half, mostScale)) return null;
  const left = solve(half);
  if (left === null) return null;
  const right = left.map((centre) => problem.length - centre).reverse();
  return [...left, ...(isOdd ? [middle] : []), ...right];
}

function isSymmetric(problem: RowProblem): boolean {
  const other = mirrorSpans(problem.allowed, problem.length);
  return (
    other.length === problem.allowed.length &&
    problem.allowed.every(
      (span, index) =>
        Math.abs(span.from - (other[index]?.from ?? Number.NaN)) < SAME_LENGTH &&
        Math.abs(span.to - (other[index]?.to ?? Number.NaN)) < SAME_LENGTH,
    )
  );
}

/** The row that comes nearest to the limits when none keeps them, with no more tabs than help. */
function getBestEffort(base: Omit<RowProblem, 'count'>, least: number, room: number): number[] {
  let best: { count: number; scale: number } | null = null;
  for (let count = least; count <= room; count += 1) {
    if (best !== null && count > best.count + PATIENCE) break;
    const scale = getLeastScale({ ...base, count });
    if (scale !== null && (best === null || scale < best.scale * (1 - 1e-6))) best = { count, scale };
  }
  if (best === null) return [];
  const problem = { ...base, count: best.count };
  return solveSymmetric(problem, best.scale * (1 + 1e-6)) ?? solve(problem) ?? [];
}
