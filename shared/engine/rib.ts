import { getPinned } from '../model/choice';
import type { Cut, Part, Span } from '../model/plan';
import { type EngineContext, getAllowance } from './context';
import { computeRibTarget, getSideCount } from './cutter';
import type { Figure } from './figure';
import { type CutOffDepth, computeCutOffDepth } from './release-depth';
import type { CutForceResult, RibResult } from './results';
import {
  computeRibProfile,
  computeTabProfile,
  getOpenSpans,
  getRibPieces,
  type RibAt,
  type RibCut,
} from './rib-profile';
import {
  computeRibNeeded,
  computeRibSection,
  computeRibShearN,
  computeRibStressMPa,
  computeSnapForceN,
  getEvenRib,
  getSnapBy,
  RIB_SOURCE,
  type RibSection,
  type SnapScale,
} from './rib-strength';
import type { SectionSetup } from './setup';
import { computeTabRow, computeTabs, type TabRequest } from './tabs';
import { computeWidthProfile, type WidthAt } from './width-profile';
import { GEOMETRY, getFigure, getInput, getTextInput } from './workings';

/** What the cut-off leaves of one part, before any force works on it. */
interface RibShape {
  depth: CutOffDepth;
  widths: WidthAt[];
  profile: RibAt[];
  tabs: Span[];
  tabsFrom: RibResult['tabsFrom'];
  tabsOk: boolean;
  section: RibSection;
}

/** Length, kerf and what the sides carry, for one part. */
interface RibCase {
  context: EngineContext;
  setup: Pick<SectionSetup, 'cutter'>;
  part: Part;
  kerf: number;
}

/** The shop's scale of what breaks a rib. */
export function getSnapScale(context: EngineContext): SnapScale {
  const { handSnapForce, malletSnapForce, prySnapForce } = context.rules;
  return { handN: handSnapForce, malletN: malletSnapForce, pryN: prySnapForce };
}

/** Height of a push at the top of the part over the foot of its rib, mm. */
export function getTopLever(context: EngineContext, part: Part, kerf: number): number {
  const allowance = getAllowance(context, part);
  return kerf + allowance.bottom + part.height + allowance.top;
}

/** Force at the top of the part that breaks a continuous rib of the thickness aimed at, N; for choosing rib or tabs. */
export function computeRibSnapForceN(context: EngineContext, setup: Pick<SectionSetup, 'cutter'>, part: Part): number {
  const shape = getShape({ context, setup, part, kerf: setup.cutter.kerf }, 'rib', 0);
  const lever = getTopLever(context, part, setup.cutter.kerf);
  return computeSnapForceN(shape.section, context.material?.tensileStrengthMPa ?? 0, lever);
}

/**
 * The rib or the tabs of one part: along its length, its strength now and under what is planned after the cut-off, and
 * what it takes to break it.
 *
 * @param keep what the cut-off leaves
 * @param cuts forces of the plan's cuts
 */
export function computeRibResult(
  context: EngineContext,
  setup: Pick<SectionSetup, 'cutter'>,
  part: Part,
  keep: 'rib' | 'tabs',
  cuts: readonly CutForceResult[],
): RibResult {
  const kerf = setup.cutter.kerf;
  const cutOffForceN = getCutOffForceN(cuts);
  const shape = getShape({ context, setup, part, kerf }, keep, cutOffForceN);
  const allowedStressMPa = getAllowedStressMPa(context);
  const standing = shape.tabs.length > 0 ? getStanding(shape) : shape.profile;
  const narrowest = getExtreme(standing, (a, b) => a.rib < b.rib);
  const widest = getExtreme(shape.profile, (a, b) => a.rib > b.rib);
  const snapForce = getSnapFigure(context, part, kerf, shape.section);
  return {
    partId: part.id,
    narrowest: { rib: narrowest.rib, x: narrowest.x },
    widest: { rib: widest.rib, x: widest.x },
    widestFigure: getWidestFigure(context, part, shape, widest),
    profile: shape.profile,
    ribLength: shape.section.length,
    tabs: shape.tabs.map((tab) => ({ x: (tab.from + tab.to) / 2, from: tab.from, to: tab.to })),
    tabsFrom: shape.tabsFrom,
    tabsOk: shape.tabsOk,
    shearStrengthN: computeRibShearN(shape.section, context.material?.yieldStrengthMPa ?? 0),
    bendingStressNowMPa: getStressFigure(
      'Bending of the rib under the cut-off itself, at the height of the cutter; an estimate',
      cutOffForceN,
      kerf / 2,
      shape.section,
    ),
    allowedStressMPa,
    later: getLater(context, part, kerf, shape.section, cuts),
    snapForceN: snapForce,
    snapBy: getSnapBy(snapForce.value, getSnapScale(context)),
  };
}

function getAllowedStressMPa(context: EngineContext): number {
  return (context.material?.yieldStrengthMPa ?? 0) * Math.max(0, context.rules.ribStressFraction);
}

function getCutOffForceN(cuts: readonly CutForceResult[]): number {
  return Math.max(0, ...cuts.filter((cut) => cut.kind === 'cutOff').map((cut) => cut.sideForceN.value));
}

function getShape(one: RibCase, keep: 'rib' | 'tabs', cutOffForceN: number): RibShape {
  const { context, setup, part, kerf } = one;
  const allowance = getAllowance(context, part);
  const depth = computeCutOffDepth(context, setup, part);
  const widths = computeWidthProfile(part, { low: -allowance.bottom - kerf, high: -allowance.bottom });
  const cut: RibCut = {
    sides: context.plan.release.sides,
    ribTarget: Math.max(0, computeRibTarget(context).value),
    reach: depth.reach.reach,
    sideAllowance: allowance.fixedSide + allowance.movingSide,
  };
  const standing = computeRibProfile(cut, widths);
  if (keep === 'rib') {
    const section = computeRibSection(getRibPieces(standing));
    return { depth, widths, profile: standing, tabs: [], tabsFrom: 'none', tabsOk: true, section };
  }
  const between = computeRibProfile({ ...cut, ribTarget: 0 }, widths);
  const placed = placeTabs(one, widths, cut.ribTarget, cutOffForceN);
  const profile = computeTabProfile(standing, between, placed.tabs);
  return { depth, widths, profile, ...placed, section: computeRibSection(getRibPieces(profile)) };
}

function placeTabs(
  { context, part, kerf }: RibCase,
  widths: readonly WidthAt[],
  rib: number,
  cutOffForceN: number,
): Pick<RibShape, 'tabs' | 'tabsFrom' | 'tabsOk'> {
  const { rules } = context;
  const tabLength = Math.min(part.length, getPinned(context.plan.release.tabLength) ?? rules.tabLength);
  const request: TabRequest = {
    length: part.length,
    tabLength,
    span: rules.tabSpan,
    endOverhang: rules.tabEndOverhang,
    blocked: [...part.keepOuts, ...getOpenSpans(widths)],
    leastCount: getLeastTabs(context, tabLength, rib, kerf, cutOffForceN),
  };
  const pinned = getPinned(context.plan.release.tabs)?.filter((tab) => tab.partId === part.id) ?? [];
  const row =
    pinned.length > 0
      ? computeTabRow(
          request,
          pinned.map((tab) => tab.x),
        )
      : computeTabs(request);
  return {
    tabs: row.centres.map((centre) => ({
      from: Math.max(0, centre - tabLength / 2),
      to: Math.min(part.length, centre + tabLength / 2),
    })),
    tabsFrom: pinned.length > 0 ? 'pinned' : 'auto',
    tabsOk: row.ok,
  };
}

/** Tabs that carry the cut-off's side force in bending and in shear within the allowed share of yield. */
function getLeastTabs(
  context: EngineContext,
  tabLength: number,
  rib: number,
  kerf: number,
  cutOffForceN: number,
): number {
  const one = getEvenRib(tabLength, rib);
  const allowed = getAllowedStressMPa(context);
  if (!(allowed > 0) || !(one.squareMm3 > 0)) return 1;
  const byBending = computeRibStressMPa(one, cutOffForceN, kerf / 2) / allowed;
  const byShear = cutOffForceN / computeRibShearN(one, allowed);
  return Math.max(1, Math.ceil(Math.max(byBending, byShear) - 1e-9));
}

function getStanding(shape: RibShape): RibAt[] {
  const inTab = shape.profile.filter((at) =>
    shape.tabs.some((tab) => at.x >= tab.from - 1e-9 && at.x <= tab.to + 1e-9),
  );
  const standing = inTab.filter((at) => at.rib > 0);
  return standing.length > 0 ? standing : shape.profile;
}

function getExtreme(profile: readonly RibAt[], isBetter: (a: RibAt, b: RibAt) => boolean): RibAt {
  const first = profile[0] ?? { x: 0, width: 0, rib: 0 };
  return profile.reduce((best, at) => (isBetter(at, best) ? at : best), first);
}

/** Every cut planned after the cut-off, at its own height above the foot of the rib. */
function getLater(
  context: EngineContext,
  part: Part,
  kerf: number,
  section: RibSection,
  cuts: readonly CutForceResult[],
): RibResult['later'] {
  const first = context.plan.cuts.findIndex((cut) => cut.kind === 'cutOff');
  if (first < 0) return [];
  const allowed = getAllowedStressMPa(context);
  return context.plan.cuts.slice(first + 1).flatMap((cut): RibResult['later'] => {
    const force = cuts.find((one) => one.cutId === cut.id);
    if (cut.kind === 'cutOff' || force === undefined || !force.feasible) return [];
    const height = getLaterHeight(cut, getTopLever(context, part, kerf));
    const sideForceN = force.sideForceN.value;
    const ribNeeded = computeRibNeeded(sideForceN, height, allowed, section.length);
    const rule = 'A cut planned after the cut-off bends the rib at its own height; an estimate';
    const stressMPa = getStressFigure(rule, sideForceN, height, section);
    return [{ cutId: cut.id, stressMPa, ok: section.squareMm3 > 0 && stressMPa.value <= allowed, ribNeeded }];
  });
}

function getLaterHeight(cut: Cut, top: number): number {
  const isFedDown = cut.kind === 'drill' || cut.kind === 'plunge';
  return Math.max(0, isFedDown ? top : top - Math.max(0, cut.stepDown) / 2);
}

function getWidestFigure(context: EngineContext, part: Part, shape: RibShape, widest: RibAt): Figure {
  const sides = getSideCount(context.plan.release.sides);
  const { reach } = shape.depth.reach;
  const aimedAt = Math.max(0, computeRibTarget(context).value);
  const whole = Math.min(widest.width, Math.max(aimedAt, widest.width - sides * reach));
  return getFigure('length', widest.rib, {
    rule: `Thickest place of what the cut-off leaves of ${part.name === '' ? 'the part' : part.name}`,
    formula: 'rib = min(width, max(rib aimed at, width - sides × reach)) - openings',
    inputs: [
      getInput('x', widest.x, 'length'),
      getInput('width', widest.width, 'length'),
      getInput('rib aimed at', aimedAt, 'length'),
      getInput('reach', reach, 'length'),
      getInput('sides', sides, 'count'),
      getInput('openings', whole - widest.rib, 'length'),
      getTextInput('beside the work runs the', shape.depth.reach.limitedBy),
      getInput('wall above the slot', shape.depth.wallAbove, 'length'),
    ],
    source: GEOMETRY,
  });
}

function getStressFigure(rule: string, forceN: number, height: number, section: RibSection): Figure {
  return getFigure('stress', computeRibStressMPa(section, forceN, height), {
    rule,
    formula: 'σ = 6 F z / Σ ℓ b²',
    inputs: [
      getInput('F', forceN, 'force'),
      getInput('z', height, 'length'),
      getInput('Σ ℓ b²', section.squareMm3, 'sectionModulus'),
      getInput('Σ ℓ', section.length, 'length'),
    ],
    source: RIB_SOURCE,
  });
}

function getSnapFigure(context: EngineContext, part: Part, kerf: number, section: RibSection): Figure {
  const tensileStrengthMPa = context.material?.tensileStrengthMPa ?? 0;
  const lever = getTopLever(context, part, kerf);
  return getFigure('force', computeSnapForceN(section, tensileStrengthMPa, lever), {
    rule: 'Push across the top of the part that folds the rib over; an estimate',
    formula: 'F = σu Σ ℓ b² / (4 h)',
    inputs: [
      getInput('σu', tensileStrengthMPa, 'stress'),
      getInput('Σ ℓ b²', section.squareMm3, 'sectionModulus'),
      getInput('h', lever, 'length'),
    ],
    source: RIB_SOURCE,
  });
}
