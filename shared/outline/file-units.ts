import { formatLength } from '../units/format';
import type { LengthUnits } from '../units/length-units';

/** Units a drawing may be in. `px` is the CSS pixel, 1/96 in; `pt` 1/72 in; `thou` 0.001 in. */
export type FileUnit = 'mm' | 'cm' | 'dm' | 'm' | 'micron' | 'in' | 'thou' | 'ft' | 'yd' | 'px' | 'pt' | 'pc';

/** Sizes in mm. The inch is exact by definition; px, pt and pc are those of the CSS Values and Units standard, section 6.2. */
export const FILE_UNIT_SIZES: Readonly<Record<FileUnit, number>> = {
  mm: 1,
  cm: 10,
  dm: 100,
  m: 1000,
  micron: 0.001,
  in: 25.4,
  thou: 0.0254,
  ft: 304.8,
  yd: 914.4,
  px: 25.4 / 96,
  pt: 25.4 / 72,
  pc: 25.4 / 6,
};

export const FILE_UNIT_WORDS: Readonly<Record<FileUnit, string>> = {
  mm: 'millimetres',
  cm: 'centimetres',
  dm: 'decimetres',
  m: 'metres',
  micron: 'micrometres',
  in: 'inches',
  thou: 'thousandths of an inch',
  ft: 'feet',
  yd: 'yards',
  px: 'pixels of 1/96 in',
  pt: 'points of 1/72 in',
  pc: 'picas',
};

/** A milled part: its longest side is in this range, and its shorter one at least the last figure. House rule; common practice, no source. */
const PLAUSIBLE = { shortest: 8, longest: 2000, thinnest: 1 } as const;

export interface UnitCandidate {
  unit: FileUnit;
  /** Size of the drawing when it is in this unit, mm. */
  width: number;
  height: number;
  isPlausible: boolean;
}

export interface UnitProposal {
  unit: FileUnit;
  /** True when the file does not say, or says something that cannot be: the user is asked. */
  mustAsk: boolean;
  /** The declared unit first, then inch and mm. */
  candidates: UnitCandidate[];
  /** One sentence on why this one is proposed. */
  reason: string;
}

/**
 * Which unit a drawing is in. A declared unit is taken unless the size it gives is no milled part's and another's is;
 * without one, the plausible of inch and mm is proposed, and where both are, the plan's own.
 *
 * @param width size of the drawing along x, file units
 * @param height size along y, file units
 * @param declared what the file says, or null
 * @param planUnits unit of the plan, which breaks ties
 * @example proposeUnit(4.724, 0.787, null, 'mm').unit // 'in': 119.99 x 19.99 mm is plausible, 4.7 x 0.8 mm is not
 */
export function proposeUnit(
  width: number,
  height: number,
  declared: FileUnit | null,
  planUnits: LengthUnits,
): UnitProposal {
  const units: FileUnit[] = [...(declared === null ? [] : [declared]), 'in', 'mm'];
  const candidates = [...new Set(units)].map((unit) => getCandidate(unit, width, height));
  const plausible = candidates.filter((candidate) => candidate.isPlausible);
  const tell = (unit: FileUnit): string => describeSize(getCandidate(unit, width, height));
  if (declared !== null) {
    const isSaidPlausible = plausible.some(({ unit }) => unit === declared);
    const other = plausible[0];
    if (isSaidPlausible || other === undefined) {
      const reason = `The file says that it is in ${FILE_UNIT_WORDS[declared]}: ${tell(declared)}.`;
      return { unit: declared, mustAsk: !isSaidPlausible, candidates, reason };
    }
    const reason = `The file says ${FILE_UNIT_WORDS[declared]}, which would make it ${tell(declared)}; ${FILE_UNIT_WORDS[other.unit]} is likelier: ${tell(other.unit)}.`;
    return { unit: other.unit, mustAsk: true, candidates, reason };
  }
  const only = plausible.length === 1 ? plausible[0] : undefined;
  const unit = only?.unit ?? planUnits;
  const otherUnit = unit === 'in' ? 'mm' : 'in';
  const because =
    only === undefined
      ? 'and its size does not tell, so the unit of the plan is proposed'
      : `and ${FILE_UNIT_WORDS[unit]} is the plausible one`;
  const reason = `The file does not say its unit, ${because}: ${tell(unit)}, where ${FILE_UNIT_WORDS[otherUnit]} would make it ${tell(otherUnit)}.`;
  return { unit, mustAsk: true, candidates, reason };
}

function getCandidate(unit: FileUnit, width: number, height: number): UnitCandidate {
  const size = FILE_UNIT_SIZES[unit];
  const longest = Math.max(width, height) * size;
  const shorter = Math.min(width, height) * size;
  const isPlausible = longest >= PLAUSIBLE.shortest && longest <= PLAUSIBLE.longest && shorter >= PLAUSIBLE.thinnest;
  return { unit, width: width * size, height: height * size, isPlausible };
}

const INCH_UNITS: ReadonlySet<FileUnit> = new Set(['in', 'thou', 'ft', 'yd', 'px', 'pt', 'pc']);

/** Such as "4.724 × 0.787 in (119.99 × 19.99 mm)"; the system that the unit belongs to comes first. */
export function describeSize({ unit, width, height }: Pick<UnitCandidate, 'unit' | 'width' | 'height'>): string {
  const show = (units: LengthUnits): string =>
    `${formatLength(width, units)} × ${formatLength(height, units, { unit: true })}`;
  return INCH_UNITS.has(unit) ? `${show('in')} (${show('mm')})` : `${show('mm')} (${show('in')})`;
}
