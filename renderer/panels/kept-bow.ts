import type { BowMeasurement } from '../../shared/model/shop';

/** A measured bow before the shop has given it an id. */
export type MeasuredBow = Omit<BowMeasurement, 'id'>;

/** Whether the shop has kept this very measurement; what is noted beside it makes it no other. */
export function isBowKept(kept: readonly BowMeasurement[], bow: MeasuredBow): boolean {
  const { note: _note, ...measured } = bow;
  const fields = Object.keys(measured) as (keyof typeof measured)[];
  return kept.some((each) => fields.every((field) => each[field] === measured[field]));
}
