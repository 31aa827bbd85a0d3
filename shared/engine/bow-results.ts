import type { Part } from '../model/plan';
import type { BowMeasurement } from '../model/shop';
import { BEAM_SOURCE, computeRectangleSecondMoment } from './beam';
import { BOW_SOURCE, type BowReference, computeBowConstant, computeReleaseBow } from './bow';
import type { EngineContext } from './context';
import type { Figure } from './figure';
import { computeForcedStraight } from './forced-straight';
import { countTouching } from './hold-state';
import type { BowResult } from './results';
import type { SeatedBlank, Setup } from './setup';
import { getClassBow } from './straightness';
import { COMMON_PRACTICE, getFigure, getInput, getTextInput } from './workings';

/** Bow of every part on release, straightness of the bar, and what pulling it straight costs. */
export function computeBow(context: EngineContext, setup: Setup): BowResult[] {
  return context.parts.map((part) => {
    const measured = getMeasurements(context, setup);
    const reference = measured.at(-1) ?? getAssumedReference(context);
    const constant = computeBowConstant(reference);
    const bow = computeReleaseBow(constant, part.length, part.height);
    const scaled = measured.map((one) => computeReleaseBow(computeBowConstant(one), part.length, part.height));
    const blank = getLongestBlank(setup, part);
    const forced = getForcedStraight(context, setup, part, blank);
    return {
      partId: part.id,
      bow: getBowFigure(part, bow, reference, measured.at(-1) ?? null),
      assumed: measured.length === 0,
      measurements: measured.length,
      spread: scaled.length > 0 ? { least: Math.min(...scaled), most: Math.max(...scaled) } : null,
      straightness: getStraightnessFigure(context, setup, part, blank),
      ...forced,
    };
  });
}

/**
 * The shop's own measurements that speak for this metal, oldest first: those on the same size class where there are any,
 * else all of the same material; both sides cut before those cut on one.
 */
export function getMeasurements(context: EngineContext, setup: Pick<Setup, 'section'>): BowMeasurement[] {
  const materialId = context.material?.id;
  const usable = context.shop.bowMeasurements.filter(
    (one) => one.materialId === materialId && one.length > 0 && one.height > 0 && one.bow >= 0,
  );
  const sameClass = usable.filter((one) => one.sizeClassId === setup.section.sizeClassId);
  const pool = sameClass.length > 0 ? sameClass : usable;
  const bothSides = pool.filter((one) => one.sidesCut === 'both');
  const chosen = bothSides.length > 0 ? bothSides : pool;
  return chosen.toSorted((a, b) => (a.date < b.date ? -1 : a.date > b.date ? 1 : 0));
}

function getAssumedReference(context: EngineContext): BowReference {
  const { rules } = context;
  return { bow: rules.bowReference, length: rules.bowReferenceLength, height: rules.bowReferenceHeight };
}

function getBowFigure(part: Part, bow: number, reference: BowReference, measured: BowMeasurement | null): Figure {
  const from = measured === null ? 'assumed' : measured.date === '' ? 'measured' : `measured ${measured.date}`;
  return getFigure('length', bow, {
    rule:
      measured === null
        ? 'Bow of the part on release, scaled from an assumed one: measure a part and enter what it did'
        : 'Bow of the part on release, scaled from the shop’s last measurement',
    formula: 'δ = k L² / h, k = δref href / Lref²',
    inputs: [
      getTextInput('reference', from),
      getInput('δref', reference.bow, 'length'),
      getInput('Lref', reference.length, 'length'),
      getInput('href', reference.height, 'length'),
      getInput('L', part.length, 'length'),
      getInput('h', part.height, 'length'),
    ],
    source: measured === null ? `${BOW_SOURCE}; reference ${COMMON_PRACTICE}` : BOW_SOURCE,
  });
}

/** Bow of the bar over one part: the measured one scaled by L², or what its class guarantees over the part's length. */
function getStraightnessFigure(
  context: EngineContext,
  setup: Setup,
  part: Part,
  blank: SeatedBlank | undefined,
): Figure {
  const measured = getMeasuredBow(context);
  if (measured !== null && blank !== undefined && blank.length > 0) {
    return getFigure('length', measured * (part.length / blank.length) ** 2, {
      rule: 'Bow of the bar as measured over the blank, scaled to the part as one uniform curve',
      formula: 'b = measured (L / blank)²',
      inputs: [
        getInput('measured', measured, 'length'),
        getInput('L', part.length, 'length'),
        getInput('blank', blank.length, 'length'),
      ],
      source: 'measured; bright-steel guide: bow rescales with the square of length',
    });
  }
  const sizeClass = context.sizeClassById.get(setup.section.sizeClassId) ?? null;
  const straightness = sizeClass?.straightness;
  return getFigure('length', getClassBow(sizeClass, part.length), {
    rule: 'Bow of the bar over one part that its class still allows: in proportion to length, or to its square, the larger',
    formula: 'b = max(p L, b0 (L / L0)²)',
    inputs: [
      getInput('L', part.length, 'length'),
      getInput('p', straightness?.perLength ?? 0, 'ratio'),
      getInput('b0', straightness?.bow ?? 0, 'length'),
      getInput('L0', straightness?.overLength ?? 0, 'length'),
    ],
    source: straightness?.source ?? COMMON_PRACTICE,
  });
}

function getMeasuredBow(context: EngineContext): number | null {
  const { measuredBow } = context.plan.stock;
  return measuredBow !== null && Number.isFinite(measuredBow) ? Math.max(0, measuredBow) : null;
}

function getLongestBlank(setup: Setup, part: Part): SeatedBlank | undefined {
  const carrying = setup.blanks.filter((blank) => blank.parts.some((placed) => placed.partId === part.id));
  return carrying.reduce<SeatedBlank | undefined>(
    (longest, blank) => (longest === undefined || blank.length > longest.length ? blank : longest),
    undefined,
  );
}

/** Only two vises or more pull a bar straight, and only over the length between their outermost jaw ends. */
function getForcedStraight(
  context: EngineContext,
  setup: Setup,
  part: Part,
  blank: SeatedBlank | undefined,
): Pick<BowResult, 'forcedStraightN' | 'springBack' | 'forcedStressMPa'> {
  const isForced = blank !== undefined && countTouching(blank) >= 2;
  const span = isForced ? getClampedSpan(blank) : 0;
  const section = { height: setup.section.height.nominal, thickness: setup.section.thickness.nominal };
  const youngsModulusMPa = context.material?.youngsModulusMPa ?? 0;
  const bow = isForced ? getBowOver(context, setup, blank, span) : 0;
  const forced = computeForcedStraight(bow, span, section, Math.min(part.length, span), youngsModulusMPa);
  return {
    forcedStraightN: getFigure('force', forced.forceN, {
      rule: isForced
        ? 'Several vises pull a bent bar straight without any feel; let go, it springs back'
        : 'One vise does not pull the bar straight',
      formula: 'F = 48 E I b / L³, I = H T³ / 12, spring-back = b (part / L)², σ = 4 E b T / L²',
      inputs: [
        getInput('b', bow, 'length'),
        getInput('L', span, 'length'),
        getInput('E', youngsModulusMPa, 'stress'),
        getInput('H', section.height, 'length'),
        getInput('T', section.thickness, 'length'),
        getInput('I', computeRectangleSecondMoment(section.height, section.thickness), 'secondMoment'),
        getInput('part', Math.min(part.length, span), 'length'),
        getInput('spring-back', forced.springBack, 'length'),
        getInput('σ', forced.stressMPa, 'stress'),
      ],
      source: BEAM_SOURCE,
    }),
    springBack: forced.springBack,
    forcedStressMPa: forced.stressMPa,
  };
}

function getClampedSpan(blank: SeatedBlank): number {
  const from = Math.min(...blank.contacts.map((contact) => contact.from));
  const to = Math.max(...blank.contacts.map((contact) => contact.to));
  return Math.max(0, to - from);
}

function getBowOver(context: EngineContext, setup: Setup, blank: SeatedBlank, span: number): number {
  const measured = getMeasuredBow(context);
  if (measured !== null) return blank.length > 0 ? measured * (span / blank.length) ** 2 : 0;
  return getClassBow(context.sizeClassById.get(setup.section.sizeClassId) ?? null, span);
}
