import { formatLength } from './format';
import type { LengthReading } from './length-grammar';
import { MM_PER_INCH } from './length-unit-names';
import type { LengthUnits } from './length-units';

export interface ExpectedSize {
  /** What this field usually holds, mm; outside it the value is kept with a warning. */
  readonly usual?: { readonly min?: number; readonly max?: number };
  /** Another size of the setup that this length should not exceed, mm: beyond it the value is kept with a warning. */
  readonly limit?: { readonly name: string; readonly max: number };
}

type AcceptedReading = Extract<LengthReading, { ok: true }>;

/** Sizes that differ by no more than this, mm, are the same size computed in two ways. */
const SAME_SIZE = 1e-6;

/**
 * A warning where a length is out of all proportion, which is mostly a length typed in the other unit.
 *
 * @param reading the length as read
 * @param units the plan's units, for the sizes in the sentence
 * @param expected what the length is judged against; its sign does not count
 * @returns one sentence, or undefined where nothing is amiss
 */
export function getSizeWarning(
  reading: AcceptedReading,
  units: LengthUnits,
  expected: ExpectedSize,
): string | undefined {
  const complaint = getComplaint(Math.abs(reading.mm.valueOf()), units, expected);
  if (complaint === undefined) {
    return undefined;
  }
  const otherUnit = units === 'in' ? 'mm' : 'in';
  const other = getOtherReading(reading, units);
  const isLikely = other !== undefined && getComplaint(Math.abs(other), units, expected) === undefined;
  const question = isLikely ? `; did you mean ${reading.figure} ${otherUnit} = ${show(other, units)}?` : '.';
  return `${reading.figure} ${reading.unit} ${complaint}${question}`;
}

function getComplaint(size: number, units: LengthUnits, { limit, usual }: ExpectedSize): string | undefined {
  if (limit !== undefined && size > limit.max + SAME_SIZE) {
    return `exceeds the ${limit.name}, ${show(limit.max, units)}`;
  }
  if (usual?.max !== undefined && size > usual.max + SAME_SIZE) {
    return `is more than is usual here, ${show(usual.max, units)}`;
  }
  return usual?.min !== undefined && size < usual.min - SAME_SIZE
    ? `is less than is usual here, ${show(usual.min, units)}`
    : undefined;
}

/** The length in mm had a bare number been meant in the other unit; undefined when the unit was typed. */
function getOtherReading(reading: AcceptedReading, units: LengthUnits): number | undefined {
  const other = units === 'in' ? reading.bare : reading.bare?.mul(MM_PER_INCH);
  return other?.valueOf();
}

function show(mm: number, units: LengthUnits): string {
  return formatLength(mm, units, { unit: true });
}
