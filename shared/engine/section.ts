import type { WayUp } from '../model/plan';
import type { BarOffer, SizeClass, SurfaceState } from '../model/shop';
import { getBarLimits, getMeasuredLimits, getUpTo } from './bar-size';
import { type EngineContext, isSize } from './context';
import { getDecided, getLengthInput } from './decide';
import type { Decided, Limits } from './figure';
import type { SectionResult } from './results';
import { SAME_LENGTH } from './rounding';
import { COMMON_PRACTICE, getTextInput } from './workings';

/** A bar on offer and how it stands in the vise. */
export interface SectionOption {
  readonly bar: BarOffer;
  readonly wayUp: WayUp;
}

/** The plan's choice of bar and way up, with its reasons. */
export interface SectionDecision {
  readonly barId: Decided<string>;
  readonly wayUp: Decided<WayUp>;
}

/** Every bar on offer both ways up; a square bar once. Bars without a usable size are left out. */
export function getSectionOptions(context: EngineContext): SectionOption[] {
  return context.bars
    .filter((bar) => isSize(bar.width) && isSize(bar.thickness))
    .flatMap((bar): SectionOption[] => {
      const onEdge: SectionOption = { bar, wayUp: 'onEdge' };
      return Math.abs(bar.width - bar.thickness) < SAME_LENGTH ? [onEdge] : [onEdge, { bar, wayUp: 'flat' }];
    });
}

/**
 * A bar as held: sizes with limits, corner, skin and surface.
 *
 * @param option the bar and its way up
 * @param decision why this one, or null for a row of the comparison
 * @param isInHand true when it is the bar the plan takes: then the plan's measured sizes win over the class
 */
export function computeSection(
  context: EngineContext,
  { bar, wayUp }: SectionOption,
  decision: SectionDecision | null,
  isInHand: boolean,
): SectionResult {
  const { stock, cleanup, holding } = context.plan;
  const sizeClass = context.sizeClassById.get(bar.sizeClassId) ?? null;
  const limits = getBarLimits(bar, sizeClass);
  const byClass =
    wayUp === 'onEdge'
      ? { height: limits.width, thickness: limits.thickness }
      : { height: limits.thickness, thickness: limits.width };
  const measuredHeight = isInHand ? stock.measuredHeight : null;
  const measuredThickness = isInHand ? stock.measuredThickness : null;
  const height = getMeasured(measuredHeight) ?? byClass.height;
  const thickness = getMeasured(measuredThickness) ?? byClass.thickness;
  const isMeasured = limits.measured || height !== byClass.height || thickness !== byClass.thickness;
  const sideSkin = getUpTo(thickness.nominal, sizeClass?.skinBands ?? [])?.skin ?? 0;

  return {
    barId: decision?.barId ?? takeAsGiven(bar.id),
    wayUp: decision?.wayUp ?? takeAsGiven(wayUp),
    name: bar.name,
    sizeClassId: bar.sizeClassId,
    height,
    thickness,
    sizeFrom: isMeasured ? 'measured' : 'class',
    cornerRadius: getUpTo(bar.thickness, sizeClass?.cornerBands ?? [])?.radius ?? 0,
    skinPerSide: getDecided(cleanup.skinPerSide, sideSkin, {
      rule: 'Least skin to machine off each side, by the size of the bar',
      formula: 'skin = table(thickness as held)',
      inputs: [
        getLengthInput('thickness as held', thickness.nominal),
        getTextInput('size class', sizeClass?.name ?? 'none'),
      ],
      source: sizeClass?.source ?? COMMON_PRACTICE,
    }),
    skinTop: getUpTo(height.nominal, sizeClass?.skinBands ?? [])?.skin ?? 0,
    surface: holding.grippedSurface === 'auto' ? getSurface(sizeClass) : holding.grippedSurface.pinned,
    surfaceState: sizeClass?.surface ?? 'rolled',
    massKgPerM: height.nominal * thickness.nominal * (context.material?.densityKgM3 ?? 0) * 1e-6,
  };
}

/** How a bar's own surface counts against the jaws. A drawn face is smooth, so it gets the lower friction (common practice, no source). */
const SURFACE_IN_JAWS: Record<SurfaceState, SectionResult['surface']> = {
  ground: 'ground',
  drawn: 'machined',
  milled: 'machined',
  rolled: 'asSupplied',
  sawn: 'asSupplied',
};

function getSurface(sizeClass: SizeClass | null): SectionResult['surface'] {
  return sizeClass === null ? 'machined' : SURFACE_IN_JAWS[sizeClass.surface];
}

function getMeasured(size: number | null): Limits | null {
  return size !== null && isSize(size) ? getMeasuredLimits(size) : null;
}

function takeAsGiven<T>(value: T): Decided<T> {
  return {
    value,
    pinned: false,
    auto: value,
    why: { rule: 'One row of the comparison of sections', formula: '', inputs: [], source: COMMON_PRACTICE },
  };
}
