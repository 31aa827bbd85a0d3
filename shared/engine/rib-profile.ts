import type { Release, Span } from '../model/plan';
import type { RibPiece } from './rib-strength';
import type { WidthAt } from './width-profile';

/** How the cut-off is made, lengths mm. */
export interface RibCut {
  sides: Release['sides'];
  /** Rib aimed at where it is to stand; 0 to cut through. */
  ribTarget: number;
  /** Deepest the cutter goes from one side. */
  reach: number;
  /** What the two sides still carry beyond the part's own width. */
  sideAllowance: number;
}

/** Rib at one length: width of the work there, and what the cut-off leaves of it. */
export interface RibAt {
  x: number;
  width: number;
  rib: number;
}

/**
 * Rib left at one place. The cutter goes in to where the rib begins, no deeper than it reaches; an opening through the
 * part (a bore finished first) takes its own share out, so that a boss leaves only its ring wall.
 *
 * @param at width of the part and of openings through it, centred on the part, mm
 * @returns mm, 0 where it is cut through
 */
export function computeRib(cut: RibCut, at: Pick<WidthAt, 'width' | 'opening'>): number {
  const width = at.width + cut.sideAllowance;
  const sideCount = cut.sides === 'both' ? 2 : 1;
  const left = Math.min(width, Math.max(cut.ribTarget, width - sideCount * cut.reach));
  if (left <= 0) return 0;
  // The rib stands in the middle of the part, or along the side it is not cut from.
  const from = sideCount === 2 ? (width - left) / 2 : width - left;
  const openFrom = (width - at.opening) / 2;
  const overlap = Math.max(0, Math.min(from + left, openFrom + at.opening) - Math.max(from, openFrom));
  return Math.max(0, left - overlap);
}

/** Rib along a part, at every length where its width or an opening changes course. */
export function computeRibProfile(cut: RibCut, widths: readonly WidthAt[]): RibAt[] {
  return widths.map((at) => ({ x: at.x, width: at.width + cut.sideAllowance, rib: computeRib(cut, at) }));
}

/**
 * Rib along a part that stands on tabs: the tab's rib where one stands, what the reach cannot cut elsewhere.
 *
 * @param standing profile where a rib is left
 * @param between profile where it is cut through
 */
export function computeTabProfile(
  standing: readonly RibAt[],
  between: readonly RibAt[],
  tabs: readonly Span[],
): RibAt[] {
  const length = Math.max(0, ...standing.map((at) => at.x));
  const edges = tabs.flatMap((tab) => [tab.from, tab.to]).filter((x) => x > 0 && x < length);
  const breaks = [...new Set([...standing.map((at) => at.x), ...edges])].sort((a, b) => a - b);
  return breaks.flatMap((x, index) =>
    [breaks[index - 1], breaks[index + 1]].flatMap((other) => {
      if (other === undefined) return [];
      const towards = (x + other) / 2;
      const isTab = tabs.some((tab) => towards > tab.from && towards < tab.to);
      return [getRibTowards(isTab ? standing : between, x, towards)];
    }),
  );
}

/** Stretches of a profile, for its strength. */
export function getRibPieces(profile: readonly RibAt[]): RibPiece[] {
  return profile.slice(1).map((at, index) => {
    const before = profile[index] ?? at;
    return { length: at.x - before.x, thickness: before.rib, thicknessEnd: at.rib };
  });
}

/** Stretches along X where an opening goes through the part. */
export function getOpenSpans(widths: readonly WidthAt[]): Span[] {
  return widths.slice(1).flatMap((at, index) => {
    const before = widths[index] ?? at;
    const isOpen = at.x > before.x && (at.opening > 0 || before.opening > 0);
    return isOpen ? [{ from: before.x, to: at.x }] : [];
  });
}

/** The profile at `x` as it is approached from the side of `towards`, linear between its points. */
function getRibTowards(profile: readonly RibAt[], x: number, towards: number): RibAt {
  for (let index = 1; index < profile.length; index += 1) {
    const before = profile[index - 1];
    const after = profile[index];
    if (before === undefined || after === undefined || towards < before.x || towards > after.x) continue;
    if (after.x - before.x <= 0) continue;
    const along = Math.min(1, Math.max(0, (x - before.x) / (after.x - before.x)));
    return {
      x,
      width: before.width + (after.width - before.width) * along,
      rib: before.rib + (after.rib - before.rib) * along,
    };
  }
  const end = profile.at(-1);
  return { x, width: end?.width ?? 0, rib: end?.rib ?? 0 };
}
